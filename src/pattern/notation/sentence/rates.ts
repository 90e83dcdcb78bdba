/**
 * When shaping falls: `every 4th row 5 times, then every 6th row 3 times`, `on next row and every foll
 * alt row until 24 sts remain`, `on next 4 rows`, `every inch 5 times`. What falls on the next row is
 * told apart from what falls after a full interval.
 */
import type { Extent, Length, Rate, Side } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from '../text/reader.ts';
import { isLength, readLength } from '../text/length.ts';
import { isSized, readSized, sizedAt } from '../text/size-values.ts';
import { readTimes } from '../text/times.ts';
import { readExtent } from './extent.ts';

export interface Rates {
  readonly startsNow: boolean;
  readonly rates: readonly Rate[];
  readonly until?: Extent;
  readonly unit?: 'round';
}

const SOON = ['next', 'this', 'foll', 'these'];

/** Whether a rate begins here. */
export function isRates(reader: Reader): boolean {
  const position = reader.position;
  reader.take(',');
  reader.take('on', 'of', 'in', 'at');
  const found =
    reader.is('every', 'each row', 'each round', 'each foll', ...SOON) ||
    (reader.peek().kind === 'ordinal' && readsOrdinalRow(reader));
  reader.back(position);
  return found;
}

/** `5th row and every …`; `1st marker` is something else. */
const readsOrdinalRow = (reader: Reader): boolean =>
  ['row', 'round', 'and', 'foll', 'RS', 'WS', '('].includes(reader.peek(1).term);

/** @rule rates = [ first now ], leg, { [ "," ], [ "then" ], leg }; */
export function readRates(reader: Reader): Rates | undefined {
  const position = reader.position;
  const rates = readAllRates(reader);
  const after = reader.position;
  reader.back(position);
  let rounds = false;
  while (reader.position < after) rounds = reader.next().term === 'round' || rounds;
  return rates && { ...rates, ...(rounds && { unit: 'round' as const }) };
}

function readAllRates(reader: Reader): Rates | undefined {
  reader.take(',');
  const startsNow = takeStart(reader);
  const rates: Rate[] = [];
  let inAll = false;
  do {
    const leg = readLeg(reader);
    if (!leg) return undefined;
    rates.push(...leg.rates);
    inAll ||= leg.inAll;
    if (leg.until) return { startsNow, rates, until: leg.until };
  } while (takesLeg(reader));
  if (rates.at(-1)?.times === undefined)
    return reader.missing('how often (“5 times” or “until 24 sts remain”)');
  return { startsNow, rates: startsNow && inAll ? lessOne(rates) : rates };
}

/** @rule first now = ( "next" | "this" ), [ unit ], [ "," ], ( "and" | "then" ); */
function takeStart(reader: Reader): boolean {
  const took = reader.attempt(() => {
    reader.take('on', 'of', 'in', 'at');
    if (!reader.take('next', 'this')) return undefined;
    reader.take('RS row', 'WS row', 'row', 'round');
    reader.take(',');
    if (!reader.take('and then', 'and', 'then', 'and on')) return undefined;
    reader.take('on');
    return isLegAhead(reader) ? true : undefined;
  });
  return took === true;
}

const isLegAhead = (reader: Reader): boolean => reader.is('every', 'each', ...SOON);

function takesLeg(reader: Reader): boolean {
  const took = reader.attempt(() => {
    reader.take(',');
    reader.take('and then', 'then', 'and');
    reader.take('on', 'at');
    return isLegAhead(reader) ? true : undefined;
  });
  return took === true;
}

interface Leg {
  readonly rates: readonly Rate[];
  readonly until?: Extent;
  readonly inAll: boolean;
}

/**
 * @rule leg = interval, ( times | extent ) | ( "next" | "foll" ), [ sized ], [ "alt" ], unit |
 *   ordinal, unit, "and", interval, times;
 */
function readLeg(reader: Reader): Leg | undefined {
  reader.take('on', 'of', 'in', 'at');
  if (reader.peek().kind === 'ordinal') return readFirstThenEvery(reader);
  if (!reader.is('every', 'each')) return readNextRows(reader);
  const interval = readInterval(reader);
  return interval && readOften(reader, [interval]);
}

/** `5th row and every foll 6th row 3 times`: once after five rows, then every six. */
function readFirstThenEvery(reader: Reader): Leg | undefined {
  const every = readSized(reader, 'a row', 'ordinal');
  reader.take('row', 'round');
  if (!every) return undefined;
  const first: Rate = { kind: 'rows', every, times: sizedAt(1, reader.last.span) };
  if (!reader.take('and')) return { rates: [first], inAll: false };
  const interval = reader.is('every', 'each') ? readInterval(reader) : undefined;
  if (!interval) return reader.missing('“every … row”');
  return readOften(reader, [interval], [first]);
}

type Interval =
  | { readonly kind: 'rows'; readonly every: Sized; readonly side?: Side }
  | { readonly kind: 'length'; readonly every: Length };

/**
 * @rule interval = "every", [ "foll" ], ( unit | "other", unit | ( "RS" | "WS" ), unit |
 *   ordinal, unit | sized, unit | length );
 */
function readInterval(reader: Reader): Interval | undefined {
  const position = reader.position;
  reader.take('every', 'each');
  reader.take('foll');
  const rows = (value: number) => sizedAt(value, reader.spanFrom(position));
  if (reader.take('row', 'round')) return { kind: 'rows', every: rows(1) };
  const alternate = reader.take('foll alt', 'alt', 'other', 'foll other');
  const side = readSideTerm(reader);
  if (alternate || side) {
    if (!reader.take('row', 'round')) return reader.missing('“row”');
    return { kind: 'rows', every: rows(2), ...(side && { side }) };
  }
  if (reader.is('inches', 'cm')) {
    const unit = reader.next().term === 'cm' ? 'centimetres' : 'inches';
    return { kind: 'length', every: { [unit]: rows(1), span: reader.spanFrom(position) } };
  }
  if (isLength(reader)) {
    const every = readLength(reader);
    return every && { kind: 'length', every };
  }
  const kind = reader.peek().kind === 'ordinal' ? 'ordinal' : 'whole';
  const every = readSized(reader, '“every”', kind);
  if (!every) return undefined;
  reader.take('foll');
  const late = readSideTerm(reader);
  if (!reader.take('row', 'round')) return reader.missing('“row”');
  return { kind: 'rows', every, ...(late && { side: late }) };
}

const readSideTerm = (reader: Reader): Side | undefined =>
  reader.take('RS') ? 'RS' : reader.take('WS') ? 'WS' : undefined;

/** How often an interval comes, or until when. */
function readOften(
  reader: Reader,
  [interval]: readonly [Interval],
  before: readonly Rate[] = [],
): Leg | undefined {
  const times = reader.attempt(() => {
    reader.take(',');
    return readTimes(reader);
  });
  if (times) {
    const rates = [...before, { ...interval, times: times.times }];
    return { rates, inAll: times.counts === 'in all' };
  }
  reader.take(',');
  const rates = [...before, interval];
  const count = reader.attempt(() => readToCount(reader));
  if (count) return { rates, until: { kind: 'count', count }, inAll: false };
  if (!reader.is('until')) return { rates, inAll: false };
  const until = readExtent(reader, 'total');
  return until && { rates, until, inAll: false };
}

/** `to 70 sts`: the British way of saying until when. */
function readToCount(reader: Reader): Sized | undefined {
  if (!reader.take('to') || !isSized(reader)) return undefined;
  const count = readSized(reader, 'the count');
  return count && reader.take('sts') ? count : undefined;
}

/** `next 4 rows`, `foll 3 alt rows`, `next row`: each of them, or every second. */
function readNextRows(reader: Reader): Leg | undefined {
  const position = reader.position;
  if (!reader.take(...SOON)) return reader.missing('“every … row”');
  const times = isSized(reader) ? readSized(reader, '“next”') : sizedAt(1, reader.last.span);
  if (!times) return undefined;
  const alternate = reader.take('alt', 'foll alt');
  const side = readSideTerm(reader);
  if (!reader.take('row', 'round')) return reader.missing('“row”');
  const every = sizedAt(alternate || side ? 2 : 1, reader.spanFrom(position));
  return { rates: [{ kind: 'rows', every, ...(side && { side }), times }], inAll: false };
}

/** `next row and every 4th row, 5 times in all`: four of them fall after the next row. */
function lessOne(rates: readonly Rate[]): readonly Rate[] {
  return rates.map((rate, index) => {
    if (index !== rates.length - 1 || !rate.times) return rate;
    const values = rate.times.values.map((value) =>
      value === null ? null : Math.max(value - 1, 0),
    );
    return { ...rate, times: { ...rate.times, values } };
  });
}
