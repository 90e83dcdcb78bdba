/**
 * Shaping said as arithmetic: `dec 12 sts evenly across row`, `inc 1 st each end`. Also reads the places
 * where shaping falls, which schedules over several rows use as well.
 */
import type { Action, ShapingPlace } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from '../text/reader.ts';
import { isSized, readSized, sizedAt } from '../text/size-values.ts';
import { readTimes } from '../text/times.ts';
import { markerName, readName } from '../text/name.ts';
import { readWorkedIn } from './worked-in.ts';

export interface Placed {
  readonly place: ShapingPlace;
  readonly marker?: string;
}

const EACH_END = [
  'each end', 'at each end', 'each side', 'at each side', 'both end', 'at both end', 'each edge', 'at each edge',
  'at both sides', 'at beg and end', 'beg and end', 'both sides', 'at both edges', 'at each neck and armhole edge',
  'in first and last sts', 'on each end', 'on each side',
]; // prettier-ignore

const PLACES: readonly (readonly [ShapingPlace, readonly string[]])[] = [
  ['neck edge', ['neck edge', 'each neck edge', 'neck']],
  ['armhole edge', ['armhole edge', 'each armhole edge', 'armhole']],
  ['front edge', ['front edge', 'center front edge', 'front']],
  ['side edge', ['side edge', 'side seam edge', 'side']],
  ['beginning', ['beg']],
  ['end', ['end']],
];

/**
 * @rule shaping place = "each end" | [ "at" ], ( "beg" | "end" | "neck edge" | "armhole edge"
 *   | "front edge" | "side edge" ) | marker place;
 */
export function readPlace(reader: Reader): Placed | undefined {
  return reader.attempt(() => {
    const marker = reader.attempt(() => readMarkerPlace(reader));
    if (marker) return marker;
    if (reader.take(...EACH_END)) return ofNeedle(reader, { place: 'each end' });
    reader.take('at', 'on');
    for (const [place, phrases] of PLACES) {
      if (reader.take(...phrases)) return ofNeedle(reader, { place });
    }
    return undefined;
  });
}

/** `of row`, `of needle`: which row is said by the rate, if at all. */
function ofNeedle(reader: Reader, placed: Placed): Placed {
  reader.take('of row', 'of round', 'of needle', 'of this row', 'of work');
  return placed;
}

const SIDES = [
  'each side of',
  'on each side of',
  'at each side of',
  'before and after',
  'either side of',
  'both sides of',
];

/** @rule marker place = ( "at each" | "each side of" ), marker name; */
function readMarkerPlace(reader: Reader): Placed | undefined {
  const sides = reader.take(...SIDES);
  if (!sides) reader.take('at', 'before', 'after');
  const each = reader.take('each', 'every', 'all');
  if (!sides && !each) return undefined;
  const name = reader.is('marker') ? undefined : readName(reader, 'marker');
  if (!reader.take('marker')) return undefined;
  return {
    place: sides ? 'each side of marker' : 'each marker',
    ...(name !== undefined && { marker: markerName(name) }),
  };
}

/** Whether `inc` or `dec` is followed by a number of stitches or a place, and so is no stitch. */
export function isChange(reader: Reader): boolean {
  const position = reader.position;
  const found = reader.attempt(() => {
    readWorkedIn(reader);
    if (!reader.take('inc', 'dec') || reader.attempt(() => readTimes(reader))) return undefined;
    return isSized(reader) || reader.is('evenly') || readPlace(reader) ? true : undefined;
  });
  if (found) reader.back(position);
  return found === true;
}

/** @rule change = [ worked in ], ( "inc" | "dec" ), sized, "sts", ( shaping place | evenly ); */
export function readChange(reader: Reader): Action | undefined {
  const position = reader.position;
  const fabric = readWorkedIn(reader) ?? {};
  const act = reader.next().term === 'inc' ? 'increase' : 'decrease';
  reader.take('and work in patt');
  let evenly = reader.take('evenly');
  const one = sizedAt(1, reader.spanFrom(position));
  const count = isSized(reader) ? readSized(reader, act === 'increase' ? '“inc”' : '“dec”') : one;
  if (!count) return undefined;
  reader.take('sts');
  evenly = reader.take('evenly spaced', 'evenly') || evenly;
  const placed = evenly ? undefined : readPlace(reader);
  if (placed) {
    return { kind: 'change', act, count, ...placed, ...fabric, span: reader.spanFrom(position) };
  }
  const across = reader.is('across', 'over', 'around', 'in next', 'on next', 'along');
  if (evenly || across || 'fabric' in fabric)
    return readEvenly(reader, { act, count, ...fabric }, position);
  const stitch = act === 'increase' ? 'inc' : 'dec';
  return { kind: 'work', stitch, times: count, span: reader.spanFrom(position) };
}

type Evenly = Extract<Action, { kind: 'evenly' }>;
const ACROSS = [
  'across row', 'across round', 'across all sts', 'across sts', 'across', 'around round', 'around',
  'over row', 'over round', 'over all sts', 'in next row', 'on next row', 'in next round', 'on next round',
  'along row', 'across next row', 'across last row', 'over next row', 'over next round',
]; // prettier-ignore

/** @rule evenly = "evenly", [ "across row" | "over next", sized, "sts" ]; */
function readEvenly(
  reader: Reader,
  head: Pick<Evenly, 'act' | 'count' | 'fabric'>,
  position: number,
): Evenly {
  reader.take('spaced');
  const over = reader.attempt(() => readOver(reader));
  if (!over) reader.take(...ACROSS);
  reader.take('evenly spaced', 'evenly');
  return { kind: 'evenly', ...head, ...(over && { over }), span: reader.spanFrom(position) };
}

function readOver(reader: Reader): Sized | undefined {
  if (!reader.take('over next', 'across next', 'over', 'across', 'in next')) return undefined;
  if (!isSized(reader)) return undefined;
  const over = readSized(reader, '“over”');
  return over && reader.take('sts') ? over : undefined;
}
