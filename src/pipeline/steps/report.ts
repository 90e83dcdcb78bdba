/**
 * Last step of a run that came to its end, released or blocked: keeps how it ended and tells the studio.
 * A failure ends in `failed.ts`, which tells in the same way.
 */
import { blocks } from '../../findings/finding.ts';
import { keepEnd, recallFindings, recallReleased } from '../claims.ts';
import type { ReportInput, RunEnd } from '../payloads.ts';
import type { Ports } from '../ports.ts';

export async function report({ run, studio, outcome }: ReportInput, ports: Ports): Promise<RunEnd> {
  const counts = await countFindings(run, ports);
  if (outcome === 'blocked') return tellEnd({ run, studio, outcome, ...counts }, ports);
  const { pattern, version } = await recallReleased(ports.work, run);
  // A proof may be made with warnings nobody has answered: they did not block it.
  return tellEnd({ run, studio, outcome, ...counts, blocking: 0, pattern, version }, ports);
}

/** Kept first: whoever is told finds it there. */
export async function tellEnd(end: RunEnd, ports: Ports): Promise<RunEnd> {
  await keepEnd(ports.work, end);
  await ports.tell(end);
  return end;
}

export async function countFindings(
  run: string,
  ports: Ports,
): Promise<{ readonly findings: number; readonly blocking: number }> {
  const findings = await recallFindings(ports.work, run);
  return { findings: findings.length, blocking: findings.filter(blocks).length };
}
