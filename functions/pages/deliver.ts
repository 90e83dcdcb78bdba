/**
 * An answer of the desk on its way through a function: what is told while it happens is told as far as it
 * has come, for no answer can stay open; what is larger than an answer may be is put where the browser can
 * fetch it. Everything else goes as it is.
 */
import { Fault } from '../../src/base/fault.ts';
import { PAGES_LIMITS } from '../../src/base/limits.ts';
import { type Answer, seeOther, type Stream, writeEvent } from '../../src/desk/answer.ts';
import { type DraftsOrder, putDraft } from './ports/drafts.ts';
import type { Served } from './request.ts';

export type Delivery = DraftsOrder;

export async function deliver(
  { status, headers, body }: Answer,
  delivery: Delivery,
): Promise<Served> {
  if (typeof body === 'string') return { status, headers, body };
  if (!(body instanceof Uint8Array)) return { status, headers, body: toldSoFar(body) };
  if (body.length <= PAGES_LIMITS.answerBytes) return { status, headers, body };
  const draft = await putDraft(delivery, Uint8Array.from(body), fileOf(headers));
  return { ...seeOther(draft.url), body: '' };
}

/** The browser asks again after so long (HTML, server-sent events: `retry`), and hears the whole again. */
const AGAIN_MILLISECONDS = 3_000;

function toldSoFar(stream: Stream): string {
  const told = [`retry: ${AGAIN_MILLISECONDS}\n\n`];
  const stop = stream.open(
    (event, data) => told.push(writeEvent(event, data)),
    () => undefined,
  );
  stop();
  return told.join('');
}

function fileOf(headers: Readonly<Record<string, string>>) {
  const contentType = headers['content-type'] ?? 'application/octet-stream';
  const [, fileName] = /filename="([^"]+)"/.exec(headers['content-disposition'] ?? '') ?? [];
  if (contentType.startsWith('text/'))
    throw new Fault('input', 'the page is too large to be shown here', {
      remedy: 'look at the document instead',
    });
  return { contentType, ...(fileName !== undefined && { fileName }) };
}
