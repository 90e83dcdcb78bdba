/**
 * Runs started on the desk of this machine: has a pattern of the shelf published, keeps what is told of
 * it, and lets anybody who asks later hear it from the beginning. A run is written down when it starts and
 * when it ends; one cut off by a restart is taken up again, unless its pattern changed meanwhile.
 */
import path from 'node:path';
import { Fault } from '../base/fault.ts';
import { DESK_LIMITS } from '../base/limits.ts';
import { blocks } from '../findings/finding.ts';
import type { Settings } from '../pipeline/payloads.ts';
import type { Progress } from '../pipeline/ports.ts';
import type { Shelf } from '../shelf/shelf.ts';
import type { Stream } from './answer.ts';
import { readRuns, type Run, writeRun } from './run-record.ts';
import type { Runs } from './runs.ts';
import type { Crew } from './work/crew.ts';

interface Kept {
  run: Run;
  events: Progress[];
  readonly stop: AbortController;
  readonly listeners: Set<(event: Progress | 'end') => void>;
}

export interface RunsWorld {
  /** Holds the patterns. */
  readonly folder: string;
  readonly shelf: Pick<Shelf, 'state'>;
  /** Where releases go: documents to open, and `.store` beside them. */
  readonly releases: string;
  /** Where runs are written down. */
  readonly records: string;
  readonly crew: Crew;
  readonly newId: () => string;
  readonly now: () => Date;
}

export class LocalRuns implements Runs {
  readonly #world: RunsWorld;
  readonly #kept = new Map<string, Kept>();
  #closing = false;

  private constructor(world: RunsWorld) {
    this.#world = world;
  }

  static async open(world: RunsWorld): Promise<LocalRuns> {
    const runs = new LocalRuns(world);
    for (const run of await readRuns(world.records)) {
      const kept = keptOf(run);
      runs.#kept.set(run.run, kept);
      if (run.state === 'working') await runs.#takeUp(kept);
    }
    return runs;
  }

  async of(source: string): Promise<readonly Run[]> {
    return this.#of(source);
  }

  #of(source: string): readonly Run[] {
    const own = [...this.#kept.values()]
      .map(({ run }) => run)
      .filter((run) => run.source === source);
    return own.sort((a, b) => (a.started < b.started ? 1 : -1));
  }

  async get(id: string): Promise<Run> {
    return this.#find(id).run;
  }

  async start(source: string, settings: Settings): Promise<Run> {
    const seen = await this.#world.shelf.state(source);
    const working = this.#of(source).find(({ state }) => state === 'working');
    if (working) return working;
    const started = this.#world.now().toISOString();
    const run: Run = {
      run: this.#world.newId(), source, state: 'working', started, findings: 0, blocking: 0,
      settings, seen, resumed: 0,
    }; // prettier-ignore
    const kept = keptOf(run);
    this.#kept.set(run.run, kept);
    await this.#write(run);
    void this.#work(kept);
    return run;
  }

  async cancel(id: string): Promise<void> {
    this.#find(id).stop.abort();
  }

  async listen(id: string): Promise<Stream> {
    const kept = this.#find(id);
    return {
      open(send, end) {
        for (const event of kept.events) send('progress', event);
        const hear = (event: Progress | 'end') => {
          if (event !== 'end') return send('progress', event);
          send('end', kept.run);
          end();
        };
        if (kept.run.state === 'working') kept.listeners.add(hear);
        else hear('end');
        return () => kept.listeners.delete(hear);
      },
    };
  }

  /** For closing the desk: what is at work stays written down as such, to be taken up again. */
  close(): void {
    this.#closing = true;
  }

  #find(id: string): Kept {
    const kept = this.#kept.get(id);
    if (kept) return kept;
    throw new Fault('missing', 'no such run is known here', { place: id });
  }

  #folderOf(source: string): string {
    return path.join(this.#world.folder, source);
  }

  /** Everything made before is found again by its recipe, so that little is done twice. */
  async #takeUp(kept: Kept): Promise<void> {
    const { run } = kept;
    const now = await this.#world.shelf.state(run.source).catch(() => undefined);
    const goesOn = run.seen !== undefined && run.seen === now && run.resumed < DESK_LIMITS.resumes;
    kept.run = goesOn ? { ...run, resumed: run.resumed + 1 } : { ...run, state: 'lost' };
    await this.#write(kept.run);
    if (goesOn) void this.#work(kept);
  }

  async #work(kept: Kept): Promise<void> {
    const told = (event: Progress) => {
      if (kept.events.length < DESK_LIMITS.events) kept.events.push(event);
      for (const hear of kept.listeners) hear(event);
    };
    const end = await this.#publish(kept, told);
    if (this.#closing) return;
    kept.run = { ...kept.run, ...end };
    await this.#write(kept.run).catch((error: unknown) => console.error(error));
    for (const hear of kept.listeners) hear('end');
    kept.listeners.clear();
  }

  async #publish(kept: Kept, told: (event: Progress) => void): Promise<Partial<Run>> {
    const { crew, releases, newId } = this.#world;
    const { source, settings } = kept.run;
    const job = { folder: this.#folderOf(source), releases, token: newId(), settings };
    const { signal } = kept.stop;
    try {
      const end = await crew.ask('publish', job, { signal, told });
      const { findings, outcome, ...made } = end;
      const counts = { findings: findings.length, blocking: findings.filter(blocks).length };
      return { state: outcome === 'blocked' ? 'blocked' : 'released', ...counts, ...made };
    } catch (error) {
      if (signal.aborted) return { state: 'cancelled' };
      if (!(error instanceof Fault)) throw error;
      const { message, remedy } = error;
      return { state: 'failed', message, ...(remedy !== undefined && { remedy }) };
    }
  }

  #write(run: Run): Promise<void> {
    return writeRun(this.#world.records, run, this.#world.newId());
  }
}

const keptOf = (run: Run): Kept => ({
  run,
  events: [],
  stop: new AbortController(),
  listeners: new Set(),
});
