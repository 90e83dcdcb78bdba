/** Runs as the pages see them: on this machine or in the cloud, started, watched, stopped, remembered. */
import type { Settings } from '../pipeline/payloads.ts';
import type { Stream } from './answer.ts';
import type { Run } from './run-record.ts';

export interface Runs {
  /** Of one pattern of the shelf, the latest first. */
  of(source: string): Promise<readonly Run[]>;
  get(run: string): Promise<Run>;
  /** One run of a pattern at a time; a second call joins the one at work. */
  start(source: string, settings: Settings): Promise<Run>;
  cancel(run: string): Promise<void>;
  /** What happened so far, then what happens. */
  listen(run: string): Promise<Stream>;
}
