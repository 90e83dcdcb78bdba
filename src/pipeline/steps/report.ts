/**
 * Last step of a run that came to its end, released or blocked: keeps how it ended and tells the studio.
 * A failure ends in `failed.ts`, which tells in the same way; a run that was stopped meanwhile stays so.
 */
import { recallCounts, recallReleased } from '../claims.ts';
import { decideEnding, keepEnd, keepStopped, tellOf } from '../ends.ts';
import type { ReportInput, RunEnd } from '../payloads.ts';
import type { Ports } from '../ports.ts';

export async function report({ run, studio, outcome }: ReportInput, ports: Ports): Promise<RunEnd> {
  const told = await tellOf(run, ports.work);
  if (outcome === 'blocked') return tellEnd({ run, studio, outcome, ...told }, ports);
  const { pattern, version, stage, copy } = await recallReleased(ports.work, run);
  const counts = await recallCounts(ports.work, run);
  const marked = { ...(stage && { stage }), ...(copy && { copy }) };
  // A proof may be made with warnings nobody has answered: they did not block it.
  const released = { pattern, version, ...marked, ...counts, blocking: 0 };
  return tellEnd({ run, studio, outcome, ...told, ...released }, ports);
}

/** Kept first: whoever is told finds it there. Whoever stopped the run knows, and is not told. */
export async function tellEnd(end: RunEnd, ports: Ports): Promise<RunEnd> {
  if ((await decideEnding(ports.work, end.run, 'finish')) === 'stop') {
    return keepStopped(ports.work, end);
  }
  await keepEnd(ports.work, end);
  await ports.tell(end);
  return end;
}
