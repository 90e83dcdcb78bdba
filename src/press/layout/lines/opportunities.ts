/**
 * Where a line may end: the opportunities of UAX #14 (package `linebreak`), less those that would part
 * what belongs together: a number and its unit, a range of numbers, what the document calls unbroken,
 * Korean words. Takes the flat text; gives positions in it, in order.
 */
import LineBreaker from 'linebreak';
import type { FlatText, Range } from './flat-text.ts';

export interface Opportunity {
  /** The next line begins here. */
  readonly position: number;
  readonly forced: boolean;
}

/** Signs and symbols of units that follow a number after a space (SI brochure, 5.4.3; trade use). */
const UNITS =
  /^(?:mm|cm|dm|m|km|g|kg|oz|lb|in|ft|yd|yds|mi|ml|l|h|min|s|pt|px|%|‰|°[CF]?|″|′|"|″|目|段|см|мм|м|г|ס"מ|מ"מ|ס״מ|מ״מ)(?![\p{L}\p{N}])/u;
/** A word of one or two letters says what a number before it counts: `17 M`, `5 li`. */
const SHORT_WORD = /^\p{L}{1,2}(?![\p{L}\p{N}])/u;
const NUMBER_BEFORE_SPACE = /[\d¼½¾⅓⅔⅛⅜⅝⅞][)\]}]?[ \u2009]$/u;
const FIGURE = /[\p{Nd}¼½¾⅓⅔⅛⅜⅝⅞]/u;
const JOINS_FIGURES = /[-‐‑–—−/×x⁄:]/u;
const HANGUL = /\p{Script=Hangul}/u;
const HANGUL_OR_FIGURE = /[\p{Script=Hangul}\p{Nd}A-Za-z]/u;
const SQUARE_LETTER = /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}]/u;
/** Marks where a repeat begins: `*表目1目`, and where one goes back to: `*から`. */
const REPEAT_MARK = /[*†‡]/u;
const OPENING_BEFORE_SPACE = /[([{«„“‘] ?$/u;
/** French sets a space before these; it should be a no-break space and often is not. */
const SPACED_CLOSING = /^[»!?;:]/u;

/** A dash or sign between two figures: `22–24`, `4-5`, `20 × 30`. */
function joinsFigures(text: string, position: number): boolean {
  const before = text.slice(Math.max(0, position - 4), position);
  const after = text.slice(position, position + 3);
  if (FIGURE.test(after[0] ?? '')) {
    const sign = before.trimEnd();
    const last = sign.at(-1) ?? '';
    const spaced = sign.length < before.length;
    const figure = sign.slice(0, -1).trimEnd().at(-1) ?? '';
    if (JOINS_FIGURES.test(last) && FIGURE.test(figure)) return !spaced || last === '×';
  }
  return false;
}

/** Whether the character before and after a position stay on one line by our own rules. */
function isGlued(text: string, position: number): boolean {
  const before = text[position - 1] ?? '';
  const after = text[position] ?? '';
  if (joinsFigures(text, position)) return true;
  if (NUMBER_BEFORE_SPACE.test(text.slice(Math.max(0, position - 3), position))) {
    const rest = text.slice(position, position + 4);
    if (UNITS.test(rest) || SHORT_WORD.test(rest)) return true;
    if (/^× ?[\d]/u.test(rest)) return true;
  }
  if (HANGUL.test(before) && HANGUL_OR_FIGURE.test(after)) return true;
  if (HANGUL.test(after) && HANGUL_OR_FIGURE.test(before)) return true;
  if (/\d/.test(before) && SQUARE_LETTER.test(after)) return true;
  if (REPEAT_MARK.test(before) && after !== ' ') return true;
  if (before === ' ' && SPACED_CLOSING.test(after)) return true;
  return OPENING_BEFORE_SPACE.test(text.slice(Math.max(0, position - 2), position));
}

function isInside(ranges: readonly Range[], position: number): boolean {
  return ranges.some(({ start, end }) => start < position && position < end);
}

export interface Opportunities {
  /** The end of the text comes last. */
  readonly usual: readonly Opportunity[];
  /** Places that our own rules keep together, for what no line is wide enough to hold. */
  readonly spare: readonly number[];
}

/** Where lines of a flat text may end. */
export function breakOpportunities(flat: FlatText): Opportunities {
  const { text, unbroken } = flat;
  const usual: Opportunity[] = [];
  const spare: number[] = [];
  const breaker = new LineBreaker(text);
  for (let next = breaker.nextBreak(); next !== null; next = breaker.nextBreak()) {
    const { position } = next;
    if (position >= text.length) break;
    const forced = next.required;
    if (!forced && (isInside(unbroken, position) || isGlued(text, position))) spare.push(position);
    else usual.push({ position, forced });
  }
  usual.push({ position: text.length, forced: true });
  return { usual, spare };
}
