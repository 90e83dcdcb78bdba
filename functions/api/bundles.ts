/**
 * The shelf of a studio over the wire: what lies there, how something comes onto it, and the changes that a
 * page may make. Takes words of a request, held to the document of the API; the shelf itself decides what
 * stands. No bytes of a file pass through here but those of one JSON file that is replaced.
 */
import { z } from 'zod';
import { API_LIMITS } from '../../src/base/limits.ts';
import { acceptance, correction, replacement, starterOrder } from '../../src/shelf/orders.ts';
import type { PutAway } from '../../src/shelf/shelf.ts';
import { listBundle } from '../../src/shelf/store-room.ts';
import { fileKey } from '../../src/shelf/tree.ts';
import { takeArrival } from './arrivals.ts';
import { readOrder } from '../../src/desk/api/asked.ts';
import { type Answer, answer, type Call } from './call.ts';
import type { Desk } from './desk.ts';

export async function listBundles(_call: Call, { bundles }: Desk): Promise<Answer> {
  return answer({ bundles: await bundles.names() });
}

export async function listStarters(_call: Call, { bundles }: Desk): Promise<Answer> {
  return answer({ starters: await bundles.starters() });
}

const newBundle = z.union([
  starterOrder,
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

export async function correct({ path, body }: Call, { bundles }: Desk): Promise<Answer> {
  return answer(await bundles.correct(path['bundle'] ?? '', readOrder(correction, body)), 201);
}

export async function accept({ path, body }: Call, { bundles }: Desk): Promise<Answer> {
  return answer(await bundles.accept(path['bundle'] ?? '', readOrder(acceptance, body)), 201);
}

export async function replace({ path, body }: Call, { bundles }: Desk): Promise<Answer> {
  return answer(await bundles.replace(path['bundle'] ?? '', readOrder(replacement, body)), 201);
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
