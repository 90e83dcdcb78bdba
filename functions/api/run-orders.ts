/**
 * What a person asks of runs: to start one from a bundle on the shelf, frozen at the state it is in, and
 * to stop one. Both may be asked again at any time: what was begun is then brought to its end, and nothing
 * happens twice.
 */
import { hashBytes } from '../../src/base/hash.ts';
import { recallEnd, stopForGood } from '../../src/pipeline/ends.ts';
import { settings } from '../../src/pipeline/payloads.ts';
import { keepStart, type Started, takeTurn } from '../../src/pipeline/starts.ts';
import { shelfSource } from '../sources.ts';
import { count, log } from '../telemetry.ts';
import { readOrder } from '../../src/desk/api/asked.ts';
import { Refusal } from '../../src/desk/api/refusal.ts';
import { type Answer, answer, type Call } from './call.ts';
import type { Desk } from './desk.ts';
import { requireRun, stateOf } from './runs.ts';

export async function startRun({ path, body }: Call, desk: Desk): Promise<Answer> {
  const order = readOrder(settings, body);
  const { work, studio, machines } = desk;
  const wanted = await planRun(path['bundle'] ?? '', desk);
  const due = await takeTurn(work, { ...wanted, settings: order }, (last) => isOver(last, desk));
  // Also for a run that is joined: whoever was to start it may have been cut off before this.
  const { run, source, settings: settled } = await keepStart(work, due);
  await machines.start(run, { studio, source, settings: settled });
  if (run === wanted.run) {
    log.info('run started', { run });
    count('RunsStarted');
  }
  return answer({ run }, 202);
}

async function planRun(bundle: string, desk: Desk) {
  const state = await desk.bundles.state(bundle);
  // Runs of one state stand together; a fresh name tells them apart.
  const run = `${state.slice(0, 48)}-${hashBytes(desk.newId()).slice(0, 16)}`;
  return { run, at: desk.now.toISOString(), bundle, source: shelfSource(state) };
}

const isOver = async (last: Started, { work, now }: Desk): Promise<boolean> =>
  stateOf(last, await recallEnd(work, last.run), now) !== 'working';

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
