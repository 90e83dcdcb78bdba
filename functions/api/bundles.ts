/**
 * The shelf of a studio over the wire: what lies there, how something comes onto it, and the changes that a
 * page may make. Takes words of a request, held to the document of the API; the shelf itself decides what
 * stands. No bytes of a file pass through here but those of one JSON file that is replaced.
 */
import { z } from 'zod';
import { API_LIMITS, DESK_LIMITS } from '../../src/base/limits.ts';
import type { PutAway } from '../../src/shelf/shelf.ts';
import { listBundle } from '../../src/shelf/store-room.ts';
import { fileKey } from '../../src/shelf/tree.ts';
import { takeArrival } from './arrivals.ts';
import { type Answer, answer, type Call, readOrder } from './call.ts';
import type { Desk } from './desk.ts';

export async function listBundles(_call: Call, { bundles }: Desk): Promise<Answer> {
  return answer({ bundles: await bundles.names() });
}

export async function listStarters(_call: Call, { bundles }: Desk): Promise<Answer> {
  return answer({ starters: await bundles.starters() });
}

const newBundle = z.union([
  z.strictObject({ starter: z.string().max(80) }),
  z.strictObject({ upload: z.uuid(), name: z.string().max(200).optional() }),
]);

export async function layBundle({ body }: Call, desk: Desk): Promise<Answer> {
  const wanted = readOrder(newBundle, body);
  const bundle =
    'starter' in wanted
      ? await desk.bundles.begin(wanted.starter)
      : await takeArrival(desk, wanted.upload, wanted.name);
  return answer({ bundle }, 201);
}

export async function showBundle({ path }: Call, desk: Desk): Promise<Answer> {
  const bundle = path['bundle'] ?? '';
  const listed = await listBundle(desk.shelf, bundle);
  const files = listed.files.map(async (file) => ({
    ...file,
    url: await desk.signFetch('shelf', fileKey(file.hash)),
  }));
  const expires = new Date(desk.now.getTime() + API_LIMITS.downloadSeconds * 1000).toISOString();
  return answer({ bundle, ...listed, files: await Promise.all(files), expires });
}

// ---------------------------------------------------------------- changes

const tag = z.string().regex(/^[0-9a-f]{32}$/);
const file = z.string().min(1).max(200);
const pointer = z.string().max(400);

const correction = z.strictObject({
  file,
  pointer,
  value: z.string().max(DESK_LIMITS.valueLetters),
  tag,
});
const acceptance = z.strictObject({
  code: z.string().max(100),
  where: pointer,
  reason: z.string().min(1).max(2_000),
  tag,
});
const replacement = z.strictObject({
  file,
  tag: tag.optional(),
  text: z.string(),
  said: z.string().max(400),
});

export async function correct({ path, body }: Call, { bundles }: Desk): Promise<Answer> {
  return answer(await bundles.correct(path['bundle'] ?? '', readOrder(correction, body)), 201);
}

export async function accept({ path, body }: Call, { bundles }: Desk): Promise<Answer> {
  return answer(await bundles.accept(path['bundle'] ?? '', readOrder(acceptance, body)), 201);
}

export async function replace({ path, body }: Call, { bundles }: Desk): Promise<Answer> {
  const { text, tag: from, ...told } = readOrder(replacement, body);
  const bytes = new TextEncoder().encode(text);
  return answer(await bundles.replace(path['bundle'] ?? '', { ...told, tag: from, bytes }), 201);
}

export async function undo({ path }: Call, { bundles }: Desk): Promise<Answer> {
  return answer(await bundles.undo(path['bundle'] ?? ''), 201);
}

// ---------------------------------------------------------------- putting away

const told = ({ name, at }: PutAway) => ({ bundle: name, at });

export async function putAway({ path }: Call, { bundles }: Desk): Promise<Answer> {
  return answer(told(await bundles.putAway(path['bundle'] ?? '')));
}

export async function listAway(_call: Call, { bundles }: Desk): Promise<Answer> {
  return answer({ away: (await bundles.away()).map(told) });
}

export async function takeBack({ path }: Call, { bundles }: Desk): Promise<Answer> {
  return answer({ bundle: await bundles.takeBack(path['bundle'] ?? '') });
}
