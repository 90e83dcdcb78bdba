/**
 * Every number of a pattern as an editor goes through it: numbered, with its part and place, its values
 * over the sizes, what holds it and how it follows. Takes a checked pattern and its pins; gives entries,
 * one for each written line or place, each with its numbers. Knows no page and no file.
 */
import { present } from '../../base/assert.ts';
import { cover, type Span } from '../../base/span.ts';
import type { NumberPins, PinsReport } from '../../pattern/checks/pins.ts';
import type { CheckContext } from '../../pattern/checks/context.ts';
import { type Derivation, openDerivations } from './derivations.ts';
import { namePlace, PART_ORDER } from './places.ts';

export type Holding = 'held' | 'free' | 'unheld';

export interface EditorNumber {
  /** As printed, from 1. */
  readonly number: number;
  /** The words around it: "cast on # sts"; the name of the place outside the rows. */
  readonly what: string;
  /** One for all sizes, or one for each. */
  readonly values: readonly (number | null)[];
  readonly holding: Holding;
  /** Codes of the checks that hold it, the foremost first. */
  readonly heldBy: readonly string[];
  /** Names of sizes in which a change would go unnoticed; empty where that is all or none. */
  readonly sizes: readonly string[];
  /** Changes nobody would notice. */
  readonly missed: readonly string[];
  /** Why nothing can hold it, where it is free by nature. */
  readonly reason?: string;
  readonly derivation?: Derivation;
}

/** A written line, or a place of the bundle outside the rows. */
export interface EditorEntry {
  readonly part: string;
  readonly place: string;
  /** Stays the same when something is put in before it; lines of one section share theirs. */
  readonly key: string;
  /** The line as the knitter reads it; empty outside the rows. */
  readonly text: string;
  readonly numbers: readonly EditorNumber[];
}

/** In the order of work: what all rests on, then what follows, then the rows piece by piece. */
export function gatherNumbers(context: CheckContext, pins: PinsReport): readonly EditorEntry[] {
  const derivations = openDerivations(context);
  const lists = listsOf(pins.numbers);
  const entries = new Map<string, { entry: Omit<EditorEntry, 'numbers'>; lists: NumberList[] }>();
  for (const list of lists) {
    const { where, home } = firstOf(list).number;
    const name = home.kind === 'data' ? where.pointer : `${where.pointer} ${where.text}`;
    const known = entries.get(name);
    if (known) known.lists.push(list);
    else entries.set(name, { entry: entryOf(context, list), lists: [list] });
  }
  const sorted = [...entries.values()].sort((a, b) => rankOf(a.entry) - rankOf(b.entry));
  let number = 0;
  return sorted.map(({ entry, lists: own }) => ({
    ...entry,
    numbers: own.map((list): EditorNumber => {
      const derivation = derivations.of(list);
      const said = sayList(context, list);
      number += 1;
      return { number, ...said, ...(derivation && { derivation }) };
    }),
  }));
}

/** The values of one written list, in the order of the sizes. */
export type NumberList = readonly NumberPins[];

export const firstOf = (list: NumberList): NumberPins => present(list[0], 'a list with a number');

/** Values of one list follow each other, each further on in it than the one before. */
function listsOf(numbers: readonly NumberPins[]): readonly NumberList[] {
  const lists: NumberPins[][] = [];
  for (const each of numbers) {
    const last = lists.at(-1)?.at(-1)?.number;
    const { number } = each;
    const isNext =
      last?.list === number.list &&
      last.where.pointer === number.where.pointer &&
      last.index < number.index;
    if (isNext) lists.at(-1)?.push(each);
    else lists.push([each]);
  }
  return lists;
}

const rankOf = ({ part, text }: Omit<EditorEntry, 'numbers'>): number => {
  const at = PART_ORDER.indexOf(part);
  return at >= 0 && text === '' ? at : PART_ORDER.length;
};

function entryOf(context: CheckContext, list: NumberList): Omit<EditorEntry, 'numbers'> {
  const { home, where } = firstOf(list).number;
  if (home.kind === 'data') {
    const { part, name, key } = namePlace(context.data, where.pointer);
    return { part, place: name, key, text: '' };
  }
  const text = where.text ?? '';
  if (home.kind === 'pattern') {
    const { key, name } = namePlace(context.data, where.pointer.replace(/\/lines\/.*$/, ''));
    return { part: 'Stitch patterns', place: name, key, text };
  }
  const [section, place] = splitLabel(where.label ?? '');
  const key = namePlace(context.data, where.pointer.replace(/\/lines\/.*$/, '')).key;
  return { part: section, place, key, text };
}

/** "Hat: crown, round 7" is the part "Hat: crown" and the place "round 7". */
function splitLabel(label: string): readonly [string, string] {
  const at = label.indexOf(', ');
  return at < 0 ? [label, ''] : [label.slice(0, at), label.slice(at + 2)];
}

// ---------------------------------------------------------------- one list

function sayList(
  { pattern }: CheckContext,
  list: NumberList,
): Omit<EditorNumber, 'number' | 'derivation'> {
  const { number } = firstOf(list);
  const loose = list.filter(({ missed }) => missed.length > 0);
  const unheld = loose.filter(({ reason }) => reason === undefined);
  const told = unheld.length > 0 ? unheld : loose;
  const reason = told[0]?.reason;
  const isWhole = number.list.length === 1 || told.length === list.length;
  return {
    what: wordsAround(list),
    values: number.list,
    holding: unheld.length > 0 ? 'unheld' : loose.length > 0 ? 'free' : 'held',
    heldBy: [...new Set(list.flatMap(({ heldBy }) => heldBy))],
    sizes: isWhole ? [] : told.map(({ number: { index } }) => pattern.sizes[index] ?? ''),
    missed: [...new Set(told.flatMap(({ missed }) => missed))],
    ...(reason !== undefined && { reason }),
  };
}

/** Letters kept on each side of a number. */
const PHRASE_REACH = 17;

/** The words around a number, up to the marks that divide a row: "cast on # sts", # being the number. */
function wordsAround(list: NumberList): string {
  const { home, where } = firstOf(list).number;
  const text = where.text ?? '';
  if (home.kind === 'data' || text === '') return '';
  const { spans } = home.number.sized;
  const [first, last] = [spans[0], spans.at(-1)];
  if (!first || !last) return '';
  return phraseAround(text, cover(first, last));
}

function phraseAround(text: string, { start, end }: Span): string {
  const divides = /[,;:*.()[\]{}]/;
  let from = start;
  while (from > 0 && !divides.test(text.charAt(from - 1))) from -= 1;
  // The bracket that closes the list belongs to it.
  const rest = text.slice(end).replace(/^[\])}]/, '');
  const stop = rest.search(divides);
  const [before, after] = [text.slice(from, start), stop < 0 ? rest : rest.slice(0, stop)];
  const begin = before.length > PHRASE_REACH ? before.slice(-PHRASE_REACH).replace(/^\S*\s/, '… ') : before; // prettier-ignore
  const finish = after.length > PHRASE_REACH ? after.slice(0, PHRASE_REACH).replace(/\s\S*$/, ' …') : after; // prettier-ignore
  return `${begin}#${finish}`.trim();
}
