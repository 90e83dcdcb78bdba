/** Every studio that has a room among the releases, for the daily clearing up. */
import type { Context } from 'aws-lambda';
import { studioName } from '../../src/pipeline/payloads.ts';
import { openClient } from '../../src/store/s3-client.ts';
import { listTopFolders } from '../../src/store/s3.ts';
import { environment } from '../environment.ts';
import { traced, watched } from '../telemetry.ts';

const client = traced(openClient());

export const handler = (
  _event: unknown,
  context: Partial<Context> = {},
): Promise<{ readonly studios: readonly string[] }> =>
  watched('studios', context, async () => {
    const studios: string[] = [];
    for await (const name of listTopFolders(client, environment('RELEASES_BUCKET'))) {
      if (studioName.safeParse(name).success) studios.push(name);
    }
    return { studios };
  });
