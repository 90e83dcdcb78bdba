/**
 * The pages as a function: everything from outside is put in here. Its role may write its log and nothing
 * else; whatever a page shows came from the API, or was worked out from that.
 */
import { randomBytes } from 'node:crypto';
import path from 'node:path';
import type { APIGatewayProxyStructuredResultV2, Context } from 'aws-lambda';
import { PAGES_LIMITS } from '../../src/base/limits.ts';
import { once } from '../../src/base/once.ts';
import { loadLanguages } from '../../src/language/index.ts';
import { environment } from '../environment.ts';
import { openOwnRooms } from '../rooms.ts';
import { log, watched } from '../telemetry.ts';
import { openApi } from './client.ts';
import { openStudio, type StudioOrder } from './desk.ts';
import { openIssuer } from './issuer.ts';
import { openPages, type Pages } from './pages.ts';
import { openFileMemory } from './ports/file-memory.ts';
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
    const request = readRequest(event);
    const packs = /\bgzip\b/.test(request.heads['accept-encoding'] ?? '');
    const stores = environment('STORE_ORIGINS').split(' ');
    return writeAnswer(await pages(request), { stores, packs });
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
  const root = process.env['LAMBDA_TASK_ROOT'] ?? process.cwd();
  const now = () => new Date();
  const issuer = openIssuer({
    issuer: environment('TOKEN_ISSUER'),
    client: environment('DESK_CLIENT'),
    backTo: `${home}/sign-in/back`,
    fetch,
    now,
  });
  const order: StudioOrder = {
    fetch,
    // Most pages need neither fonts nor catalogues.
    rooms: once(openOwnRooms),
    languages: once(() => loadLanguages(path.join(root, 'locales'))),
    files: openFileMemory(PAGES_LIMITS.rememberedBytes),
    standings: new Map(),
  };
  return openPages({
    home,
    root,
    issuer,
    studio: (token) => openStudio(order, openApi({ address: home, fetch }, token)),
    now,
    newSecret: () => randomBytes(32).toString('base64url'),
  });
}
