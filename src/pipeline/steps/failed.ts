/**
 * Where a run ends that could not go on: the fault is kept in words a person can act on. Takes what the
 * state machine caught; an unknown error is recorded without its inside.
 */
import { keepFailure } from '../claims.ts';
import type { FailedInput, FailureRecord } from '../payloads.ts';
import type { Ports } from '../ports.ts';
import { readStepError } from '../step-error.ts';

export async function failed(input: FailedInput, ports: Ports): Promise<FailureRecord> {
  const record = { run: input.run, ...readStepError(input.failure.Error, input.failure.Cause) };
  await keepFailure(ports.work, record);
  ports.log.error('run failed', { run: input.run, kind: record.kind });
  return record;
}
