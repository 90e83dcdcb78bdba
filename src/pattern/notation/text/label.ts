/**
 * What stands before the colon: `Row 1 (RS):`, `Rnds 1–5:`, `Row 2 and all WS rows:`, `Next 3 rows:`,
 * `Dec rnd:`, `1st row:`, or a free name (`Instep:`).
 */
import type { RowLabel, Side } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from './reader.ts';
import { isSized, readSized, sizedAt } from './size-values.ts';
import { readRanges, readRole } from './ranges.ts';
import { isStatedNext } from './stated.ts';

type Numbered = Extract<RowLabel, { kind: 'numbered' }>;
type Unit = Numbered['unit'];

/** A name is short; a colon further on belongs to something else. */
const LONGEST_NAME = 60;

/**
 * A numbered row may go without its colon.
 * @rule label = ( numbered label | next label | label name ), ":";
 */
export function readLabel(reader: Reader): RowLabel | undefined {
  const numbered = (takeClose: (reader: Reader) => boolean) =>
    reader.attempt(() => {
      const label = readNumbered(reader) ?? readNext(reader);
      return label && takeClose(reader) ? label : undefined;
    });
  return (
    numbered((at) => at.take(':')) ?? reader.attempt(() => readNamed(reader)) ?? numbered(takeGap)
  );
}

/** `Row 1 –`, `1st row.`, `Row 1 (RS) K2`; no "of" or "until", which make it a sentence. */
function takeGap(reader: Reader): boolean {
  if (reader.take('.', '–', '—', '-')) return !reader.done;
  return (
    !reader.done && !reader.is('of', 'until', ',', 'for', 'times', 'more', 'again', 'from', 'even')
  );
}

/** @rule unit = "row" | "rows" | "rnd" | "rnds"; */
const readUnit = (reader: Reader): Unit | undefined =>
  reader.take('row') ? 'row' : reader.take('round') ? 'round' : undefined;

/** `Row1`, `Rnd2`, `R3`: the number glued on. */
const GLUED = /^(r|row|rd|rnd|round)(\d{1,4})$/i;

function readGluedRow(reader: Reader): Pick<Numbered, 'ranges' | 'unit'> | undefined {
  const { text, span } = reader.peek();
  const found = GLUED.exec(text);
  if (!found) return undefined;
  reader.next();
  const row = sizedAt(Number(found[2]), span);
  return {
    unit: /^(?:r|row)$/i.test(found[1] ?? '') ? 'row' : 'round',
    ranges: [{ from: row, to: row }],
  };
}

/** @rule side = "(", ( "RS" | "WS" ), ")"; */
function readSide(reader: Reader): Side | undefined {
  return reader.attempt(() => {
    const open = reader.take('(', '[', ',');
    const side = reader.take('RS', 'right side')
      ? 'RS'
      : reader.take('WS', 'wrong side')
        ? 'WS'
        : undefined;
    reader.take('facing', 'row');
    return side && (!open || reader.take(')', ']') || reader.is(':')) ? side : undefined;
  });
}

/**
 * @rule numbered label = unit, ranges, [ "(", role, ")" ], [ side ], [ and all ] | ordinal, {
 *   "and", ordinal }, ( unit | and all );
 */
function readNumbered(reader: Reader): Numbered | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    const early = reader.is('RS row', 'WS row') ? readSideWord(reader) : undefined;
    const ordinal = reader.peek().kind === 'ordinal' ? readOrdinals(reader) : undefined;
    const shared = ordinal ? readSharedUnit(reader, ordinal) : undefined;
    const glued = readGluedRow(reader);
    const unit = glued?.unit ?? shared?.unit ?? readUnit(reader);
    if (!unit) return undefined;
    const ranges = glued?.ranges ?? ordinal ?? (isSized(reader) ? readRanges(reader) : undefined);
    if (!ranges) return undefined;
    const role = readLateRole(reader);
    const before = readSide(reader);
    const andAll = shared?.andAll ?? readAndAll(reader, ranges);
    const side = before ?? readSide(reader) ?? early;
    return {
      kind: 'numbered',
      unit,
      ranges,
      ...(side && { side }),
      ...(andAll && { andAll }),
      ...(role && { role }),
      span: reader.spanFrom(position),
    };
  });
}

/** `2nd and every alt row`: one word serves both. */
function readSharedUnit(
  reader: Reader,
  ranges: Numbered['ranges'],
): Pick<Numbered, 'andAll' | 'unit'> | undefined {
  if (!reader.is('and')) return undefined;
  const andAll = readAndAll(reader, ranges);
  return andAll && { andAll, unit: reader.last.term === 'round' ? 'round' : 'row' };
}

function readSideWord(reader: Reader): Side {
  return reader.next().term === 'RS' ? 'RS' : 'WS';
}

/** `1st`, `1st and 3rd`: the British way of numbering. */
function readOrdinals(reader: Reader): Numbered['ranges'] | undefined {
  const ranges: { from: Sized; to: Sized }[] = [];
  do {
    const row = readSized(reader, 'a row', 'ordinal');
    if (!row) return undefined;
    ranges.push({ from: row, to: row });
  } while (reader.attempt(() => takeOrdinal(reader)));
  return ranges;
}

const takeOrdinal = (reader: Reader): true | undefined =>
  reader.take(', and', ',', 'and') && reader.peek().kind === 'ordinal' ? true : undefined;

const EVERY: readonly (readonly [NonNullable<Numbered['andAll']>, readonly string[]])[] = [
  ['WS', ['WS', 'wrong side']],
  ['RS', ['RS', 'right side']],
  ['even', ['even', 'even-numbered', 'even numbered']],
  ['odd', ['odd', 'odd-numbered', 'odd numbered']],
];
const EVERY_OTHER = ['foll alt', 'alt', 'other', 'foll other', '2nd', 'foll 2nd'];

/**
 * @rule and all = "and", ( "all" | "every" ), ( "WS" | "RS" | "even" | "odd" | "foll" | "alt"
 *   ), unit;
 */
function readAndAll(reader: Reader, ranges: Numbered['ranges']): Numbered['andAll'] {
  return reader.attempt(() => {
    if (!reader.take('and all', 'and every', ', and all', 'and each', 'and')) return undefined;
    const alternate = reader.take(...EVERY_OTHER);
    reader.take('foll', 'other');
    const named = EVERY.find(([, phrases]) => reader.take(...phrases))?.[0];
    const found = named ?? (alternate ? alternateOf(ranges) : 'following');
    reader.take('foll', '-', 'numbered');
    return readUnit(reader) ? found : undefined;
  });
}

/** `2nd and every alt row`: even or odd by the last number before it. */
function alternateOf(ranges: Numbered['ranges']): 'even' | 'odd' {
  const last = ranges.at(-1)?.to.values.at(-1) ?? 0;
  return last % 2 === 0 ? 'even' : 'odd';
}

/**
 * @rule next label = "next", [ sized ], [ role ], unit, [ side ] | role, unit, [ sized ], [
 *   side ];
 */
function readNext(reader: Reader): RowLabel | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    const next = reader.take('next', 'foll');
    const count = next && isSized(reader) ? readSized(reader, '“next”') : undefined;
    const inner = reader.take('(');
    const role = readRole(reader);
    reader.take('-');
    if (inner) reader.take('row', 'round');
    if (inner && !reader.take(')')) return undefined;
    if (!next && !role) return undefined;
    const sided = reader.take('RS') ? 'RS' : reader.take('WS') ? 'WS' : undefined;
    const unit = readUnit(reader);
    if (!unit) return undefined;
    const number =
      isSized(reader) && reader.peek().kind === 'number' ? readSized(reader, 'a row') : undefined;
    const late = role ?? readLateRole(reader);
    const side = sided ?? readSide(reader);
    return {
      kind: 'next',
      unit,
      count: count ?? sizedAt(1, reader.spanFrom(position)),
      ...(side && { side }),
      ...(late && { role: late }),
      ...(number && { number }),
      span: reader.spanFrom(position),
    };
  });
}

/** `Next row (dec):`, `Next row (dec row):`. */
function readLateRole(reader: Reader): ReturnType<typeof readRole> {
  return reader.attempt(() => {
    if (!reader.take('(')) return undefined;
    const role = readRole(reader);
    reader.take('row', 'round');
    return role && (reader.take(')') || reader.is(', RS )', ', WS )')) ? role : undefined;
  });
}

/** @rule label name = word, { word }; */
function readNamed(reader: Reader): RowLabel | undefined {
  const position = reader.position;
  while (!reader.done && !reader.is(':')) {
    const token = reader.next();
    const ends = [';', '[', '{', '"'].includes(token.term) || token.kind === 'star';
    if (ends || reader.textFrom(position).length > LONGEST_NAME) return undefined;
    if (token.term === '.' && reader.peek().term !== ':') return undefined;
  }
  if (reader.position === position || reader.done) return undefined;
  const span = reader.spanFrom(position);
  const name = reader.textFrom(position);
  if (isStatedNext(reader)) return undefined;
  reader.next();
  return { kind: 'named', name, span };
}
