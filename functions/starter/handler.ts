/**
 * Starts a run for every uploaded bundle, once. EventBridge could start the state machine itself, but
 * could not name the run; the name is what makes a repeated event harmless.
 */
import { ExecutionAlreadyExists, SFNClient, StartExecutionCommand } from '@aws-sdk/client-sfn';
import { BUNDLE_LIMITS } from '../../src/base/limits.ts';
import { openClient } from '../../src/store/s3-client.ts';
import { hashVersion } from '../../src/store/s3.ts';
import { environment } from '../environment.ts';
import { log } from '../log.ts';
import { planStart, readArrival } from './start.ts';

const storage = openClient();
const machines = new SFNClient({ maxAttempts: 4 });

export async function handler(event: unknown): Promise<{ readonly run: string } | undefined> {
  const arrival = readArrival(event);
  if (arrival === undefined) return undefined;
  const contentHash = await hashVersion(storage, arrival.upload, BUNDLE_LIMITS.zipBytes);
  const { name, input } = planStart(arrival, contentHash);
  const stateMachineArn = environment('STATE_MACHINE_ARN');
  const request = { stateMachineArn, name, input: JSON.stringify(input) };
  try {
    await machines.send(new StartExecutionCommand(request));
    log.info('run started', { run: name, sizeBytes: arrival.sizeBytes });
  } catch (error) {
    if (!(error instanceof ExecutionAlreadyExists)) throw error;
    log.info('run was started before', { run: name });
  }
  return { run: name };
}
