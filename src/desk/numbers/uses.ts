/**
 * Where each number of a pattern is used: the rows it is counted from or printed in, the rules that
 * build on it, the drawings that show it. Takes the bundle's data; gives for each number its places,
 * with the row of the page to go to where there is one.
 */
import { namesIn, nameOf, resolveNumbers } from '../../pattern/grading/rules/resolve.ts';
import type { Expression } from '../../pattern/grading/rules/rule.ts';
import type { BundleData, DerivationData } from '../../pattern/bundle/schema.ts';
import type { Spoken } from '../names.ts';
import type { Say } from '../wording.ts';

export interface Use {
  readonly text: string;
  /** An address on the page. */
  readonly href?: string;
}

/** By `measurements/bust`, `numbers/cuff-sts`, `body/bust`, `gauges/body`. */
export type Uses = ReadonlyMap<string, readonly Use[]>;

/** The place on the page of what a pattern names: a row, `body/join`, or a whole piece. */
export const anchorPlace = (anchor: string): string =>
  `${anchor.includes('/') ? 'row' : 'piece'}-${anchor.replaceAll(/[^\w-]/g, '-')}`;
export const numberPlace = (key: string): string => `number-${key.replaceAll(/[^\w-]/g, '-')}`;

export function usesOf(data: BundleData, spoken: Spoken, say: Say): Uses {
  const uses = new Map<string, Use[]>();
  const put = (key: string, use: Use) => {
    const before = uses.get(key) ?? [];
    if (!before.some(({ text }) => text === use.text)) uses.set(key, [...before, use]);
  };
  measured(data, spoken, say, put);
  reckoned(data, say, put);
  printed(data, spoken, say, put);
  for (const { title, measurements } of data.schematic)
    for (const id of Object.values(measurements))
      put(`measurements/${id}`, { text: say('use.drawing', { piece: spoken.piece(title) }) });
  return uses;
}

type Put = (key: string, use: Use) => void;

const rowUse = (anchor: string, say: Say, word: string): Use => ({
  text: say(word, { row: anchor.replace('/', ', ').replaceAll('-', ' ') }),
  href: `#${anchorPlace(anchor)}`,
});

/** What measurements are taken from, and what is taken from them. */
function measured(data: BundleData, spoken: Spoken, say: Say, put: Put): void {
  for (const { id, letter, name, from, ease } of data.measurements) {
    const own = `measurements/${id}`;
    for (const anchor of anchorsOf(from)) put(own, rowUse(anchor, say, 'use.counted'));
    const use = {
      text: say('use.measurement', { measurement: `${letter} ${spoken.measurement(name)}` }),
      href: `#${numberPlace(own)}`,
    };
    if ('sum' in from)
      for (const part of from.sum) if (typeof part === 'string') put(`measurements/${part}`, use);
    if ('gauge' in from && from.gauge !== undefined) put(`gauges/${from.gauge}`, use);
    if (ease) put(`body/${ease.over}`, use);
  }
}

function anchorsOf(from: DerivationData): readonly string[] {
  if ('width' in from) return [from.width];
  if ('depth' in from) return from.depth;
  return [];
}

/** Rules and what they name. */
function reckoned(data: BundleData, say: Say, put: Put): void {
  for (const { data: number, rule } of resolveNumbers(data).numbers) {
    const own = `numbers/${number.id}`;
    for (const place of number.places ?? [])
      for (const anchor of typeof place === 'string' ? [place] : place)
        put(own, rowUse(anchor, say, 'use.onNeedle'));
    if (!rule) continue;
    const use = {
      text: say('use.rule', { number: nameOf(number) }),
      href: `#${numberPlace(own)}`,
    };
    const known = new Set((data.numbers ?? []).map(({ id }) => id));
    for (const name of namesIn(rule.expression).keys())
      // Within its own rule a number's id means the measurement of that name.
      put(known.has(name) && name !== number.id ? `numbers/${name}` : `measurements/${name}`, use);
    for (const key of bodyAndGauges(rule.expression)) put(key, use);
  }
}

function bodyAndGauges(node: Expression): readonly string[] {
  switch (node.kind) {
    case 'body':
      return [`body/${node.part}`];
    case 'through':
      return [`gauges/${node.gauge}`, ...bodyAndGauges(node.of)];
    case 'binary':
      return [...bodyAndGauges(node.left), ...bodyAndGauges(node.right)];
    case 'literal':
    case 'name':
      return [];
  }
}

/** Rows that print a number by its name: `{cuff-sts}`. */
function printed(data: BundleData, spoken: Spoken, say: Say, put: Put): void {
  for (const piece of data.pieces) {
    const lines = piece.sections.flatMap((section) => section.lines);
    lines.forEach((line, row) => {
      const { text, id } = typeof line === 'string' ? { text: line, id: undefined } : line;
      for (const [, number] of text.matchAll(/\{([a-z0-9-]+)\}/g))
        put(`numbers/${number}`, {
          text: say('use.printed', { piece: spoken.piece(piece.title), row: row + 1 }),
          href: `#${linePlace(piece.id, id, row)}`,
        });
    });
  }
}

/** The place of a line on the page: by its name, else by its number in the piece. */
export const linePlace = (piece: string, id: string | undefined, row: number): string =>
  id === undefined ? `line-${piece}-${row + 1}` : anchorPlace(`${piece}/${id}`);

/** By place of a row: the numbers of the page that are counted there, to go back to. */
export function usersOf(
  uses: Uses,
  nameOf: (key: string) => string | undefined,
): ReadonlyMap<string, readonly Use[]> {
  const users = new Map<string, Use[]>();
  for (const [key, places] of uses) {
    const text = nameOf(key);
    if (text === undefined) continue;
    for (const { href = '' } of places) {
      const place = href.slice(1);
      if (!/^(row|line|piece)-/.test(place)) continue;
      const before = users.get(place) ?? [];
      if (!before.some((each) => each.text === text))
        users.set(place, [...before, { text, href: `#${numberPlace(key)}` }]);
    }
  }
  return users;
}
