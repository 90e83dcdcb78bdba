/**
 * Looks at one translated segment before it is let in: every protected thing once, no number the source
 * has not, room enough, no character that a bundle refuses. Takes the source's template and the text as
 * it came, gives the plain text with its things said in the target language, or findings.
 */
import { TRANSLATION_LIMITS } from '../base/limits.ts';
import type { Finding, Place } from '../findings/finding.ts';
import { finding } from '../findings/register.ts';
import { agreeInNumbers, explainTerm, type Language } from '../language/index.ts';
import { findRefused } from '../pattern/bundle/characters.ts';
import { wordsOfList } from './segments.ts';
import { numbersWritten, sayThing, type Template, type Thing, thingsOf } from './protect.ts';
import type { CodedText } from './xliff/read.ts';

export interface Examined {
  /** The text as it would be written; there even where findings refuse it. */
  readonly text: string;
  readonly findings: readonly Finding[];
}

export interface ExamineOrder {
  readonly segment: string;
  readonly where: Place;
  readonly sourceText: string;
  readonly template: Template;
  readonly source: Language;
  readonly target: Language;
  readonly mostCharacters: number | undefined;
  /** A list of words, each of which has that much room. */
  readonly wordList: boolean;
}

/** Numbers up to this may stand in digits for a word of the source: "Four rows" is 4段. */
const LARGEST_WORD = 20;

export function examineText(order: ExamineOrder, came: CodedText): Examined {
  const { template, source, target, sourceText } = order;
  const things = new Map(thingsOf(template).map((thing) => [thing.id, thing]));
  const text = writeText(order, came, things);
  const about = { segment: order.segment, source: sourceText, target: text };
  const placeholder = (shown: string, problem: 'dropped' | 'doubled' | 'unknown') =>
    finding('translation/placeholder', order.where, { ...about, shown, problem });
  const codes = came.flatMap((part) => (typeof part === 'string' ? [] : [part]));
  const findings: Finding[] = codes
    .filter(({ id }) => !things.has(id))
    .map(({ shown }) => placeholder(shown, 'unknown'));
  const typed = new Typed(target, came);
  const dropped: Thing[] = [];
  for (const thing of things.values()) {
    const times = codes.filter(({ id }) => id === thing.id).length;
    if (times > 1) findings.push(placeholder(thing.text, 'doubled'));
    if (times === 0 && !typed.take(thing, sayThing(thing, source, target))) dropped.push(thing);
  }
  const strays = typed.strays(sourceText, dropped.length === 0);
  const lost = dropped.filter(
    (thing) => !(mayBeSaid(thing, order, typed.text) && (thing.kind !== 'small' || strays.length === 0)),
  ); // prettier-ignore
  findings.push(...lost.map((thing) => placeholder(thing.text, 'dropped')));
  if (strays.length > 0)
    findings.push(finding('translation/number', order.where, { ...about, numbers: strays }));
  return { text, findings: [...findings, ...examineLetters(order, text)] };
}

/** Line breaks are kept only where the source has them: tools break lines as they please. */
function writeText(
  { source, target, sourceText }: ExamineOrder,
  came: CodedText,
  things: ReadonlyMap<string, Thing>,
): string {
  const said = came.map((part) => {
    if (typeof part === 'string') return part;
    const thing = things.get(part.id);
    return thing ? sayThing(thing, source, target) : '';
  });
  const text = said.join('').normalize('NFC').trim();
  return sourceText.includes('\n') ? text : text.replaceAll(/[ \t]*[\n\r\t][ \n\r\t]*/g, ' ');
}

/** A word may stand for 1 and 2, the other unit for a length, the full name for an abbreviation. */
function mayBeSaid(thing: Thing, { sourceText, target }: ExamineOrder, typed: string): boolean {
  switch (thing.kind) {
    case 'small':
      return true;
    case 'length':
      return agreeInNumbers(typed, withUnit(sourceText, thing.text));
    case 'term': {
      const name = explainTerm(target, thing.term ?? '')?.name.toLowerCase();
      return name !== undefined && typed.toLowerCase().includes(name);
    }
    case 'number':
    case 'sizes':
      return false;
  }
}

/** The number with what stands behind it: `6 in`. */
function withUnit(text: string, number: string): string {
  const at = text.search(new RegExp(`(?<![\\d.,])${number.replaceAll(/[.]/g, '\\.')}[-\\s\\u00a0]?(?:in|cm|″|")`)); // prettier-ignore
  return at < 0 ? number : text.slice(at, at + number.length + 8);
}

/** The text outside placeholders, and the numbers that were typed there. */
class Typed {
  readonly text: string;
  readonly #target: Language;
  #left: string;

  constructor(target: Language, came: CodedText) {
    this.#target = target;
    // A stop in the place of a code, so that no number grows together across it.
    this.text = plainDigits(came.map((part) => (typeof part === 'string' ? part : '\u0001')).join(''));
    this.#left = this.text;
  } // prettier-ignore

  /** True where a thing was typed by hand just as it should stand; it is then taken out. */
  take({ text, kind }: Thing, said: string): boolean {
    for (const form of kind === 'term' ? [said] : [said, text]) {
      const at = this.#find(form, kind === 'term' ? /[\p{L}\p{N}]/u : /[\p{N}]/u);
      if (at === undefined) continue;
      this.#left = `${this.#left.slice(0, at)}\u0001${this.#left.slice(at + form.length)}`;
      return true;
    }
    return false;
  }

  #find(form: string, inside: RegExp): number | undefined {
    for (let at = this.#left.indexOf(form); at >= 0; at = this.#left.indexOf(form, at + 1)) {
      const [before, after] = [this.#left.slice(0, at), this.#left.slice(at + form.length)];
      const part = /\d[.,]$/.test(before) || /^[.,]\d/.test(after);
      if (!inside.test(before.slice(-1)) && !inside.test(after.slice(0, 1)) && !part) return at;
    }
    return undefined;
  }

  /** Typed numbers that stand for nothing in the source. `whole`: no thing of the source is missing. */
  strays(sourceText: string, whole: boolean): readonly string[] {
    const written = numbersWritten(this.#target, this.#left);
    const left = this.#left;
    let from = 0;
    return written.filter((number) => {
      const at = left.indexOf(number, from);
      from = at + number.length;
      const value = Number(number);
      if (whole && Number.isInteger(value) && value >= 1 && value <= LARGEST_WORD) return false;
      const shown = left.slice(at, from + 12);
      return !(UNIT.test(left.slice(from)) && agreeInNumbers(sourceText, shown));
    });
  }
}

const UNIT = /^[-\s\u00a0]?(?:\p{L}|″|"|%)/u;

/** Digits as wide as a Japanese letter are digits. */
const plainDigits = (text: string): string =>
  text.replaceAll(/[０-９]/g, (digit) =>
    String.fromCodePoint((digit.codePointAt(0) ?? 0) - 0xfee0),
  );

function examineLetters(order: ExamineOrder, text: string): readonly Finding[] {
  const { segment, where, mostCharacters = TRANSLATION_LIMITS.textLetters } = order;
  const findings: Finding[] = [];
  const parts = order.wordList ? wordsOfList(text) : [text];
  const letters = Math.max(0, ...parts.map((part) => Array.from(part).length));
  if (letters > mostCharacters)
    findings.push(finding('translation/too-long', where, { segment, letters, limit: mostCharacters })); // prettier-ignore
  const refused = findRefused(text, { prose: true });
  if (refused) {
    const { character, name } = refused;
    findings.push(finding('translation/character', where, { segment, character, name }));
  }
  return findings;
}
