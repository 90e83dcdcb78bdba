/**
 * The pages in the cloud with everything behind them: the real API with its document and its authoriser,
 * and an issuer written after OpenID Connect; what is signed is fetched from the store over loopback. On
 * demand they answer on loopback too, as API Gateway would hand requests over, for a real browser.
 */
import { createServer, type IncomingMessage } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Page } from 'playwright-core';
import type { Answer } from '../../functions/api/call.ts';
import { openApi } from '../../functions/pages/client.ts';
import { openStudio, type StudioOrder } from '../../functions/pages/desk.ts';
import { openIssuer } from '../../functions/pages/issuer.ts';
import { openPages, type Pages } from '../../functions/pages/pages.ts';
import { openFileMemory } from '../../functions/pages/ports/file-memory.ts';
import { readRequest, type Wire, writeAnswer } from '../../functions/pages/request.ts';
import { loadLanguages } from '../../src/language/index.ts';
import { eventOf } from './browser.ts';
import { openGateway } from './gateway.ts';
import { CLIENT, ISSUER, openIssuerForTests, type TestIssuer } from './issuer.ts';

export interface CloudDesk {
  readonly pages: Pages;
  readonly issuer: TestIssuer;
  /** What the pages asked the API for: `GET /bundles`. */
  readonly asked: string[];
}

export interface CloudDeskOrder {
  readonly home: string;
  readonly rooms: StudioOrder['rooms'];
  readonly now?: () => Date;
}

const MEMORY_BYTES = 64e6;

/** The cloud must have been started: the API reads its environment when it is loaded. */
export async function openCloudDesk(order: CloudDeskOrder): Promise<CloudDesk> {
  const { home, rooms, now = () => new Date() } = order;
  const issuer = await openIssuerForTests();
  const asked: string[] = [];
  const overTheWire = await openWire(home, issuer, asked);
  let secrets = 0;
  const languages = loadLanguages('locales');
  const studio: StudioOrder = {
    fetch,
    rooms,
    languages: () => languages,
    files: openFileMemory(MEMORY_BYTES),
    standings: new Map(),
  };
  const pages = await openPages({
    home,
    root: process.cwd(),
    issuer: openIssuer({
      issuer: ISSUER,
      client: CLIENT,
      backTo: `${home}/sign-in/back`,
      fetch: issuer.fetch,
      now,
    }),
    studio: (token) => openStudio(studio, openApi({ address: home, fetch: overTheWire }, token)),
    now,
    newSecret: () => `secret-${'x'.repeat(32)}-${(secrets += 1)}`,
  });
  return { pages, issuer, asked };
}

/** The API as a caller over the wire meets it: behind the gateway, which checks the token again. */
async function openWire(home: string, issuer: TestIssuer, asked: string[]): Promise<Wire> {
  const { handler } = (await import('../../functions/api/handler.ts')) as {
    handler: (event: unknown) => Promise<Answer>;
  };
  const gateway = openGateway((event) => handler(event), {
    issuer: ISSUER,
    audience: CLIENT,
    keys: issuer.keys,
  });
  return async (address, how) => {
    const token = new Headers(how.headers).get('authorization')?.replace('Bearer ', '');
    const body = typeof how.body === 'string' ? { body: how.body } : {};
    const request = `${how.method} ${address.slice(home.length)}`;
    asked.push(request);
    const { status, value } = await gateway.ask(request, { token, ...body });
    return Response.json(value, { status });
  };
}

/**
 * The issuer has no address of its own here: the way to it fails, and its answer is brought back. At a door
 * of its own, for the page of a failed way would still come while the answer is on its way.
 */
export async function signInAsAda(page: Page, home: string, issuer: TestIssuer): Promise<void> {
  const door = await page.context().newPage();
  const away = door.waitForEvent('requestfailed');
  await door.goto(home).catch(() => undefined);
  await page.goto(issuer.letIn((await away).url(), 'ada').href);
  await door.close();
}

/** `show` may be told later: the address must be known before the pages are opened. */
export async function listenForBrowser(show: () => Pages, store: string) {
  const server = createServer((request, response) => {
    void (async () => {
      const chunks: Buffer[] = [];
      for await (const chunk of request) chunks.push(chunk as Buffer);
      const { method = '', url = '' } = request;
      const event = eventOf(method, url, headsOf(request), Buffer.concat(chunks));
      const served = await show()(readRequest(event));
      const answer = writeAnswer(served, { stores: [store], packs: true });
      const { statusCode, headers, cookies, body = '' } = answer;
      response.writeHead(statusCode ?? 500, {
        ...(headers as object),
        'set-cookie': cookies ?? [],
      });
      response.end(Buffer.from(body, 'base64'));
    })().catch((error: unknown) => {
      // As the function itself does, which says so in its log.
      response.writeHead(500, { 'content-type': 'text/plain' });
      response.end(String(error));
    });
  });
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  const { port } = server.address() as AddressInfo;
  return {
    home: `http://localhost:${port}`,
    close() {
      server.closeAllConnections();
      server.close();
    },
  };
}

/** Cookies go apart from the heads, as the gateway tells them. */
const headsOf = ({ headers }: IncomingMessage) =>
  Object.fromEntries(
    Object.entries(headers).flatMap(([name, value]) =>
      typeof value === 'string' ? [[name, value]] : [],
    ),
  );
