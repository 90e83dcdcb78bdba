/**
 * How runs end. A run is let to its end or stopped, and one record, written once, decides which: whoever
 * would release, report or stop asks it first. So a run that is told as stopped never releases anything,
 * and one that has begun to release cannot be stopped any more.
 */
import { z } from 'zod';
import { present } from '../base/assert.ts';
import { Fault } from '../base/fault.ts';
import { blocks } from '../findings/finding.ts';
import { parseJson } from '../release/manifest.ts';
import type { Store } from '../store/store.ts';
import { recallFindings, writeJson } from './claims.ts';
import { type RunEnd, runEnd } from './payloads.ts';
import { recallPlan } from './run-progress.ts';

const ending = z.enum(['finish', 'stop']);
export type Ending = z.output<typeof ending>;

const endingKey = (run: string): string => `runs/${run}/ending.json`;
const endKey = (run: string): string => `runs/${run}/ended.json`;

/** Gives what was decided first, by this caller or another. Asked again, the answer is the same. */
export async function decideEnding(work: Store, run: string, wanted: Ending): Promise<Ending> {
  const key = endingKey(run);
  if ((await writeJson(work, key, { ending: wanted }, 'absent')).ok) return wanted;
  const stored = present(await work.get(key), key);
  return z.object({ ending }).parse(parseJson(stored.bytes)).ending;
}

/** The point of no return, asked for right before a release is made. */
export async function requireGoingOn(work: Store, run: string): Promise<void> {
  if ((await decideEnding(work, run, 'finish')) === 'finish') return;
  throw new Fault('cancelled', 'the run was stopped; nothing was released', {
    remedy: 'start it again; what is finished is not done twice',
  });
}

/** How the run ended, for whoever asks about it; nothing while it is at work. */
export async function keepEnd(work: Store, end: RunEnd): Promise<void> {
  await writeJson(work, endKey(end.run), end);
}

export async function recallEnd(work: Store, run: string): Promise<RunEnd | undefined> {
  const stored = await work.get(endKey(run));
  return stored && runEnd.parse(parseJson(stored.bytes));
}

/** Stops a run for good; false where it ends of itself already. A step that is at work is not touched. */
export async function stopForGood(
  work: Store,
  whose: Pick<RunEnd, 'run' | 'studio'>,
): Promise<boolean> {
  if ((await decideEnding(work, whose.run, 'stop')) === 'finish') return false;
  await keepStopped(work, whose);
  return true;
}

/** That a run was stopped. Only for one whose ending was decided so. */
export async function keepStopped(
  work: Store,
  { run, studio }: Pick<RunEnd, 'run' | 'studio'>,
): Promise<RunEnd> {
  const end = { run, studio, outcome: 'cancelled' as const, ...(await tellOf(run, work)) };
  await keepEnd(work, end);
  return end;
}

type Told = Pick<RunEnd, 'findings' | 'blocking' | 'pattern' | 'version'>;

/** What is told of every run: its findings, and what it was about where the bundle could be read. */
export async function tellOf(run: string, work: Store): Promise<Told> {
  const [findings, plan] = await Promise.all([recallFindings(work, run), recallPlan(work, run)]);
  const about = plan && { pattern: plan.pattern, version: plan.version };
  return { findings: findings.length, blocking: findings.filter(blocks).length, ...about };
}
