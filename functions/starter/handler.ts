/**
 * Starts a run for every uploaded bundle, once. EventBridge could start the state machine itself, but
 * could not name the run; the name is what makes a repeated event harmless.
 */
import { SFNClient } from '@aws-sdk/client-sfn';
import type { Context } from 'aws-lambda';
import { openClient } from '../../src/store/s3-client.ts';
import { openMachines } from '../machines.ts';
import { count, log, traced, watched } from '../telemetry.ts';
import { prepareRun } from './prepare.ts';
import { readArrival } from './start.ts';

const storage = traced(openClient());
const machines = openMachines(traced(new SFNClient({ maxAttempts: 4 })));

type Started = { readonly run: string } | undefined;

export const handler = (event: unknown, context: Partial<Context> = {}): Promise<Started> =>
  watched('starter', context, () => start(event));

async function start(event: unknown): Promise<Started> {
  const arrival = readArrival(event);
  if (arrival === undefined) return undefined;
  const { name, input } = await prepareRun(arrival, storage);
  if (await machines.start(name, input)) {
    log.info('run started', { run: name, sizeBytes: arrival.sizeBytes });
    count('RunsStarted');
  } else log.info('run was started before', { run: name });
  return { run: name };
}
