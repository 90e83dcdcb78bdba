/**
 * `castoff tidy`: clears a target of what no release names. Works in two runs a day apart, so that nobody
 * who publishes at the same time loses anything: the first lists, the second deletes. What a crash left
 * half built goes at once, where it is older than any run can be.
 */
import { randomUUID } from 'node:crypto';
import path from 'node:path';
import { RUN_LIMITS } from '../../base/limits.ts';
import { tidyFolders } from '../../release/tidy-folder.ts';
import { type Tidied, tidyStore } from '../../release/tidy.ts';
import { isBucketAddress, openStore } from '../../store/open.ts';
import { type Command, onlyWord, type Terminal } from '../command.ts';
import { STORE_FOLDER } from '../versions.ts';

export const tidyCommand: Command = {
  name: 'tidy',
  words: 'FOLDER|s3://BUCKET/PREFIX',
  about: 'clear up what no release names: the first run lists it, a run on the next day deletes it',
  options: {},
  examples: ['castoff tidy out', 'castoff tidy s3://my-patterns/releases'],
  async run(words, _options, terminal) {
    const target = onlyWord(tidyCommand, words, 'a target: the FOLDER or s3://… of your releases');
    const now = new Date();
    const folder = isBucketAddress(target) ? undefined : path.resolve(terminal.folder, target);
    const store = folder === undefined ? target : path.join(folder, STORE_FOLDER);
    const tidied = await tidyStore(await openStore(store), { now, owner: randomUUID() });
    if (folder !== undefined) await tidyHalves(folder, store, now, terminal);
    terminal.out(say(tidied));
    return 0;
  },
};

async function tidyHalves(
  folder: string,
  store: string,
  now: Date,
  terminal: Terminal,
): Promise<void> {
  const before = new Date(now.getTime() - RUN_LIMITS.longestHours * 3_600_000);
  const removed = await tidyFolders({ handedOver: folder, store }, before);
  for (const each of removed)
    terminal.out(`removed ${path.relative(folder, each)}, left half made`);
}

function say({ deleted, deletedBytes, condemned, notBefore }: Tidied): string {
  if (deleted > 0) return `${artifacts(deleted)} deleted, ${megabytes(deletedBytes)} MB.`;
  if (condemned === 0 || notBefore === undefined) return 'Nothing to clear up.';
  const due = notBefore.toISOString().slice(0, 16).replace('T', ' ');
  return `${artifacts(condemned)} that no release names ${condemned === 1 ? 'is' : 'are'} listed; tidy again after ${due} UTC to delete ${condemned === 1 ? 'it' : 'them'}.`;
}

const artifacts = (count: number): string => `${count} ${count === 1 ? 'artifact' : 'artifacts'}`;
const megabytes = (bytes: number): string => (bytes / 1_000_000).toFixed(1);
