/**
 * Number parity: the numbers of every said line and of every prose text are those of the source, in each
 * language. Takes what is said and what is written, gives findings with both sentences. A word may stand
 * for 1 and 2 ("once", "twice", "the next stitch"); an inch may be given in centimetres and back.
 */
import { CENTIMETRES_PER_INCH } from '../base/brand.ts';
import type { Finding } from '../findings/finding.ts';
import { finding } from '../findings/register.ts';
import type { ProseData } from '../pattern/bundle/schema.ts';
import type { CheckedPattern } from '../pattern/pattern.ts';
import type { Language } from './language.ts';
import { sayPattern, type SpokenPiece } from './say-pattern.ts';
import { plainText, type SpokenLine } from './spoken.ts';

const FRACTIONS: Readonly<Record<string, number>> = { '¼': 0.25, '½': 0.5, '¾': 0.75 };
const NUMBER = /(\d+(?:[.,]\d+)?)?([¼½¾])?/g;

/** Numbers that words may replace: "once", "twice", "the next stitch", "every other row". */
const SPOKEN_AS_WORDS = new Set([1, 2]);

/** Numbers of the parts that are counts, sorted; `1` and `2` are left to words. */
export function numbersOfLine({ label, body, count }: SpokenLine): readonly number[] {
  const texts = [...label, ...body, ...count]
    .filter((part) => part.role === 'count')
    .map((part) => part.text);
  return texts
    .flatMap(numbersIn)
    .filter((value) => !SPOKEN_AS_WORDS.has(value))
    .toSorted(ascending);
}

const ascending = (a: number, b: number): number => a - b;

function numbersIn(text: string): readonly number[] {
  return [...text.matchAll(NUMBER)]
    .filter(([whole]) => whole !== '')
    .map(
      ([, digits = '0', part]) => Number(digits.replace(',', '.')) + (FRACTIONS[part ?? ''] ?? 0),
    );
}

/** Lines whose numbers in `language` are not those of `source`. None, unless a message loses one. */
export function checkRowParity(
  checked: CheckedPattern,
  language: Language,
  source: Language,
): readonly Finding[] {
  const own = linesOf(sayPattern(checked, language).pieces);
  const theirs = linesOf(sayPattern(checked, source).pieces);
  return own.flatMap(({ pointer, said }, index) => {
    const other = theirs[index]?.said ?? said;
    const [numbers, wanted] = [numbersOfLine(said), numbersOfLine(other)];
    if (sameNumbers(numbers, wanted)) return [];
    const facts = {
      language: language.tag,
      sentence: shownLine(said),
      source: shownLine(other),
      numbers,
      wanted,
    };
    return [finding('language/row-numbers', { file: 'pattern.json', pointer }, facts)];
  });
}

const linesOf = (pieces: readonly SpokenPiece[]) =>
  pieces.flatMap((piece) =>
    piece.sections.flatMap((section) =>
      section.lines.map(({ written, said }) => ({ pointer: written.pointer, said })),
    ),
  );

const shownLine = ({ label, body, count }: SpokenLine): string =>
  [label, body, count]
    .map(plainText)
    .filter((text) => text !== '')
    .join(' ');

const sameNumbers = (a: readonly number[], b: readonly number[]): boolean =>
  a.length === b.length && a.every((value, index) => Math.abs(value - (b[index] ?? 0)) < 1e-9);

// ---------------------------------------------------------------- prose

/** Prose that lacks a number of the text it was translated from. */
export function checkProseParity(
  prose: ReadonlyMap<string, ProseData>,
  language: string,
  source: string,
): readonly Finding[] {
  const [own, theirs] = [prose.get(language), prose.get(source)];
  if (!own || !theirs || language === source) return [];
  return Object.entries(own).flatMap(([key, value]) => {
    const from = theirs[key];
    if (from === undefined) return [];
    const [text, original] = [oneText(value), oneText(from)];
    if (agreeInNumbers(text, original)) return [];
    const facts = { language, key, sentence: text, source: original };
    const where = { file: `prose/${language}.json`, pointer: `/${key}` };
    return [finding('language/prose-numbers', where, facts)];
  });
}

const oneText = (value: ProseData[string]): string =>
  Array.isArray(value) ? value.join('\n') : String(value);

/** The units of length that prose may convert, in the words of the languages. */
const INCHES =
  /^\s*(?:in\b|in\.|inch|″|"|Zoll|po\b|pouces?|pulg|poll|pol\b|tommer|tum\b|tuumaa|tomm|cal|palc|インチ|인치|英寸|אינץ)/iu;
const CENTIMETRES = /^\s*(?:cm|ס"מ|センチ|厘米)/iu;

interface Quantity {
  readonly value: number;
  readonly unit: 'in' | 'cm' | 'none';
}

function quantitiesIn(text: string): readonly Quantity[] {
  return [...text.matchAll(NUMBER)]
    .filter(([whole]) => whole !== '')
    .map((match) => {
      const [whole] = match;
      const rest = text.slice(match.index + whole.length, match.index + whole.length + 12);
      const unit = INCHES.test(rest) ? 'in' : CENTIMETRES.test(rest) ? 'cm' : 'none';
      return { value: numbersIn(whole)[0] ?? 0, unit } as const;
    });
}

/**
 * True where every number of the original has its like in the translation: the same number, or the same
 * length in the other unit, rounded as the trade rounds. The translation may have more: Japanese writes
 * in digits what English spells out.
 */
export const agreeInNumbers = (text: string, original: string): boolean =>
  covers(quantitiesIn(original), quantitiesIn(text));

const covers = (needed: readonly Quantity[], there: readonly Quantity[]): boolean => {
  const left = [...there];
  return needed.every((quantity) => {
    if (quantity.unit === 'none' && SPOKEN_AS_WORDS.has(quantity.value)) return true;
    const exact = left.findIndex((other) => Math.abs(other.value - quantity.value) < 1e-9);
    if (exact >= 0) return left.splice(exact, 1).length === 1;
    return there.some((other) => sameLength(quantity, other));
  });
};

/** Half a centimetre and a quarter of an inch: the steps lengths are rounded to. */
function sameLength(a: Quantity, b: Quantity): boolean {
  if (a.unit === 'none' || b.unit === 'none' || a.unit === b.unit) return false;
  const inches = a.unit === 'in' ? a.value : b.value;
  const centimetres = a.unit === 'cm' ? a.value : b.value;
  return Math.abs(inches * CENTIMETRES_PER_INCH - centimetres) <= 0.75;
}
