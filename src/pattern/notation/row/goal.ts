/**
 * Where "to …" stops: the end, the last stitches, a marker, a gap left by a turn. Reads all the ways
 * of saying it, `to within 3 sts of end` and `until 3 sts remain` included.
 */
import type { Goal } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from '../text/reader.ts';
import { isSized, readSized, sizedAt } from '../text/size-values.ts';
import { markerName, readName } from '../text/name.ts';

const GAPS = [
  'gap', 'wrapped sts', 'wrap', 'turn', 'last turn', 'previous turn', 'last wrapped sts', 'last wrap',
  'previous wrapped sts', 'turning point', 'last turning point', 'previous turning point', 'ds',
  'double sts', 'last ds', 'bound-off sts', 'bound off sts', 'cast-off sts', 'cast off sts', 'last gap', 'prev turn', 'last double sts',
]; // prettier-ignore
const END_OF = ['of row', 'of round', 'of needle', 'of sts', 'of next needle'];

/** Whether a goal stands here. `until … rem` is one inside a row only. */
export const isGoal = (reader: Reader): boolean => reader.is('to', 'across', 'around', 'until');

/**
 * @rule goal = "to end" | "across" | "around" | "to last", sized, "sts" | "to", [ sized, "sts
 *   before" ], place | "to", sized, "sts past", place | "until", sized, "sts remain", [
 *   "unworked" ];
 */
export function readGoal(reader: Reader): Goal | undefined {
  const position = reader.position;
  if (reader.take('across', 'around')) {
    if (reader.is('to')) return readGoal(reader);
    reader.skip('row', 'round', 'all', 'sts');
    return { kind: 'end', span: reader.spanFrom(position) };
  }
  if (reader.take('until')) return readRemaining(reader, position);
  if (!reader.take('to')) return reader.missing('where to stop');
  if (reader.take('end')) return endGoal(reader, position);
  if (reader.take('last')) return readLast(reader, position);
  if (reader.take('within')) return readWithin(reader, position);
  if (isSized(reader) && !isMarkerInTurn(reader)) return readRelative(reader, position);
  return readPlace(reader, position, sizedAt(0, reader.spanFrom(position)));
}

function endGoal(reader: Reader, position: number): Goal {
  reader.take(...END_OF);
  return { kind: 'end', span: reader.spanFrom(position) };
}

/** `to 2nd marker` names a marker; `to 2 sts …` does not. */
const isMarkerInTurn = (reader: Reader): boolean => reader.peek().kind === 'ordinal';

function readLast(reader: Reader, position: number): Goal | undefined {
  if (reader.is(...GAPS, 'marker')) {
    return readPlace(reader, position, sizedAt(0, reader.spanFrom(position)));
  }
  const count = isSized(reader)
    ? readSized(reader, 'to last')
    : isOneStitch(reader) ? sizedAt(1, reader.peek().span) : readSized(reader, '“to last”'); // prettier-ignore
  if (!count) return undefined;
  reader.take('sts');
  reader.take('of row', 'of round', 'of needle', 'before end', 'on needle');
  return { kind: 'last', count, span: reader.spanFrom(position) };
}

/** `to last st`: the word alone means one, the plural does not. */
const isOneStitch = (reader: Reader): boolean => /^(?:st|stitch)$/i.test(reader.peek().text);

function readWithin(reader: Reader, position: number): Goal | undefined {
  const count = readSized(reader, '“within”');
  if (!count) return undefined;
  reader.take('sts');
  if (!reader.take('of end')) return reader.missing('“of end”');
  reader.take(...END_OF);
  return { kind: 'last', count, span: reader.spanFrom(position) };
}

function readRemaining(reader: Reader, position: number): Goal | undefined {
  const count = readSized(reader, '“until”');
  if (!count) return undefined;
  reader.take('sts');
  if (!reader.take('rem', 'are left', 'left')) return reader.missing('“remain”');
  const unworked = reader.take('unworked', 'to be worked');
  if (reader.take('before') && !reader.take('end')) return readPlace(reader, position, count);
  return { kind: unworked ? 'remaining' : 'last', count, span: reader.spanFrom(position) };
}

/** `to 2 sts before …`, `to 5 sts past …`. */
function readRelative(reader: Reader, position: number): Goal | undefined {
  const count = readSized(reader, '“to”');
  if (!count) return undefined;
  reader.take('sts');
  if (reader.take('before')) return readPlace(reader, position, count);
  if (reader.take('past', 'after', 'beyond')) return readPast(reader, position, count);
  if (reader.take('from end', 'before end')) {
    return { kind: 'last', count, span: reader.spanFrom(position) };
  }
  return reader.missing('“before” or “past”');
}

/** @rule place = "gap" | "wrapped st" | marker name; */
function readPlace(reader: Reader, position: number, before: Sized): Goal | undefined {
  if (reader.take('end')) {
    reader.take(...END_OF);
    return { kind: 'last', count: before, span: reader.spanFrom(position) };
  }
  if (reader.take(...GAPS)) return { kind: 'gap', before, span: reader.spanFrom(position) };
  const marker = readMarkerName(reader);
  if (!marker) return reader.missing('“end”, “last … sts” or a marker');
  return { kind: 'marker', before, ...marker, span: reader.spanFrom(position) };
}

function readPast(reader: Reader, position: number, count: Sized): Goal | undefined {
  if (reader.take(...GAPS))
    return { kind: 'past', count, of: 'gap', span: reader.spanFrom(position) };
  const marker = readMarkerName(reader);
  if (!marker) return reader.missing('a gap or a marker');
  return { kind: 'past', count, of: 'marker', ...marker, span: reader.spanFrom(position) };
}

/** Markers are met in turn, so that each of these is the next one; the last is not. */
const IN_TURN = ['first', 'second', 'third', 'fourth', '1st', '2nd', '3rd', '4th'];

/** @rule marker name = [ name ], "m" | "m", word | "BOR"; */
function readMarkerName(reader: Reader): { marker?: string } | undefined {
  return reader.attempt(() => {
    reader.take('next', 'each', ...IN_TURN);
    if (reader.take('center sts')) return { marker: 'center st' };
    if (reader.take('marker')) {
      const name = isBareName(reader) ? reader.next().text : undefined;
      return name === undefined ? {} : { marker: markerName(name) };
    }
    const name = readName(reader, 'marker', 'to', 'before');
    if (name === undefined) return undefined;
    if (reader.take('marker') || markerName(name) === 'BOR') return { marker: markerName(name) };
    return undefined;
  });
}

/** `m A`, `marker B`: a capital, or `m1` written apart would be a stitch. */
const isBareName = (reader: Reader): boolean => /^(?:[A-Z]{1,3}|BOR)$/.test(reader.peek().text);
