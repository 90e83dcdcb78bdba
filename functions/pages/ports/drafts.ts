/**
 * What the pages made and cannot hand to a browser themselves: put where the API says, by the address it
 * signed, and fetched from there. Also where a file waits for a yes between two requests.
 */
import { z } from 'zod';
import { Fault } from '../../../src/base/fault.ts';
import { takenFor, type Waiting, type WaitingRoom } from '../../../src/desk/waiting.ts';
import type { Api, DraftOrder } from '../client.ts';
import type { Wire } from '../request.ts';
import type { OpenedDraft } from '../told.ts';

export async function putDraft(
  { api, fetch: send }: DraftsOrder,
  bytes: Uint8Array<ArrayBuffer>,
  order: Omit<DraftOrder, 'sizeBytes'>,
): Promise<OpenedDraft> {
  const draft = await api.openDraft({ ...order, sizeBytes: bytes.length });
  const { url, headers } = draft.put;
  const answer = await send(url, { method: 'PUT', headers, body: bytes });
  if (answer.ok) return draft;
  throw new Fault('store', 'what was made cannot be kept just now', {
    remedy: 'try again in a minute',
    retryable: true,
    cause: answer.status,
  });
}

export interface DraftsOrder {
  readonly api: Api;
  readonly fetch: Wire;
}

const waiting = z.object({
  pattern: z.string(),
  replacement: z.object({
    file: z.string(),
    tag: z.string().optional(),
    text: z.string(),
    said: z.string(),
  }),
});

/** The name of a draft is the name it waits under; nobody of another studio can fetch it by that. */
export function draftWaitingRoom(order: DraftsOrder): WaitingRoom {
  const look: WaitingRoom['look'] = async (name, pattern) =>
    takenFor(await fetchWaiting(order, name), pattern);
  return {
    async put({ pattern, replacement: { bytes, ...told } }) {
      const text = new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
      const record = JSON.stringify({ pattern, replacement: { ...told, text } });
      const contentType = 'application/json';
      return (await putDraft(order, new TextEncoder().encode(record), { contentType })).draft;
    },
    look,
    take: look,
  };
}

async function fetchWaiting(
  { api, fetch: send }: DraftsOrder,
  name: string,
): Promise<Waiting | undefined> {
  const address = await api.draft(name).catch((error: unknown) => {
    if (error instanceof Fault && error.kind === 'missing') return undefined;
    throw error;
  });
  const answer = address === undefined ? undefined : await send(address, { method: 'GET' });
  if (!answer?.ok) return undefined;
  const read = waiting.safeParse(await answer.json());
  if (!read.success) return undefined;
  const { pattern, replacement } = read.data;
  const { file, tag, text, said } = replacement;
  return { pattern, replacement: { file, tag, said, bytes: new TextEncoder().encode(text) } };
}
