/**
 * Runs started on the desk: publishes a pattern of the shelf, keeps what is told of it, and lets
 * anybody who asks later hear it from the beginning. A run is written down when it starts and when it
 * ends, so that one cut off by a restart is told as lost. Fields are those of the API's `Run`.
 */
import { mkdir, readdir, readFile, rename, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { z } from 'zod';
import { Fault } from '../base/fault.ts';
import { DESK_LIMITS } from '../base/limits.ts';
import { blocks } from '../findings/finding.ts';
import type { Progress, Rooms } from '../pipeline/ports.ts';
import { publish } from '../pipeline/publish.ts';
import { folderStore } from '../store/folder.ts';
import type { Stream } from './answer.ts';

const record = z.object({
  run: z.string(),
  /** The folder on the shelf. */
  source: z.string(),
  state: z.enum(['working', 'released', 'blocked', 'failed', 'lost', 'cancelled']),
  started: z.string(),
  findings: z.number(),
  blocking: z.number(),
  pattern: z.string().optional(),
  version: z.string().optional(),
  message: z.string().optional(),
  remedy: z.string().optional(),
  made: z.number().optional(),
  reused: z.number().optional(),
  setAside: z.string().optional(),
});
export type Run = z.output<typeof record>;

interface Kept {
  run: Run;
  readonly events: Progress[];
  readonly stop: AbortController;
  readonly listeners: Set<(event: Progress | 'end') => void>;
}

export interface RunsWorld {
  /** Where releases go: documents to open, and `.store` beside them. */
  readonly releases: string;
  /** Where runs are written down. */
  readonly records: string;
  readonly rooms: Rooms;
  readonly newId: () => string;
  readonly now: () => Date;
}

export class Runs {
  readonly #world: RunsWorld;
  readonly #kept = new Map<string, Kept>();

  private constructor(world: RunsWorld) {
    this.#world = world;
  }

  static async open(world: RunsWorld): Promise<Runs> {
    const runs = new Runs(world);
    const names = await readdir(world.records).catch(() => []);
    for (const name of names.filter((each) => each.endsWith('.json')).sort()) {
      const text = await readFile(path.join(world.records, name), 'utf8');
      const read = record.parse(JSON.parse(text));
      const run: Run = read.state === 'working' ? { ...read, state: 'lost' } : read;
      runs.#kept.set(run.run, keptOf(run));
    }
    return runs;
  }

  /** Latest first. */
  of(source: string): readonly Run[] {
    const own = [...this.#kept.values()]
      .map(({ run }) => run)
      .filter((run) => run.source === source);
    return own.sort((a, b) => (a.started < b.started ? 1 : -1));
  }

  get(id: string): Run {
    return this.#find(id).run;
  }

  /** One run of a pattern at a time; a second call joins the one at work. */
  async start(source: string, folder: string): Promise<Run> {
    const working = this.of(source).find(({ state }) => state === 'working');
    if (working) return working;
    const started = this.#world.now().toISOString();
    const run: Run = {
      run: this.#world.newId(), source, state: 'working', started, findings: 0, blocking: 0,
    }; // prettier-ignore
    const kept = keptOf(run);
    this.#kept.set(run.run, kept);
    await this.#write(run);
    void this.#work(kept, folder);
    return run;
  }

  cancel(id: string): void {
    this.#find(id).stop.abort();
  }

  /** What happened so far, then what happens. */
  listen(id: string): Stream {
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

  /** Ends what is at work, for closing the desk. */
  stopAll(): void {
    for (const { stop } of this.#kept.values()) stop.abort();
  }

  #find(id: string): Kept {
    const kept = this.#kept.get(id);
    if (kept) return kept;
    throw new Fault('missing', 'no such run is known here', { place: id });
  }

  async #work(kept: Kept, folder: string): Promise<void> {
    const { rooms, releases, newId } = this.#world;
    const told = (event: Progress) => {
      if (kept.events.length < DESK_LIMITS.events) kept.events.push(event);
      for (const hear of kept.listeners) hear(event);
    };
    kept.run = {
      ...kept.run,
      ...(await this.#publish(kept, { rooms, releases, newId }, folder, told)),
    };
    await this.#write(kept.run).catch((error: unknown) => console.error(error));
    for (const hear of kept.listeners) hear('end');
    kept.listeners.clear();
  }

  async #publish(
    kept: Kept,
    { rooms, releases, newId }: Pick<RunsWorld, 'rooms' | 'releases' | 'newId'>,
    folder: string,
    told: (event: Progress) => void,
  ): Promise<Partial<Run>> {
    const order = {
      bundle: folder,
      releases: folderStore(path.join(releases, '.store')),
      folder: releases,
      signal: kept.stop.signal,
    };
    try {
      const end = await publish(order, { rooms, token: newId() }, told);
      const { findings } = end;
      const counts = { findings: findings.length, blocking: findings.filter(blocks).length };
      if (end.outcome === 'blocked') return { state: 'blocked', ...counts };
      const { manifest, made, reused, setAside } = end;
      const { pattern, version } = manifest;
      return { state: 'released', ...counts, pattern, version, made, reused, setAside };
    } catch (error) {
      if (kept.stop.signal.aborted) return { state: 'cancelled' };
      if (!(error instanceof Fault)) console.error(error);
      const { message, remedy } =
        error instanceof Fault
          ? error
          : new Fault('store', 'the program made a mistake of its own; nothing was released', {
              remedy: 'what it was stands where the desk was started',
            });
      return { state: 'failed', message, ...(remedy !== undefined && { remedy }) };
    }
  }

  async #write(run: Run): Promise<void> {
    const { records, newId } = this.#world;
    await mkdir(records, { recursive: true });
    const building = path.join(records, `.${newId()}`);
    await writeFile(building, `${JSON.stringify(run, null, 2)}\n`);
    await rename(building, path.join(records, `${run.run}.json`));
  }
}

const keptOf = (run: Run): Kept => ({
  run,
  events: [],
  stop: new AbortController(),
  listeners: new Set(),
});
