/**
 * Puts all files of a release into one zip, when an order for it has arrived. Told twice, it finds what it
 * made; cut off, it leaves nothing to be seen. Every file is held to its hash on the way.
 */
import { createHash } from 'node:crypto';
import type { Context } from 'aws-lambda';
import { Fault } from '../../src/base/fault.ts';
import { artifactKey } from '../../src/release/keys.ts';
import { findMade } from '../../src/release/made.ts';
import type { ReleasedFile } from '../../src/release/manifest.ts';
import { zipInPieces } from '../../src/release/zip.ts';
import { openClient } from '../../src/store/s3-client.ts';
import { readInPieces, writeInParts } from '../../src/store/s3-streams.ts';
import { environment } from '../environment.ts';
import { count, log, traced, watched } from '../telemetry.ts';
import { openStudio } from '../world.ts';
import { readZipOrder, zipKey } from './order.ts';

const client = traced(openClient());

export const handler = (event: unknown, context: Partial<Context> = {}): Promise<void> =>
  watched('zip', context, () => make(event));

async function make(event: unknown): Promise<void> {
  const order = readZipOrder(event);
  if (order === undefined) return;
  const { studio, pattern, version } = order;
  const { work, releases } = openStudio(studio, client);
  const key = zipKey(order);
  if (await work.has(key)) return;
  const manifest = await findMade(releases, pattern, version);
  if (manifest === undefined) return;
  const entries = manifest.files.map((file) => ({
    path: file.path,
    read: () => readArtifact(studio, file),
  }));
  const place = { bucket: environment('WORK_BUCKET'), key: `${studio}/${key}` };
  const written = { contentType: 'application/zip', fileName: `${pattern}-${version}.zip` };
  await writeInParts(client, place, written, zipInPieces(entries));
  log.info('zip made', { files: manifest.files.length });
  count('ZipsMade');
}

async function* readArtifact(
  studio: string,
  { artifact, mediaType }: ReleasedFile,
): AsyncGenerator<Uint8Array> {
  const key = artifactKey(artifact, mediaType);
  const hash = createHash('sha256');
  const place = { bucket: environment('RELEASES_BUCKET'), key: `${studio}/${key}` };
  for await (const piece of readInPieces(client, place)) {
    hash.update(piece);
    yield piece;
  }
  if (hash.digest('hex') === artifact) return;
  throw new Fault('store', `${key} is not what it is named for`, { place: key, retryable: true });
}
