/**
 * How a run stands and what it found, read from what its steps left in the studio's room. Nothing is asked
 * of the state machine, so that many who look often do not slow those who publish.
 */
import { API_LIMITS } from '../../src/base/limits.ts';
import { printFindingsJson } from '../../src/findings/json.ts';
import {
  recallDone,
  recallEnd,
  recallFailure,
  recallFindings,
  recallStart,
} from '../../src/pipeline/claims.ts';
import { type Answer, answer, type Call, notFound } from './call.ts';
import type { Desk } from './desk.ts';

const RUN = /^[A-Za-z0-9_-]{1,80}$/;

export async function showRun({ path }: Call, desk: Desk): Promise<Answer> {
  const { run, startedAt } = await requireRun(path['run'], desk);
  const end = await recallEnd(desk.work, run);
  if (end === undefined) {
    const age = desk.now.getTime() - startedAt.getTime();
    const state = age > API_LIMITS.lostAfterSeconds * 1000 ? 'lost' : 'working';
    return answer({ run, state, findings: 0, blocking: 0, done: await recallDone(desk.work, run) });
  }
  const { outcome: state, studio: _studio, ...told } = end;
  const failure = state === 'failed' ? await recallFailure(desk.work, run) : undefined;
  const { place, remedy } = failure ?? {};
  return answer({ ...told, state, place, remedy });
}

export async function showFindings({ path }: Call, desk: Desk): Promise<Answer> {
  const { run } = await requireRun(path['run'], desk);
  const findings = await recallFindings(desk.work, run);
  const told = JSON.parse(printFindingsJson(findings)) as { readonly findings: unknown[] };
  const more = Math.max(0, findings.length - API_LIMITS.findings);
  return answer({ ...told, more, findings: told.findings.slice(0, API_LIMITS.findings) });
}

async function requireRun(
  run: string | undefined,
  { work }: Desk,
): Promise<{ readonly run: string; readonly startedAt: Date }> {
  const startedAt = run !== undefined && RUN.test(run) ? await recallStart(work, run) : undefined;
  if (run === undefined || startedAt === undefined) throw notFound('run');
  return { run, startedAt };
}
