/**
 * Shaping that goes on over rows: `Dec 1 st each end every 4th row 5 times`, `At neck edge, bind off 4
 * sts once, 3 sts twice`, `Rep Dec row every 6th row 3 more times`. Several amounts in a row give
 * several sentences, one after another.
 */
import type { Fabric, RowRole, Schedule, Sentence } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from '../text/reader.ts';
import { readPlace, type Placed } from '../row/change.ts';
import { BIND_OFF } from '../row/edges.ts';
import { readWorkedIn } from '../row/worked-in.ts';
import { readRole } from '../text/ranges.ts';
import { isSized, readSized, sizedAt } from '../text/size-values.ts';
import { readTimes } from '../text/times.ts';
import { isRates, readRates, type Rates } from './rates.ts';

type Shape = Extract<Sentence, { kind: 'shape' }>;

interface Head {
  readonly act: Schedule['act'];
  readonly count: Sized;
  readonly placed: Placed;
  readonly row?: RowRole;
  readonly fabric?: Fabric;
}

/** The head of a shaping sentence, if one stands here and a rate follows it. */
function readHead(reader: Reader): Head | undefined {
  return reader.attempt(() => {
    const head = readRepeatHead(reader) ?? readChangeHead(reader);
    return head && isRates(reader) ? head : undefined;
  });
}

export function isShape(reader: Reader): boolean {
  const position = reader.position;
  readWorkedIn(reader);
  const found = readHead(reader) !== undefined || isPlacedList(reader);
  reader.back(position);
  return found;
}

/** @rule shaping = ( "inc" | "dec" | "bind off" ), [ sized, "sts" ], shaping place; */
function readChangeHead(reader: Reader): Head | undefined {
  const act = readAct(reader);
  if (!act) return undefined;
  reader.take('and work in patt');
  if (act === 'bindOff' && !isSized(reader)) return undefined;
  const count = isSized(reader) ? readSized(reader, `“${act}”`) : sizedAt(1, reader.last.span);
  reader.take('sts');
  const placed = readPlace(reader);
  return count && placed && { act, count, placed };
}

function readAct(reader: Reader): 'increase' | 'decrease' | 'bindOff' | undefined {
  if (reader.take('inc')) return 'increase';
  if (reader.take('dec')) return 'decrease';
  return reader.take(...BIND_OFF) ? 'bindOff' : undefined;
}

/** @rule repeated row = ( "rep" | "work" ), ( role | "this" | "last" ), unit; */
function readRepeatHead(reader: Reader): Head | undefined {
  return reader.attempt(() => {
    if (!reader.take('rep', 'work')) return undefined;
    const row = readRole(reader);
    if (!row && !reader.take('this', 'last', 'these')) return undefined;
    if (!reader.take('row', 'round')) return undefined;
    const count = sizedAt(0, reader.last.span);
    return { act: 'repeat', count, placed: { place: 'each end' }, ...(row && { row }) };
  });
}

/**
 * @rule shape = [ worked in ], ( shaping | repeated row ), rates | shaping place, [ "," ],
 *   amount, { [ "," ], [ "then" ], amount };
 */
export function readShape(reader: Reader): readonly Sentence[] | undefined {
  const position = reader.position;
  const { fabric } = readWorkedIn(reader) ?? {};
  const found = readHead(reader);
  const head = found && { ...found, ...(fabric !== undefined && { fabric }) };
  if (!head) return readPlacedList(reader);
  const rates = readRates(reader);
  return rates && [shape(head, rates, reader, position)];
}

function shape(head: Head, rates: Rates, reader: Reader, position: number): Shape {
  const { act, count, placed, row, fabric } = head;
  const more = { ...(row && { row }), ...(fabric !== undefined && { fabric }) };
  const span = reader.spanFrom(position);
  return {
    kind: 'shape',
    schedule: { act, count, ...placed, ...more, ...rates, span },
    span,
  };
}

/** Whether `at neck edge, bind off …` stands here. */
function isPlacedList(reader: Reader): boolean {
  const position = reader.position;
  const found = reader.attempt(() => {
    if (!reader.is('at', 'on', 'each', 'before')) return undefined;
    if (!readPlace(reader)) return undefined;
    reader.take(',');
    return readAct(reader);
  });
  reader.back(position);
  return found !== undefined;
}

function readPlacedList(reader: Reader): readonly Sentence[] | undefined {
  const placed = readPlace(reader);
  if (!placed) return reader.missing('where the shaping falls');
  reader.take(',');
  const sentences: Sentence[] = [];
  let act: Schedule['act'] | undefined;
  let every: Rates | undefined;
  do {
    const position = reader.position;
    act = readAct(reader) ?? act;
    if (!act) return reader.missing('“inc”, “dec” or “bind off”');
    const count = readSized(reader, 'the shaping');
    if (!count) return undefined;
    reader.take('sts');
    const rates: Rates | undefined = isRates(reader)
      ? readRates(reader)
      : readAmountTimes(reader, every);
    if (!rates) return undefined;
    every = rates;
    sentences.push(shape({ act, count, placed }, rates, reader, position));
  } while (takesAmount(reader));
  return sentences;
}

/**
 * Without a rate of its own it falls every other row.
 * @rule amount = [ "inc" | "dec" | "bind off" ], sized, "sts", ( rates | times );
 */
function readAmountTimes(reader: Reader, before: Rates | undefined): Rates | undefined {
  const times = readTimes(reader);
  if (!times) return reader.missing('how often (“once”, “5 times”)');
  const last = before?.rates.at(-1);
  const every = last?.kind === 'rows' ? last.every : sizedAt(2, reader.last.span);
  return { startsNow: false, rates: [{ kind: 'rows', every, times: times.times }] };
}

function takesAmount(reader: Reader): boolean {
  const took = reader.attempt(() => {
    reader.take(',');
    reader.take('and then', 'then', 'and');
    const position = reader.position;
    if (readAct(reader) === undefined && reader.position === position && !isSized(reader))
      return undefined;
    if (!isSized(reader)) return undefined;
    const count = readSized(reader, 'the shaping');
    reader.take('sts');
    const often = readTimes(reader) !== undefined || isRates(reader);
    reader.back(position);
    return count && often ? true : undefined;
  });
  return took === true;
}
