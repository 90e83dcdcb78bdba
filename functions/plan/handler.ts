/**
 * Names the run of one bundle of a batch, as the starter does for a single upload; the state machine of
 * batches starts it, so that only so many are at work at once.
 */
import type { Context } from 'aws-lambda';
import { StepError } from '../../src/pipeline/step-error.ts';
import { openClient } from '../../src/store/s3-client.ts';
import { environment } from '../environment.ts';
import { prepareRun } from '../starter/prepare.ts';
import type { Start } from '../starter/start.ts';
import { readListed } from '../starter/start.ts';
import { traced, watched } from '../telemetry.ts';

const storage = traced(openClient());

type Plan = ({ readonly plan: 'run' } & Start) | { readonly plan: 'nothing' };

export const handler = (event: unknown, context: Partial<Context> = {}): Promise<Plan> =>
  watched('plan', context, async () => {
    try {
      const arrival = readListed(event, environment('UPLOADS_BUCKET'));
      if (arrival === undefined) return { plan: 'nothing' };
      return { plan: 'run', ...(await prepareRun(arrival, storage)) };
    } catch (cause) {
      throw new StepError(cause);
    }
  });
