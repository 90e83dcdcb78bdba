/**
 * The pages as a function: everything from outside is put in here. Its role may write its log and nothing
 * else; whatever a page shows came from the API.
 */
import { randomBytes } from 'node:crypto';
import type { APIGatewayProxyStructuredResultV2, Context } from 'aws-lambda';
import { environment } from '../environment.ts';
import { log, watched } from '../telemetry.ts';
import { openApi } from './client.ts';
import { openIssuer } from './issuer.ts';
import { openPages, type Pages } from './pages.ts';
import { readRequest, writeAnswer } from './request.ts';

let opened: Promise<Pages> | undefined;

export const handler = (
  event: unknown,
  context: Partial<Context> = {},
): Promise<APIGatewayProxyStructuredResultV2> => watched('pages', context, () => serve(event));

async function serve(event: unknown): Promise<APIGatewayProxyStructuredResultV2> {
  try {
    opened ??= openHere();
    const pages = await opened;
    return writeAnswer(await pages(readRequest(event)));
  } catch (error) {
    log.error('page failed', { error: error instanceof Error ? error.name : 'unknown' });
    return {
      statusCode: 500,
      headers: { 'content-type': 'text/plain; charset=utf-8', 'cache-control': 'no-store' },
      body: 'Something is broken here; it has been written down.',
    };
  }
}

function openHere(): Promise<Pages> {
  const home = environment('DESK_ADDRESS');
  const now = () => new Date();
  const issuer = openIssuer({
    issuer: environment('TOKEN_ISSUER'),
    client: environment('DESK_CLIENT'),
    backTo: `${home}/sign-in/back`,
    fetch,
    now,
  });
  return openPages({
    home,
    root: process.env['LAMBDA_TASK_ROOT'] ?? process.cwd(),
    issuer,
    api: (token) => openApi({ address: home, fetch }, token),
    now,
    newSecret: () => randomBytes(32).toString('base64url'),
  });
}
