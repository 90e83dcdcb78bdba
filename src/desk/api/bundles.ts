/** The shelf over the API of this machine: what lies there, the changes a caller may make, what was put away. */
import { Fault } from '../../base/fault.ts';
import { hashBytes } from '../../base/hash.ts';
import { acceptance, correction, replacement, starterOrder } from '../../shelf/orders.ts';
import type { PutAway } from '../../shelf/shelf.ts';
import { stateOf } from '../../shelf/tree.ts';
import { type Answer, download, json } from '../answer.ts';
import type { Desk } from '../desk.ts';
import { readOrder, readPath } from './asked.ts';
import type { Order } from './routes.ts';

const nameOf = ({ words }: Order): string => words['bundle'] ?? '';

export const listBundles = async ({ shelf }: Desk): Promise<Answer> =>
  json({ bundles: await shelf.names() });

export const listStarters = async ({ shelf }: Desk): Promise<Answer> =>
  json({ starters: await shelf.starters() });

/** From a starter alone: what a browser hands in comes by the form of the shelf. */
export async function layBundle({ shelf }: Desk, { body }: Order): Promise<Answer> {
  const { starter } = readOrder(starterOrder, body);
  return json({ bundle: await shelf.begin(starter) }, 201);
}

export async function showBundle({ shelf }: Desk, order: Order): Promise<Answer> {
  const bundle = nameOf(order);
  const [held, history] = await Promise.all([shelf.files(bundle), shelf.history(bundle)]);
  const files = [...held].map(([path, bytes]) => ({
    path,
    hash: hashBytes(bytes),
    sizeBytes: bytes.length,
  }));
  const { state, files: ordered } = stateOf(files);
  const at = `/api/bundles/${encodeURIComponent(bundle)}/file?path=`;
  const told = ordered.map((file) => ({ ...file, url: at + encodeURIComponent(file.path) }));
  return json({ bundle, state, files: told, history });
}

/** The bytes behind an address that `showBundle` told. */
export async function sendBundleFile({ shelf }: Desk, order: Order): Promise<Answer> {
  const path = readPath(order.query);
  const bytes = await shelf.file(nameOf(order), path);
  if (bytes) return download(bytes, 'application/octet-stream', path.split('/').at(-1) ?? 'file');
  throw new Fault('missing', 'no such file is in the pattern', { place: path });
}

export const correct = async ({ shelf }: Desk, order: Order): Promise<Answer> =>
  json(await shelf.correct(nameOf(order), readOrder(correction, order.body)), 201);

export const accept = async ({ shelf }: Desk, order: Order): Promise<Answer> =>
  json(await shelf.accept(nameOf(order), readOrder(acceptance, order.body)), 201);

export const replace = async ({ shelf }: Desk, order: Order): Promise<Answer> =>
  json(await shelf.replace(nameOf(order), readOrder(replacement, order.body)), 201);

export const undo = async ({ shelf }: Desk, order: Order): Promise<Answer> =>
  json(await shelf.undo(nameOf(order)), 201);

const told = ({ name, at }: PutAway) => ({ bundle: name, at });

export const putAway = async ({ shelf }: Desk, order: Order): Promise<Answer> =>
  json(told(await shelf.putAway(nameOf(order))));

export const listAway = async ({ shelf }: Desk): Promise<Answer> =>
  json({ away: (await shelf.away()).map(told) });

export const takeBack = async ({ shelf }: Desk, order: Order): Promise<Answer> =>
  json({ bundle: await shelf.takeBack(nameOf(order)) });
