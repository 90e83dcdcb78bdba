/**
 * The outside world of a packed function, which has no network: whatever it fetches is asked of this server
 * (`bootstrap.mjs` sees to that), and answered by the issuer of the tests or by the packed API behind its
 * gateway.
 */
import { createServer, type IncomingMessage } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Answer } from '../../../functions/api/call.ts';
import { HOME } from '../browser.ts';
import { openGateway } from '../gateway.ts';
import { CLIENT, ISSUER, openIssuerForTests, type TestIssuer } from '../issuer.ts';

export interface Outside {
  readonly address: string;
  readonly issuer: TestIssuer;
  close(): void;
}

export async function openOutside(api: (event: unknown) => Promise<unknown>): Promise<Outside> {
  const issuer = await openIssuerForTests();
  const trusted = { issuer: ISSUER, audience: CLIENT, keys: issuer.keys };
  const gateway = openGateway(async (event) => (await api(event)) as Answer, trusted);

  const answer = async (request: IncomingMessage, body: string): Promise<Response> => {
    const wanted = String(request.headers['x-asked-for']);
    const { method = 'GET' } = request;
    if (!wanted.startsWith(HOME))
      return issuer.fetch(wanted, { method, body: new URLSearchParams(body) });
    const token = request.headers.authorization?.replace('Bearer ', '');
    const asked = { token, ...(method === 'POST' && { body }) };
    const { status, value } = await gateway.ask(`${method} ${wanted.slice(HOME.length)}`, asked);
    return Response.json(value, { status });
  };
  const server = createServer((request, response) => {
    void (async () => {
      const chunks: Buffer[] = [];
      for await (const chunk of request) chunks.push(chunk as Buffer);
      const told = await answer(request, Buffer.concat(chunks).toString('utf8'));
      response.writeHead(told.status, Object.fromEntries(told.headers));
      response.end(Buffer.from(await told.arrayBuffer()));
    })();
  });
  await new Promise<void>((resolve) => {
    server.listen(0, '127.0.0.1', resolve);
  });
  const { port } = server.address() as AddressInfo;
  return {
    address: `http://127.0.0.1:${port}`,
    issuer,
    close() {
      server.closeAllConnections();
      server.close();
    },
  };
}
