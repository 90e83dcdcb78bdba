/** The jobs of a crew on this machine: those of the pages, and publishing, which the cloud does elsewhere. */
import type { JobWorld } from './jobs.ts';
import { JOBS, type Jobs } from './jobs.ts';
import {
  type PublishEnd,
  publishFolder,
  type PublishJob,
  type PublishWorld,
} from './publishing.ts';

export interface CrewJobs extends Jobs {
  readonly publish: { ask: PublishJob; answer: PublishEnd };
}
export type CrewJobName = keyof CrewJobs;

type Job<K extends CrewJobName> = (
  ask: CrewJobs[K]['ask'],
  world: JobWorld & PublishWorld,
) => Promise<CrewJobs[K]['answer']>;

export const CREW_JOBS: { readonly [K in CrewJobName]: Job<K> } = {
  ...JOBS,
  publish: publishFolder,
};
