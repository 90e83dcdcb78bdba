/**
 * How runs stand and what they found, read from what their steps left in the studio's room. Nothing is
 * asked of the state machine, so that many who look often do not slow those who publish.
 */
import { API_LIMITS } from '../../src/base/limits.ts';
import { findingsRecord } from '../../src/findings/json.ts';
import { recallFailure, recallFindings } from '../../src/pipeline/claims.ts';
import { recallEnd } from '../../src/pipeline/ends.ts';
import type { RunEnd } from '../../src/pipeline/payloads.ts';
import { recallPlan, recallProgress } from '../../src/pipeline/run-progress.ts';
import { listStarts, recallStart, type Started } from '../../src/pipeline/starts.ts';
import { readRunsQuery } from '../../src/desk/api/asked.ts';
import { type Answer, answer, type Call, notFound } from './call.ts';
import type { Desk } from './desk.ts';

const RUN = /^[A-Za-z0-9_-]{1,80}$/;

export async function listRuns({ query }: Call, desk: Desk): Promise<Answer> {
  const starts = await listStarts(desk.work, readRunsQuery(query));
  return answer({ runs: await Promise.all(starts.map((start) => tellRun(start, desk))) });
}

export async function showRun({ path }: Call, desk: Desk): Promise<Answer> {
  const start = await requireRun(path['run'], desk);
  const { run } = start;
  const [told, plan] = await Promise.all([tellRun(start, desk), recallPlan(desk.work, run)]);
  const progress = await recallProgress(desk.work, run, plan ?? { orders: [] });
  const documents = progress.documents.map(({ edition: { kind, ...more }, ...each }) => ({
    ...each,
    edition: kind,
    ...more,
  }));
  const failure = told.state === 'failed' ? await recallFailure(desk.work, run) : undefined;
  const { place, remedy } = failure ?? {};
  return answer({ ...told, done: progress.done, documents, place, remedy });
}

export async function showFindings({ path }: Call, desk: Desk): Promise<Answer> {
  const { run } = await requireRun(path['run'], desk);
  const findings = await recallFindings(desk.work, run);
  const told = findingsRecord(findings);
  const more = Math.max(0, findings.length - API_LIMITS.findings);
  return answer({ ...told, more, findings: told.findings.slice(0, API_LIMITS.findings) });
}

export async function requireRun(run: string | undefined, { work }: Desk): Promise<Started> {
  const start = run !== undefined && RUN.test(run) ? await recallStart(work, run) : undefined;
  if (start === undefined) throw notFound('run');
  return start;
}

type State = RunEnd['outcome'] | 'working' | 'lost';

/** `lost`: it did not say how it ended, and its hour is over. */
export function stateOf({ at }: Started, end: RunEnd | undefined, now: Date): State {
  if (end) return end.outcome;
  const ageSeconds = (now.getTime() - Date.parse(at)) / 1000;
  return ageSeconds > API_LIMITS.lostAfterSeconds ? 'lost' : 'working';
}

interface ToldRun extends Omit<RunEnd, 'outcome' | 'studio'>, Pick<Started, 'bundle' | 'settings'> {
  readonly state: State;
  readonly startedAt: string;
}

async function tellRun(start: Started, { work, now }: Desk): Promise<ToldRun> {
  const { run, at: startedAt, bundle, settings } = start;
  const end = await recallEnd(work, run);
  const known = { run, state: stateOf(start, end, now), startedAt, bundle, settings };
  if (end) {
    const { outcome: _outcome, studio: _studio, ...told } = end;
    return { ...known, ...told };
  }
  const plan = await recallPlan(work, run);
  const about = plan && { pattern: plan.pattern, version: plan.version };
  return { ...known, findings: 0, blocking: 0, ...about };
}
