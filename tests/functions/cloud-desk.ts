/**
 * The pages in the cloud with everything behind them: the real API with its document and its authoriser,
 * and an issuer written after OpenID Connect. On demand they answer on loopback, as API Gateway would hand
 * requests over, for a real browser.
 */
import { createServer, type IncomingMessage } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Answer } from '../../functions/api/call.ts';
import { openApi } from '../../functions/pages/client.ts';
import { openIssuer } from '../../functions/pages/issuer.ts';
import { openPages, type Pages } from '../../functions/pages/pages.ts';
import { readRequest, type Wire, writeAnswer } from '../../functions/pages/request.ts';
import { eventOf } from './browser.ts';
import { openGateway } from './gateway.ts';
import { CLIENT, ISSUER, openIssuerForTests, type TestIssuer } from './issuer.ts';

export interface CloudDesk {
  readonly pages: Pages;
  readonly issuer: TestIssuer;
}

/** The cloud must have been started: the API reads its environment when it is loaded. */
export async function openCloudDesk(home: string, now: () => Date): Promise<CloudDesk> {
  const issuer = await openIssuerForTests();
  const { handler } = (await import('../../functions/api/handler.ts')) as {
    handler: (event: unknown) => Promise<Answer>;
  };
  const gateway = openGateway((event) => handler(event), {
    issuer: ISSUER,
    audience: CLIENT,
    keys: issuer.keys,
  });
  const overTheWire: Wire = async (address, how) => {
    const token = new Headers(how.headers).get('authorization')?.replace('Bearer ', '');
    const body = typeof how.body === 'string' ? { body: how.body } : {};
    const asked = `${how.method} ${address.slice(home.length)}`;
    const { status, value } = await gateway.ask(asked, { token, ...body });
    return Response.json(value, { status });
  };
  let secrets = 0;
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
    api: (token) => openApi({ address: home, fetch: overTheWire }, token),
    now,
    newSecret: () => `secret-${'x'.repeat(32)}-${(secrets += 1)}`,
  });
  return { pages, issuer };
}

/** `show` may be told later: the address must be known before the pages are opened. */
export async function listenForBrowser(show: () => Pages) {
  const server = createServer((request, response) => {
    void (async () => {
      const chunks: Buffer[] = [];
      for await (const chunk of request) chunks.push(chunk as Buffer);
      const { method = '', url = '' } = request;
      const event = eventOf(method, url, headsOf(request), Buffer.concat(chunks).toString('utf8'));
      const { statusCode, headers, cookies, body } = writeAnswer(await show()(readRequest(event)));
      response.writeHead(statusCode ?? 500, {
        ...(headers as object),
        'set-cookie': cookies ?? [],
      });
      response.end(body);
    })();
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
