/**
 * A shelf over a room of bundles: the same on this machine and behind the API. Takes the room, the folder
 * of starters and the clock; gives the shelf. A starter is copied with the schema beside it, so that an
 * editor finds it without a network.
 */
import type { BundleFiles } from '../pattern/bundle/unpack.ts';
import { jsonSchema } from '../pattern/bundle/json-schema.ts';
import { PATTERN_FILE } from '../pattern/bundle/load.ts';
import { acceptWarning, correctValue, replaceFile, undoLast } from './changes.ts';
import { folderRoom } from './folder-room.ts';
import type { BundleRoom } from './room.ts';
import type { Shelf } from './shelf.ts';

const SCHEMA_FILE = 'castoff-1.schema.json';

export interface ShelfOrder {
  readonly room: BundleRoom;
  /** Holds the starters, one folder each. */
  readonly starters: string;
  readonly now: () => Date;
}

export function openShelf({ room, starters, now }: ShelfOrder): Shelf {
  const examples = folderRoom(starters);
  return {
    names: () => room.names(),
    state: (name) => room.state(name),
    files: (name) => room.files(name),
    file: (name, path) => room.file(name, path),
    history: (name) => room.history(name),
    starters: () => examples.names(),
    begin: async (starter) => room.keep(starter, withSchema(await examples.files(starter))),
    correct: (name, correction) => room.change(name, now(), correctValue(correction)),
    accept: (name, acceptance) => room.change(name, now(), acceptWarning(acceptance)),
    replace: (name, replacement) => room.change(name, now(), replaceFile(replacement)),
    undo: (name) => room.change(name, now(), undoLast),
    putAway: (name) => room.putAway(name, now()),
    away: () => room.away(),
    takeBack: (name) => room.takeBack(name),
  };
}

function withSchema(files: BundleFiles): BundleFiles {
  const text = new TextDecoder().decode(files.get(PATTERN_FILE));
  const encode = (value: string) => new TextEncoder().encode(value);
  const named = text.replace(/"\$schema": "[^"]*"/, `"$schema": "./${SCHEMA_FILE}"`);
  return new Map([
    ...files,
    [PATTERN_FILE, encode(named)],
    [SCHEMA_FILE, encode(`${JSON.stringify(jsonSchema(), null, 2)}\n`)],
  ]);
}
