/**
 * The workers of a desk. Takes jobs, gives each to a process of its kind, and gives back what it
 * answers: numbers at once, documents beside them, every run in a process of its own. A worker that
 * breaks off fails its jobs with a readable fault and is replaced at the next one. Knows no pattern.
 */
import { type ChildProcess, fork } from 'node:child_process';
import { Fault } from '../../base/fault.ts';
import { DESK_LIMITS } from '../../base/limits.ts';
import type { Progress } from '../../pipeline/ports.ts';
import type { CrewJobName, CrewJobs } from './crew-jobs.ts';
import { faultFrom, type Said } from './messages.ts';

/** How a worker is started: see `worker.ts`. */
export interface WorkerStart {
  readonly file: string;
  /** For Node itself: what makes it read the sources. */
  readonly execArgv: readonly string[];
  readonly args: readonly string[];
}

export interface JobMore {
  readonly signal?: AbortSignal;
  readonly told?: (event: Progress) => void;
}

export interface Crew {
  ask<K extends CrewJobName>(
    job: K,
    ask: CrewJobs[K]['ask'],
    more?: JobMore,
  ): Promise<CrewJobs[K]['answer']>;
  /** Ends every worker at once; what was released stays, what was not is begun again. */
  close(): void;
}

/** Jobs of one lane wait for each other; a run shares its process with nothing. */
const LANES: Readonly<Record<CrewJobName, 'numbers' | 'pins' | 'press' | 'run'>> = {
  look: 'numbers',
  cover: 'pins',
  languages: 'press',
  pins: 'pins',
  sheet: 'press',
  webPage: 'press',
  follow: 'press',
  numbersOut: 'numbers',
  paperOrigin: 'numbers',
  numbersIn: 'numbers',
  tried: 'numbers',
  survey: 'numbers',
  textsOut: 'numbers',
  textsIn: 'numbers',
  textsTied: 'numbers',
  editorPacket: 'pins',
  testPacket: 'press',
  results: 'numbers',
  publish: 'run',
};

export function openCrew(start: WorkerStart): Crew {
  const all = new Set<Worker>();
  const lanes = new Map<string, Worker>();
  let closed = false;
  const hire = (): Worker => {
    const worker = new Worker(start, () => all.delete(worker));
    all.add(worker);
    return worker;
  };
  const inLane = (lane: string): Worker => {
    const before = lanes.get(lane);
    if (before?.isAlive) return before;
    const worker = hire();
    lanes.set(lane, worker);
    return worker;
  };
  return {
    async ask(job, ask, more = {}) {
      if (closed) throw new Fault('cancelled', 'the desk was closed');
      const lane = LANES[job];
      if (lane !== 'run') return inLane(lane).ask(job, ask, more, DESK_LIMITS.jobSeconds);
      const worker = hire();
      return worker.ask(job, ask, more, DESK_LIMITS.runSeconds).finally(() => worker.end());
    },
    close() {
      closed = true;
      for (const worker of all) worker.end();
    },
  };
}

interface Waiting {
  readonly told: ((event: Progress) => void) | undefined;
  readonly resolve: (answer: never) => void;
  readonly reject: (fault: Fault) => void;
}

class Worker {
  readonly #child: ChildProcess;
  readonly #waiting = new Map<number, Waiting>();
  #next = 1;
  isAlive = true;

  constructor({ file, execArgv, args }: WorkerStart, gone: () => void) {
    this.#child = fork(file, [...args], {
      execArgv: [...execArgv],
      serialization: 'advanced',
      stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    });
    this.#child.on('message', (said: Said) => this.#hear(said));
    this.#child.on('error', () => this.#break('it could not be reached', gone));
    this.#child.once('exit', (code, signal) => this.#break(String(signal ?? code), gone));
  }

  ask<K extends CrewJobName>(
    job: K,
    ask: CrewJobs[K]['ask'],
    { signal, told }: JobMore,
    seconds: number,
  ): Promise<CrewJobs[K]['answer']> {
    const id = this.#next++;
    const late = setTimeout(() => this.end(), seconds * 1000).unref();
    const stop = () => this.#stop(id);
    signal?.addEventListener('abort', stop, { once: true });
    const answer = new Promise<CrewJobs[K]['answer']>((resolve, reject) => {
      this.#waiting.set(id, { told, resolve, reject });
      if (signal?.aborted) stop();
      else if (this.isAlive) this.#child.send({ kind: 'do', id, job, ask });
      else reject(brokenFault('it had gone'));
    });
    return answer.finally(() => {
      clearTimeout(late);
      signal?.removeEventListener('abort', stop);
      this.#waiting.delete(id);
    });
  }

  /** A release is made whole or not at all, whenever its maker is ended. */
  end(): void {
    this.isAlive = false;
    this.#child.kill('SIGKILL');
  }

  /** Asks first; a worker deep in its numbers does not hear, and is ended. */
  #stop(id: number): void {
    if (this.isAlive) this.#child.send({ kind: 'stop', id });
    const end = () => {
      const waiting = this.#waiting.get(id);
      if (!waiting) return;
      waiting.reject(new Fault('cancelled', 'the work was stopped'));
      this.end();
    };
    setTimeout(end, DESK_LIMITS.stopSeconds * 1000);
  }

  #hear(said: Said): void {
    const waiting = this.#waiting.get(said.id);
    if (said.kind === 'told') waiting?.told?.(said.event);
    else if (said.kind === 'done') waiting?.resolve(said.answer as never);
    else waiting?.reject(faultFrom(said.fault));
  }

  #break(how: string, gone: () => void): void {
    this.isAlive = false;
    for (const { reject } of this.#waiting.values()) reject(brokenFault(how));
    gone();
  }
}

const brokenFault = (how: string): Fault =>
  new Fault('store', `the work broke off in the middle (${how}); nothing half-made was kept`, {
    retryable: true,
    remedy: 'try again; if it breaks off again, the pattern or a photograph may be too large',
  });
