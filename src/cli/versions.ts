/**
 * One version of a pattern as a word on the command line: a bundle (folder or zip), the folder of a
 * released version, or a released version in a bucket. Takes the word, gives the bundle, and where
 * earlier versions of the same pattern may be asked for.
 */
import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { Fault } from '../base/fault.ts';
import { printFindings } from '../findings/text.ts';
import { blocks } from '../findings/finding.ts';
import { loadBundle } from '../pattern/bundle/load.ts';
import { unpackBundle } from '../pattern/bundle/unpack.ts';
import type { Bundle } from '../pattern/pattern.ts';
import { recallRelease } from '../release/earlier.ts';
import { readRecord, RECORD_PATH } from '../release/record.ts';
import { isBucketAddress, openStore } from '../store/open.ts';
import type { Store } from '../store/store.ts';
import { bundlePath } from './resources.ts';
import type { Terminal } from './command.ts';

/** Inside a folder that is published into: artifacts by hash and the manifests. */
export const STORE_FOLDER = '.store';

export interface GivenVersion {
  readonly bundle: Bundle;
  /** Set for a released version whose store is known. */
  readonly store?: Store;
}

const RELEASED = /^(.+?)\/+([a-z0-9-]+)\/+(\d+\.\d+\.\d+)\/*$/;

export async function readVersion(word: string, terminal: Terminal): Promise<GivenVersion> {
  if (isBucketAddress(word)) return fromStore(word, word);
  const place = bundlePath(word, terminal);
  const record = path.join(place, ...RECORD_PATH.split('/'));
  if (existsSync(record)) {
    const bundle = readRecord(await readFile(record), record);
    const [, base = ''] = RELEASED.exec(place.replaceAll(path.sep, '/')) ?? [];
    const store = path.join(base, STORE_FOLDER);
    return { bundle, ...(base !== '' && existsSync(store) && { store: await openStore(store) }) };
  }
  return { bundle: await readBundle(place) };
}

async function fromStore(word: string, place: string): Promise<GivenVersion> {
  const [, base = '', pattern = '', version = ''] = RELEASED.exec(word) ?? [];
  if (version === '') {
    throw new Fault('usage', `${word} names no released version`, {
      place,
      remedy: 'write s3://bucket/folder/pattern/1.0.0',
    });
  }
  const store = await openStore(base);
  return { bundle: await recallRelease(store, pattern, version), store };
}

async function readBundle(place: string): Promise<Bundle> {
  const { bundle, findings } = loadBundle(await unpackBundle(place));
  if (bundle) return bundle;
  throw new Fault('input', `${place} cannot be read\n${printFindings(findings.filter(blocks))}`, {
    place,
    remedy: 'castoff check says more',
  });
}
