/**
 * Where a run ends that could not go on: the fault is kept in words a person can act on, and the studio
 * is told. Takes what the state machine caught; an unknown error is recorded without its inside.
 */
import { keepFailure } from '../claims.ts';
import { tellOf } from '../ends.ts';
import type { FailedInput, FailureRecord } from '../payloads.ts';
import type { Ports } from '../ports.ts';
import { readStepError } from '../step-error.ts';
import { tellEnd } from './report.ts';

export async function failed(
  { run, studio, failure }: FailedInput,
  ports: Ports,
): Promise<FailureRecord> {
  const record = { run, ...readStepError(failure.Error, failure.Cause) };
  await keepFailure(ports.work, record);
  ports.log.error('run failed', { run, kind: record.kind });
  const told = await tellOf(run, ports.work);
  await tellEnd({ run, studio, outcome: 'failed', ...told, message: record.message }, ports);
  return record;
}
