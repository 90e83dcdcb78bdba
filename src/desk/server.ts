/**
 * The desk on a socket: reads calls under limits, asks the guard, lets the routes answer, and writes
 * what they say. It listens on this machine alone. Knows nothing of patterns; a fault of a route
 * becomes a page that says what to do.
 */
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { Fault } from '../base/fault.ts';
import { DESK_LIMITS } from '../base/limits.ts';
import {
  type Answer,
  type Call,
  decodePath,
  readForm,
  seeOther,
  statusOf,
  writeEvent,
} from './answer.ts';
import { askedLanguages, chosenLanguage } from './chosen-language.ts';
import { type Guard, isOwnHost, isOwnPage, openGuard, PROTECTION } from './guard.ts';
import { STYLE_ADDRESS } from './own-files.ts';

export interface Routes {
  answer(call: Call): Promise<Answer>;
  /** A refusal or a fault as a page. */
  refuse(call: Pick<Call, 'languages'> | undefined, fault: Fault, status: number): Answer;
}

export interface Listening {
  /** With the key: good for one visit. */
  readonly address: string;
  readonly port: number;
  close(): Promise<void>;
}

/** `port` 0 takes a free one. `key` and `session` are secrets of at least 128 bits. */
export async function listen(
  routes: Routes,
  secrets: { readonly key: string; readonly session: string },
  port: number,
): Promise<Listening> {
  const server = createServer({ requestTimeout: DESK_LIMITS.requestSeconds * 1000 });
  await new Promise<void>((resolve, reject) => {
    server.once('error', (cause) => reject(portFault(port, cause)));
    server.listen(port, '127.0.0.1', resolve);
  });
  const taken = (server.address() as AddressInfo).port;
  const guard = openGuard(secrets.key, secrets.session, taken);
  server.on('request', (request, response) => {
    void respond(request, response, { routes, guard, port: taken });
  });
  return {
    address: `http://127.0.0.1:${taken}/?key=${secrets.key}`,
    port: taken,
    close: () => closeServer(server),
  };
}

const portFault = (port: number, cause: unknown): Fault =>
  new Fault('usage', `port ${port} cannot be used`, {
    remedy: 'leave --port out to take a free one',
    cause,
  });

function closeServer(server: Server): Promise<void> {
  server.closeAllConnections();
  return new Promise((resolve) => server.close(() => resolve()));
}

interface Desk {
  readonly routes: Routes;
  readonly guard: Guard;
  readonly port: number;
}

async function respond(
  request: IncomingMessage,
  response: ServerResponse,
  desk: Desk,
): Promise<void> {
  let call: Call | undefined;
  try {
    const refusal = refusalOf(request, desk);
    if (refusal) return write(response, refusal);
    call = callOf(request);
    write(response, await desk.routes.answer(call));
  } catch (error) {
    // A broken invariant stays visible on the terminal; the page says no more than that.
    if (!(error instanceof Fault)) console.error(error);
    const fault =
      error instanceof Fault ? error : new Fault('store', 'the desk made a mistake of its own');
    write(response, desk.routes.refuse(call, fault, statusOf(fault)));
  }
}

/** Heads that are looked at before anything else; the key is exchanged here as well. */
function refusalOf(request: IncomingMessage, desk: Desk): Answer | undefined {
  const { headers } = request;
  if (!isOwnHost(headers.host, desk.port)) return plain(421, 'This is not the desk.');
  if (!['GET', 'HEAD', 'POST'].includes(request.method ?? '')) return plain(405, 'GET or POST.');
  const url = new URL(request.url ?? '/', 'http://desk');
  const key = url.pathname === '/' ? url.searchParams.get('key') : null;
  const cookie = key === null ? undefined : desk.guard.admit(key);
  if (cookie !== undefined) return seeOther('/', { 'set-cookie': cookie });
  const heads = { ...headers, 'sec-fetch-site': headers['sec-fetch-site'] as string | undefined };
  // The page that turns somebody away is one of ours, and looks like it.
  const isStyle = request.method === 'GET' && url.pathname === STYLE_ADDRESS;
  if (!isStyle && !desk.guard.isKnown(heads)) {
    const fault = new Fault('usage', 'key');
    const call = { languages: languagesOf(request) };
    return { ...desk.routes.refuse(call, fault, 401), status: 401 };
  }
  if (key !== null) return seeOther('/');
  if (request.method === 'POST' && !isOwnPage(heads, `http://${headers.host}`))
    return plain(403, 'Send forms from the desk’s own pages.');
  return undefined;
}

const plain = (status: number, text: string): Answer => ({
  status,
  headers: { 'content-type': 'text/plain; charset=utf-8' },
  body: text,
});

function callOf(request: IncomingMessage): Call {
  const url = new URL(request.url ?? '/', 'http://desk');
  return {
    method: request.method === 'POST' ? 'POST' : 'GET',
    path: decodePath(url.pathname),
    query: url.searchParams,
    languages: languagesOf(request),
    from: ownPage(request.headers.referer, request.headers.host),
    form: async () => {
      const sent = await readBody(request, DESK_LIMITS.formBytes);
      if (sent === undefined) throw tooMuchFault();
      return readForm(sent, request.headers['content-type']);
    },
    body: async (mostBytes) => (await readBody(request, mostBytes))?.toString('utf8'),
  };
}

const languagesOf = ({ headers }: IncomingMessage): readonly string[] => [
  ...chosenLanguage(headers.cookie),
  ...askedLanguages(headers['accept-language']),
];

/** Only a page of the desk itself is gone back to. */
function ownPage(referer: string | undefined, host: string | undefined): string | undefined {
  if (referer === undefined || !URL.canParse(referer)) return undefined;
  const url = new URL(referer);
  return url.host === host ? url.pathname + url.search : undefined;
}

/** Whole or not at all: nothing is looked at before everything has come. Nothing where it is too much. */
async function readBody(
  request: IncomingMessage,
  mostBytes: number,
): Promise<Buffer<ArrayBuffer> | undefined> {
  // What says itself that it is too large is not waited for.
  if (Number(request.headers['content-length'] ?? 0) > mostBytes) return undefined;
  const chunks: Buffer[] = [];
  let length = 0;
  try {
    for await (const chunk of request as AsyncIterable<Buffer>) {
      length += chunk.length;
      if (length > mostBytes) return undefined;
      chunks.push(chunk);
    }
  } catch (cause) {
    // A closed lid or a lost network: nobody is left to be told, and nothing was written.
    throw new Fault('cancelled', 'the connection broke off while a form was sent', { cause });
  }
  return Buffer.concat(chunks);
}

const tooMuchFault = (): Fault =>
  new Fault('input', `more than ${Math.floor(DESK_LIMITS.formBytes / 1024 / 1024)} MB were sent`, {
    remedy: 'leave out what is no part of the pattern',
  });

function write(response: ServerResponse, { status, headers, body }: Answer): void {
  response.writeHead(status, { ...PROTECTION, ...headers });
  if (typeof body === 'string' || body instanceof Uint8Array) {
    response.end(body);
    return;
  }
  const send = (event: string, data: unknown) => void response.write(writeEvent(event, data));
  const stop = body.open(send, () => response.end());
  response.once('close', stop);
}
