/**
 * Places for what the pages made and a browser is to fetch: too large for an answer of a function, and no
 * release. A draft lies in the studio's work room under a fresh name; whoever holds its address puts it there
 * once, of the very size and kind that were told, and fetches it for a while.
 */
import { z } from 'zod';
import { API_LIMITS } from '../../src/base/limits.ts';
import { readOrder } from '../../src/desk/api/asked.ts';
import { type Answer, answer, type Call, notFound } from './call.ts';
import type { Desk } from './desk.ts';

const order = z.strictObject({
  // Nothing that a browser would run.
  contentType: z.enum([
    'application/pdf',
    'application/zip',
    'application/json',
    'application/json; charset=utf-8',
    'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
    'application/octet-stream',
    'image/png',
    'image/jpeg',
    'image/webp',
    'image/avif',
  ]),
  sizeBytes: z.number().int().min(1).max(API_LIMITS.draftBytes),
  fileName: z
    .string()
    .regex(/^[A-Za-z0-9_][A-Za-z0-9._-]{0,99}$/)
    .optional(),
});

export async function openDraft({ body }: Call, desk: Desk): Promise<Answer> {
  const { fileName, ...terms } = readOrder(order, body);
  const draft = desk.newId();
  const key = keyOf(draft);
  const put = await desk.signPut(key, {
    ...terms,
    ...(fileName !== undefined && { fileName }),
    seconds: API_LIMITS.uploadSeconds,
  });
  return answer({ draft, put, url: await desk.signFetch('work', key), expires: expiry(desk) }, 201);
}

export async function findDraft({ path }: Call, desk: Desk): Promise<Answer> {
  const draft = z.uuid().safeParse(path['draft']);
  if (!draft.success || !(await desk.work.has(keyOf(draft.data)))) throw notFound('draft');
  return answer({ url: await desk.signFetch('work', keyOf(draft.data)), expires: expiry(desk) });
}

const keyOf = (draft: string): string => `drafts/${draft}`;

const expiry = ({ now }: Desk): string =>
  new Date(now.getTime() + API_LIMITS.downloadSeconds * 1000).toISOString();
