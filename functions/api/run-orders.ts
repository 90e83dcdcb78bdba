/**
 * What a person asks of a run: to stop. It may be asked again at any time: what was begun is then brought
 * to its end, and nothing happens twice.
 */
import { recallEnd, stopForGood } from '../../src/pipeline/ends.ts';
import { count } from '../telemetry.ts';
import { type Answer, answer, type Call, Refusal } from './call.ts';
import type { Desk } from './desk.ts';
import { requireRun, stateOf } from './runs.ts';

export async function stopRun({ path }: Call, desk: Desk): Promise<Answer> {
  const start = await requireRun(path['run'], desk);
  const { run } = start;
  const { work, studio, machines, now } = desk;
  const state = stateOf(start, await recallEnd(work, run), now);
  if (state !== 'working' && state !== 'cancelled') throw new Refusal(409, 'The run has ended');
  if (!(await stopForGood(work, { run, studio }))) {
    throw new Refusal(409, 'The run is about to end', 'what it made is being released, or told of');
  }
  await machines.stop(run);
  if (state === 'working') count('RunsStopped');
  return answer({ run }, 202);
}
