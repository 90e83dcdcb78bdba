/**
 * What a route is asked and what it answers. A call is read once from the connection, with its limits;
 * an answer is plain data until the server writes it, so that routes can be tested without a socket.
 * A stream is the one exception: the progress of a run, told line by line until somebody leaves.
 */
import { Fault } from '../base/fault.ts';

export interface Call {
  readonly method: 'GET' | 'POST';
  /** Decoded, without the query; never with `..` steps. */
  readonly path: string;
  readonly query: URLSearchParams;
  /** The language that was chosen on a page, then those the browser asks for, best first. */
  readonly languages: readonly string[];
  /** Path and query of the page of the desk that leads here. */
  readonly from?: string | undefined;
  /** The fields of a form that was sent; read at most once. */
  form(): Promise<FormData>;
  /** What was sent, as text; nothing where it is longer. Read at most once, instead of a form. */
  body(mostBytes: number): Promise<string | undefined>;
}

export interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: string | Uint8Array | Stream;
}

/** Sends events until `closed` says that the listener left; gives back how to stop sending. */
export interface Stream {
  open(send: (event: string, data: unknown) => void, end: () => void): () => void;
}

const NO_HEADERS: Readonly<Record<string, string>> = {};

export const page = (html: string, status = 200): Answer => ({
  status,
  headers: { 'content-type': 'text/html; charset=utf-8' },
  body: html,
});

export const json = (value: unknown, status = 200): Answer => ({
  status,
  headers: { 'content-type': 'application/json; charset=utf-8' },
  body: JSON.stringify(value),
});

/** After a form: the browser asks for the next page, and reloading it sends nothing twice. */
export const seeOther = (location: string, headers = NO_HEADERS): Answer => ({
  status: 303,
  headers: { ...headers, location },
  body: '',
});

export const bytes = (
  body: Uint8Array | string,
  mediaType: string,
  headers = NO_HEADERS,
): Answer => ({ status: 200, headers: { ...headers, 'content-type': mediaType }, body });

/** A file to keep. The name is plain ASCII by construction of patterns and releases. */
export const download = (body: Uint8Array, mediaType: string, name: string): Answer =>
  bytes(body, mediaType, {
    'content-disposition': `attachment; filename="${name.replaceAll(/[^\w.-]/g, '_')}"`,
  });

export function decodePath(path: string): string {
  try {
    return path.split('/').map(decodeURIComponent).join('/');
  } catch (cause) {
    throw new Fault('missing', 'there is no such page', { cause });
  }
}

export async function readForm(sent: Uint8Array<ArrayBuffer>, contentType = ''): Promise<FormData> {
  try {
    return await new Response(sent, { headers: { 'content-type': contentType } }).formData();
  } catch (cause) {
    throw new Fault('input', 'the form cannot be read', {
      remedy: 'go back and send it again',
      cause,
    });
  }
}

export function statusOf({ kind, retryable }: Fault): number {
  switch (kind) {
    case 'missing':
      return 404;
    case 'usage':
      return 403;
    case 'conflict':
      return 409;
    case 'store':
      return retryable ? 503 : 500;
    case 'input':
    case 'cancelled':
      return 422;
  }
}

/** One event as a browser hears it (HTML, server-sent events). */
export const writeEvent = (event: string, data: unknown): string =>
  `event: ${event}\ndata: ${JSON.stringify(data)}\n\n`;

export const events = (stream: Stream): Answer => ({
  status: 200,
  headers: { 'content-type': 'text/event-stream; charset=utf-8' },
  body: stream,
});
