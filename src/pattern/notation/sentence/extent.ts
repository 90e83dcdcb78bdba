/**
 * How long something goes on: `until piece measures 14 in from cast-on edge, ending with a WS row`,
 * `for 12 rows`, `until 24 sts remain`, `6 more times`. Where a length is measured from the named part
 * (`until armhole measures 7 in`), the part says from where.
 */
import type { Extent, Side } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from '../text/reader.ts';
import { isLength, readLength } from '../text/length.ts';
import { isSized, readSized } from '../text/size-values.ts';
import { isTimes, readTimes } from '../text/times.ts';

type From = Extract<Extent, { kind: 'length' }>['from'];

const FROM: readonly (readonly [From, readonly string[]])[] = [
  ['cast-on', ['cast-on edge', 'cast-on', 'cast on edge', 'cast on', 'co edge', 'co', 'beg', 'lower edge', 'hem']],
  ['underarm', ['underarm', 'armhole', 'armpit', 'underarm bind-off', 'armhole bind-off']],
  ['divide', ['divide', 'dividing row', 'division', 'split', 'dividing round', 'dividing']],
  ['marker', ['marker', 'marked row']],
  ['pick-up', ['pick-up edge', 'pick-up', 'pick-up row', 'picked-up edge', 'pick up row', 'pick up edge']],
  ['here', ['here', 'this point', 'last row', 'this row', 'last dec', 'last inc']],
]; // prettier-ignore

/** Whether an extent stands here. */
export const isExtent = (reader: Reader): boolean => reader.is('until', 'for') || isTimes(reader);

/**
 * `said`: the word that opens the extent has been read already.
 * @rule extent = ( "until", ( measured | sized, "sts remain" ) | "for", ( length | sized, unit
 *   ) | times ), [ ending row ];
 */
export function readExtent(
  reader: Reader,
  bare: 'more' | 'total',
  said?: 'until' | 'for',
): Extent | undefined {
  const extent = readBareExtent(reader, bare, said);
  return extent && { ...extent, ...readEnding(reader) };
}

function readBareExtent(
  reader: Reader,
  bare: 'more' | 'total',
  said: 'until' | 'for' | undefined,
): Extent | undefined {
  if (said === 'until' || reader.take('until')) return readUntil(reader);
  if (said === 'for' || reader.take('for')) return readFor(reader);
  const times = readTimes(reader);
  if (!times) return reader.missing('how long: “until …”, “for … rows” or “… times”');
  const kind = times.counts === undefined ? bare : times.counts === 'more' ? 'more' : 'total';
  return { kind, times: times.times };
}

function readFor(reader: Reader): Extent | undefined {
  reader.take('another', 'next', 'further', 'about');
  if (isLength(reader)) {
    const length = readLength(reader);
    if (!length) return undefined;
    return { kind: 'length', length, from: readFrom(reader) ?? 'here' };
  }
  const count = readSized(reader, '“for”');
  if (!count) return undefined;
  reader.take('more');
  return takeRows(reader) ? { kind: 'rows', count } : reader.missing('“rows”');
}

function takeRows(reader: Reader): boolean {
  return reader.take('RS row', 'WS row', 'row', 'round');
}

function readUntil(reader: Reader): Extent | undefined {
  return reader.attempt(() => readCountLeft(reader)) ?? readMeasure(reader);
}

/** `until 24 sts remain`, `until there are 72 sts`, `until you have 72 sts`. */
function readCountLeft(reader: Reader): Extent | undefined {
  reader.take('there are', 'you have', 'only');
  if (!isSized(reader)) return undefined;
  const count = readSized(reader, '“until”');
  if (!count || !reader.take('sts')) return undefined;
  reader.take('are');
  reader.take('rem', 'left');
  reader.take('on needle');
  return { kind: 'count', count };
}

/** @rule measured = name, "measures", length, [ "from", name ]; */
function readMeasure(reader: Reader): Extent | undefined {
  const part: string[] = [];
  while (!reader.done && !reader.is('measures', '.', ',', 'is') && part.length < 6) {
    part.push(reader.next().term);
  }
  if (!reader.take('measures', 'is')) return reader.missing('“piece measures”');
  reader.take('approx', 'approximately', 'about');
  const length = readLength(reader);
  if (!length) return undefined;
  const from = readFrom(reader) ?? (part.includes('armhole') ? 'underarm' : 'cast-on');
  return { kind: 'length', length, from };
}

function readFrom(reader: Reader): From | undefined {
  return reader.attempt(() => {
    if (!reader.take('from', 'above', 'beyond', 'past', 'after')) return undefined;
    return FROM.find(([, phrases]) => reader.take(...phrases))?.[0];
  });
}

/**
 * `ending with RS facing for next row` ends after a WS row.
 * @rule ending row = [ "," ], "ending with", ( ( "RS" | "WS" ), "row" | unit, sized );
 */
export function readEnding(reader: Reader): { ending?: Side; endingRow?: Sized } {
  const found = reader.attempt(() => {
    reader.take(',');
    if (!reader.take('ending', 'end')) return undefined;
    reader.take('with', 'after', 'on', 'having just worked', 'having worked', 'ready to work');
    reader.take('row', 'round');
    if (isSized(reader)) return { endingRow: readSized(reader, 'the row') };
    const side: Side | undefined = reader.take('RS') ? 'RS' : reader.take('WS') ? 'WS' : undefined;
    if (reader.take('facing')) {
      reader.take('for next row');
      return side && { ending: side === 'RS' ? ('WS' as const) : ('RS' as const) };
    }
    reader.take('row', 'round');
    return side && { ending: side };
  });
  return found as { ending?: Side; endingRow?: Sized } | undefined ?? {}; // prettier-ignore
}
