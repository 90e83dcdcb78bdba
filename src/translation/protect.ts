/**
 * What a translator must not retype: size lists, numbers and abbreviations of the glossary. Takes a
 * source text and gives it cut into plain text and protected things, each with a short name; says the
 * same thing in another language, so that a number is never typed twice. Knows no XML.
 */
import { explainTerm, type Language, listOver, plainText } from '../language/index.ts';
import { abbreviationsOf } from './abbreviations.ts';

/**
 * `sizes`: one number per size, kept whole. `number`: any other. `length`: a number before in or cm,
 * which may be given in the other unit. `small`: 1 or 2, which a word may stand for. `term`: an
 * abbreviation, which the glossary of the other language says.
 */
export type ThingKind = 'sizes' | 'number' | 'length' | 'small' | 'term';

export interface Thing {
  /** `n1`, `n2`, `t1`: in the order of the text, unique in its segment. */
  readonly id: string;
  readonly kind: ThingKind;
  /** As the source writes it. */
  readonly text: string;
  /** The term of a `term`, as the language room names it. */
  readonly term?: string;
}

export type Part = string | Thing;

/** A source text, cut. Joining the texts of all parts gives the source again. */
export type Template = readonly Part[];

export const isThing = (part: Part): part is Thing => typeof part !== 'string';

export const thingsOf = (template: Template): readonly Thing[] => template.filter(isThing);

/** The template with its things by name only, to compare what was sent with what is there now. */
export const outlineOf = (template: readonly (string | { readonly id: string })[]): string =>
  template.map((part) => (typeof part === 'string' ? part : `\u0000${part.id}\u0000`)).join('');

const GLYPHS = '¼½¾⅓⅔⅛⅜⅝⅞';
const NONE = '[–—-]';

interface Patterns {
  readonly all: RegExp;
  readonly list: RegExp;
  readonly number: RegExp;
}

const patterns = new WeakMap<Language, Patterns>();

const escapeForPattern = (text: string): string => text.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');

/** Numbers in the language's own writing, lists of them, and the abbreviations of its glossary. */
function patternsOf(language: Language): Patterns {
  const known = patterns.get(language);
  if (known) return known;
  const { decimal, group } = language.settings.numbers;
  const grouped = group === '' ? '' : `\\d{1,3}(?:${escapeForPattern(group)}\\d{3})+(?!\\d)|`;
  const digits = `(?:${grouped}\\d+)(?:${escapeForPattern(decimal)}\\d+)?`;
  const number = `(?:${digits}(?:[ \\u00a0]?[${GLYPHS}])?|[${GLYPHS}])`;
  const value = `(?:${number}|${NONE})`;
  const list = `${number}(?:\\s*[([{（［]\\s*${value}(?:\\s*[,;、，]\\s*${value})*\\s*[)\\]}）］])+`;
  const words = [...abbreviationsOf(language).keys()].sort((a, b) => b.length - a.length);
  const word = words.map(escapeForPattern).join('|') || '(?!)';
  const made = {
    all: new RegExp(`(?<![\\p{L}\\p{N}])(?:${word})(?![\\p{L}\\p{N}])|${list}|${number}`, 'gu'),
    list: new RegExp(`^${list}$`, 'u'),
    number: new RegExp(number, 'gu'),
  };
  patterns.set(language, made);
  return made;
}

const LENGTH =
  /^[-\s\u00a0]?(?:in\b|in\.|inch|cm\b|″|"|Zoll|po\b|pouces?|インチ|センチ|英寸|厘米)/u;

/** Cuts a source text. Deterministic: the same text gives the same names. */
export function cutSource(language: Language, text: string): Template {
  const parts: Part[] = [];
  const { all, list } = patternsOf(language);
  let [at, numbers, terms] = [0, 0, 0];
  for (const match of text.matchAll(all)) {
    const [found] = match;
    if (match.index > at) parts.push(text.slice(at, match.index));
    at = match.index + found.length;
    const term = abbreviationsOf(language).get(found);
    if (term !== undefined) parts.push({ id: `t${(terms += 1)}`, kind: 'term', text: found, term });
    else {
      const kind = list.test(found) ? 'sizes' : kindOfNumber(found, text.slice(at, at + 8));
      parts.push({ id: `n${(numbers += 1)}`, kind, text: found });
    }
  }
  if (at < text.length) parts.push(text.slice(at));
  return parts;
}

function kindOfNumber(text: string, after: string): ThingKind {
  if (LENGTH.test(after)) return 'length';
  return text === '1' || text === '2' ? 'small' : 'number';
}

/** Numbers of a text as they are written, in order; of a list each by itself. */
export const numbersWritten = (language: Language, text: string): readonly string[] =>
  [...text.matchAll(patternsOf(language).number)].map(([found]) => found);

// ---------------------------------------------------------------- in the other language

/** A protected thing as the other language writes it. */
export function sayThing(thing: Thing, source: Language, target: Language): string {
  if (thing.kind === 'term')
    return explainTerm(target, thing.term ?? '')?.abbreviation ?? thing.text;
  const say = (text: string) => sayDigits(text, source, target);
  if (thing.kind !== 'sizes') return say(thing.text);
  const values = thing.text
    .split(/[([{（［,;、，)\]}）］]/)
    .map((each) => each.trim())
    .filter((each) => each !== '');
  const { none } = target.settings.sizes;
  const said = values.map((each) => (/^[–—-]$/.test(each) ? none : say(each)));
  return plainText(listOver(target, said)).replaceAll(ISOLATES, '');
}

/** Prose holds no isolates: the press sets them where a line needs them. */
const ISOLATES = /[\u2066-\u2069]/g;

/** `1,250.5` → `1.250,5`: the signs change, the digits never. */
function sayDigits(text: string, source: Language, target: Language): string {
  const [own, theirs] = [source.settings.numbers, target.settings.numbers];
  return Array.from(text, (letter) =>
    letter === own.decimal ? theirs.decimal : letter === own.group ? theirs.group : letter,
  ).join('');
}
