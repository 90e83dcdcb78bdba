/**
 * Findings in another language than English. Takes the words of that language as data: a template for
 * each code over the same facts, and phrases for what the checks put into facts in English. A code or a
 * phrase without words stays English, so that a new code is readable before it is translated.
 */
import { lengthSay } from './families/measure.ts';
import type { Fact, Finding, Wording } from './finding.ts';

/** A text with `{slots}`, or a choice of texts by a fact: its value, its plural category, or `none`. */
export type Template = string | Readonly<Record<string, string>>;

export interface FindingWords {
  /** What `{where}` says: all sizes, one, several, and `{count}` more that are not named. */
  readonly sizes: Readonly<Record<'all' | 'one' | 'other' | 'more', string>>;
  /** Opening and closing quotation mark. */
  readonly quotes: readonly string[];
  /** English → this language; `{1}` is any words, `{#1}` numbers, `{!1}` a phrase of these again. */
  readonly phrases: Readonly<Record<string, string>>;
  readonly codes: Readonly<Record<string, { readonly headline: Template; readonly action?: Template | undefined }>>;
} // prettier-ignore

export interface Saying {
  /** `english` decides whether there are a table, notes and something to do. */
  wording(item: Finding, english: Wording): Wording;
  /** A phrase of the checks: "rounds 4–6". */
  phrase(english: string): string;
  /** A place: "Hat: crown, round 3". The title is the designer's and stays. */
  place(label: string): string;
}

/** Facts that hold phrases of the checks; all others are names and texts of the designer. */
const PHRASES = new Set([
  'row', 'what', 'change', 'stated', 'faces', 'ended', 'unit', 'problem', 'remedy', 'expected',
  'found', 'part', 'how', 'purpose', 'says', 'from', 'marker', 'over', 'name', 'first', 'last',
  'second', 'one', 'other', 'drawn', 'written', 'holder', 'place', 'bound',
]); // prettier-ignore

/** Past this many numbers a list is cut, as in English. */
const LONGEST_LIST = 4;
const LONGEST_TEXT = 240;

interface Tools {
  readonly words: FindingWords;
  readonly phrase: (english: string) => string;
  readonly plural: (count: number) => string;
  readonly number: (value: number) => string;
  readonly all: (words: readonly string[]) => string;
  readonly any: (words: readonly string[]) => string;
}

export function openSaying(language: string, words: FindingWords): Saying {
  const phrase = openPhrases(language, words.phrases);
  const plurals = new Intl.PluralRules(language);
  const numbers = new Intl.NumberFormat(language, { maximumFractionDigits: 3, useGrouping: false });
  const conjunction = new Intl.ListFormat(language, { type: 'conjunction' });
  const disjunction = new Intl.ListFormat(language, { type: 'disjunction' });
  const tools: Tools = {
    words,
    phrase,
    plural: (count) => plurals.select(count),
    number: (value) => numbers.format(value),
    all: (each) => conjunction.format(each),
    any: (each) => disjunction.format(each),
  };
  return {
    phrase,
    place: (label) => placeIn(label, phrase),
    wording: (item, english) => sayWording(item, english, tools),
  };
}

function sayWording(item: Finding, english: Wording, tools: Tools): Wording {
  const { words, phrase } = tools;
  const said = words.codes[item.code];
  const { table, notes, action } = english;
  const proven = item.facts['fix'] !== undefined;
  const template = proven ? undefined : said?.action;
  return {
    headline: said ? fill(said.headline, item, tools) : english.headline,
    ...(table && { table: tableIn(table, tools) }),
    ...(notes && { notes: notes.map(phrase) }),
    ...(action !== undefined && {
      action: template === undefined ? phrase(action) : fill(template, item, tools),
    }),
  };
}

function tableIn(table: NonNullable<Wording['table']>, { phrase, number }: Tools) {
  const cell = (value: number | string | null) =>
    value !== null && value !== '' && Number.isFinite(Number(value))
      ? number(Number(value))
      : value;
  return {
    sizes: table.sizes,
    rows: table.rows.map(({ name, cells }) => ({ name: phrase(name), cells: cells.map(cell) })),
  };
}

// ---------------------------------------------------------------- templates over facts

function fill(template: Template, item: Finding, tools: Tools): string {
  const text = typeof template === 'string' ? template : choose(template, item, tools);
  return text.replaceAll(/\{([\w.-]+)\}/g, (slot, name: string) => {
    if (name === 'where') return whereSay(item, tools);
    const fact = factAt(item, name);
    return fact === undefined ? slot : factSay(fact, name, item, tools);
  });
}

function choose(choices: Readonly<Record<string, string>>, item: Finding, tools: Tools): string {
  const fact = factAt(item, choices['by'] ?? '');
  const { plural } = tools;
  const key =
    fact === undefined || fact === '' || (Array.isArray(fact) && fact.length === 0) ? 'none'
    : Array.isArray(fact) ? plural(fact.length)
    : typeof fact === 'number' ? plural(fact)
    : plain(fact); // prettier-ignore
  return choices[key] ?? choices['other'] ?? '';
}

/** A fact by its name; `counted.0` is the first of a list, `sizes.length` how many it has. */
function factAt({ facts }: Finding, path: string): Fact | undefined {
  const [first = '', ...rest] = path.split('.');
  const inside = (name: string) => (facts[name] as Readonly<Record<string, Fact>> | undefined)?.[first];
  const found = facts[first] ?? inside('numbers') ?? inside('words');
  return rest.reduce<Fact | undefined>(
    (value, step) => (value as Readonly<Record<string, Fact>> | undefined)?.[step],
    found,
  );
} // prettier-ignore

function factSay(fact: Fact, name: string, item: Finding, tools: Tools): string {
  if (typeof fact === 'number') return tools.number(fact);
  if (typeof fact === 'string') return PHRASES.has(name) ? tools.phrase(fact) : brief(fact);
  if (!Array.isArray(fact)) return '–';
  const list = fact as readonly Fact[];
  if (name === 'nearest') return tools.any(list.map((each) => quoted(plain(each), tools)));
  if (isBySize(list, item)) return valuesSay(list, name, item, tools);
  return tools.all(list.map((each) => (typeof each === 'number' ? tools.number(each) : plain(each))));
} // prettier-ignore

const plain = (fact: Fact): string => (typeof fact === 'string' ? fact : JSON.stringify(fact));

const quoted = (text: string, { words: { quotes } }: Tools): string =>
  `${quotes[0] ?? ''}${text}${quotes[1] ?? ''}`;

const brief = (text: string): string =>
  text.length > LONGEST_TEXT ? `${text.slice(0, LONGEST_TEXT - 3)}…` : text;

const affectedOf = ({ facts }: Finding): readonly number[] | undefined =>
  facts['affected'] as readonly number[] | undefined;

const isBySize = (list: readonly Fact[], item: Finding): boolean =>
  affectedOf(item) !== undefined &&
  list.length === (item.facts['sizes'] as readonly string[]).length &&
  list.every((each) => each === null || typeof each === 'number');

/** The numbers of the sizes concerned, said once where they are alike. */
function valuesSay(list: readonly Fact[], name: string, item: Finding, tools: Tools): string {
  const inches = name === 'inches' || (item.facts['unit'] === 'in' && name !== 'centimetres');
  const say = (value: Fact | undefined) =>
    typeof value !== 'number' ? '–'
    : inches && /[¼½¾]/.test(lengthSay(value, 'in')) ? lengthSay(value, 'in')
    : tools.number(Math.round(value * 100) / 100); // prettier-ignore
  const said = (affectedOf(item) ?? []).map((size) => say(list[size]));
  const different = new Set(said);
  if (different.size === 1) return said[0] ?? '';
  return tools.all(said.length > LONGEST_LIST ? [...said.slice(0, 3), '…'] : said);
}

/** The sizes concerned, as the language puts them into a sentence; nothing where there is one size. */
function whereSay(item: Finding, { words, all }: Tools): string {
  const sizes = item.facts['sizes'] as readonly string[];
  const affected = affectedOf(item) ?? [];
  if (sizes.length <= 1) return '';
  if (affected.length === sizes.length) return words.sizes.all;
  const names = affected.map((size) => sizes[size] ?? '');
  const more = words.sizes.more.replace('{count}', String(names.length - 4));
  const shown = names.length > 5 ? [...names.slice(0, 4), more] : names;
  const template = names.length === 1 ? words.sizes.one : words.sizes.other;
  return template.replace('{sizes}', all(shown));
}

// ---------------------------------------------------------------- phrases of the checks

/**
 * Phrases by their English: whole ones first, then those with slots in the order of the data; what fits
 * none stays as it is. What a slot held is a phrase again; `{1:number}`, `{1:megabytes}` (of bytes),
 * `{1:and}`, `{1:or}` (of a list with commas) and `{1:plain}` say it another way.
 */
export function openPhrases(
  language: string,
  phrases: FindingWords['phrases'],
): (english: string) => string {
  const patterns = Object.entries(phrases)
    .filter(([english]) => /\{[#!]?\d\}/.test(english))
    .map(([english, said]) => ({ form: formOf(english), demands: demandsOf(english), said }));
  const slots = openSlots(language);
  const phrase = (english: string): string => {
    const whole = Object.hasOwn(phrases, english) ? phrases[english] : undefined;
    if (whole !== undefined) return whole;
    for (const { form, demands, said } of patterns) {
      const { groups } = form.exec(english) ?? {};
      if (!groups) continue;
      const held = (at: string) => groups[`n${at}`] ?? '';
      if (demands.some((at) => phrase(held(at)) === held(at))) continue;
      return said.replaceAll(/\{(\d)(?::(\w+))?\}/g, (_, at: string, way = 'phrase') =>
        slots(way as string, held(at), phrase),
      );
    }
    return english;
  };
  return phrase;
}

/** "12", "4–6", "97, 107 and 117", "2½". */
const ONE_NUMBER = String.raw`[-−]?[\d½¼¾][\d.,½¼¾]*(?:–\d+)?`;
const SOME_NUMBERS = `${ONE_NUMBER}(?:(?:,? and|,) ${ONE_NUMBER})*`;
const NUMBERS = new RegExp(`^${SOME_NUMBERS}$`, 'u');

const BYTES_PER_MEGABYTE = 1024 * 1024;

function openSlots(language: string) {
  const digits = new Intl.NumberFormat(language, { maximumFractionDigits: 3, useGrouping: false });
  const numbers = new Intl.NumberFormat(language);
  const megabytes = new Intl.NumberFormat(language, { style: 'unit', unit: 'megabyte', maximumFractionDigits: 1 }); // prettier-ignore
  const lists = {
    and: new Intl.ListFormat(language, { type: 'conjunction' }),
    or: new Intl.ListFormat(language, { type: 'disjunction' }),
  };
  const number = (text: string) => (/^\d+\.\d+$/.test(text) ? digits.format(Number(text)) : text);
  return (way: string, held: string, phrase: (english: string) => string): string => {
    switch (way) {
      case 'plain':
        return held;
      case 'number':
        return numbers.format(Number(held));
      case 'megabytes':
        return megabytes.format(Number(held) / BYTES_PER_MEGABYTE);
      case 'and':
      case 'or':
        return lists[way].format(held.split(/,? (?:and|or) |, /));
      default:
        if (NUMBERS.test(held)) return lists.and.format(held.split(/,? and |, /).map(number));
        return phrase(held);
    }
  };
}

/** Slots that must hold a phrase, so that a designer's own words are left alone. */
const demandsOf = (english: string): readonly string[] =>
  [...english.matchAll(/\{!(\d)\}/g)].map(([, at = '']) => at);

function formOf(english: string): RegExp {
  const source = english
    .replaceAll(/[.*+?^$()|[\]\\]/g, String.raw`\$&`)
    .replaceAll(/\{#(\d)\}/g, `(?<n$1>${SOME_NUMBERS})`)
    .replaceAll(/\{!?(\d)\}/g, '(?<n$1>.+?)');
  return new RegExp(`^${source}$`, 'su');
}

function placeIn(label: string, phrase: (english: string) => string): string {
  for (let at = label.indexOf(', '); at >= 0; at = label.indexOf(', ', at + 1)) {
    const rest = label.slice(at + 2);
    if (phrase(rest) !== rest) return `${label.slice(0, at)}, ${phrase(rest)}`;
  }
  return phrase(label);
}
