/**
 * Markers inside a row: `pm`, `sm`, `rm`, named before or after (`remove BOR marker`, `pm for thumb`).
 */
import type { Action } from '../ast.ts';
import type { Reader } from '../text/reader.ts';
import { markerName, readName } from '../text/name.ts';
import { isSized } from '../text/size-values.ts';
import { isStitch } from './stitch.ts';

type Marker = Extract<Action, { kind: 'marker' }>;

const SHORT: readonly (readonly [Marker['act'], string])[] = [
  ['place', 'pm'],
  ['slip', 'sm'],
  ['remove', 'rm'],
];
const VERBS: readonly (readonly [Marker['act'], readonly string[]])[] = [
  ['place', ['place', 'replace']],
  ['slip', ['slip']],
  ['remove', ['remove', 'removing', 'drop']],
];

/**
 * @rule marker = ( "pm" | "sm" | "rm" ), [ name ] | ( "place" | "slip" | "remove" ), [ name ],
 *   "marker", [ name ];
 */
export function readMarker(reader: Reader): Marker | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    const short = SHORT.find(([, word]) => reader.take(word))?.[0];
    const long = short === undefined ? readLong(reader) : undefined;
    const act = short ?? long?.act;
    if (!act) return undefined;
    reader.take('for', 'at');
    const name = long?.name ?? readLabel(reader);
    return {
      kind: 'marker',
      act,
      ...(name !== undefined && { name }),
      span: reader.spanFrom(position),
    };
  });
}

/** `place marker`, `slip raglan marker`: one or two words of a name may stand between. */
function readLong(reader: Reader): { act: Marker['act']; name?: string } | undefined {
  const act = VERBS.find(([, words]) => reader.take(...words))?.[0];
  if (!act) return undefined;
  if (reader.take('marker')) return { act };
  const words: string[] = [];
  while (words.length < 3 && reader.peek().kind === 'word' && !reader.is('marker', 'on', 'to')) {
    words.push(reader.next().text);
  }
  return reader.take('marker') ? { act, name: markerName(words.join(' ')) } : undefined;
}

/** A name after the act: anything that is no stitch and no number. */
function readLabel(reader: Reader): string | undefined {
  if (reader.is('and', 'then') || isSized(reader) || isStitch(reader)) return undefined;
  const name = readName(reader, 'and', 'marker', 'then', 'rep');
  reader.take('marker');
  return name === undefined ? undefined : markerName(name);
}
