/**
 * What changed between two versions of a pattern, in the knitter's terms: which line of which piece, in
 * which sizes, what it said and what it says. Takes two checked patterns and a language; what prints the
 * same is no change, whatever the bundle says behind it. Knows no page.
 */
import {
  type Language,
  plainText,
  proseFor,
  sayPattern,
  type SpokenLine,
  type SpokenPattern,
} from '../../language/index.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import { alignLines } from './align.ts';
import { compareFacts, type FactChange } from './facts.ts';

/** A line of the instructions that prints otherwise than before. */
export interface LineChange {
  readonly kind: 'line';
  readonly piece: string;
  readonly section: string;
  /** The label of the line: "Rnd 7:"; empty where it has none. */
  readonly label: string;
  /** Indexes of the sizes whose text differs; all of them for a line that came or went. */
  readonly sizes: readonly number[];
  readonly was: string;
  readonly is: string;
  /** JSON pointer into the new bundle, into the old one for a line that went. */
  readonly pointer: string;
}

/** A text of the designer that reads otherwise: nothing to knit differently. */
export interface TextChange {
  readonly kind: 'text';
  readonly key: string;
  readonly was: string;
  readonly is: string;
}

export type Change = LineChange | FactChange | TextChange;

/** Changes that a knitter must act on; the others are matters of wording. */
export const isCorrection = (change: Change): boolean => change.kind !== 'text';

export function compareVersions(
  old: CheckedPattern,
  now: CheckedPattern,
  language: Language,
): readonly Change[] {
  return [
    ...compareInstructions(old, now, language),
    ...compareFacts(old, now, language),
    ...compareTexts(old, now, language),
  ];
}

interface PlacedLine {
  readonly piece: string;
  readonly section: string;
  readonly pointer: string;
  readonly label: string;
  readonly whole: string;
  /** The line as each size reads it; undefined where the size leaves it out. */
  readonly bySize: readonly (string | undefined)[];
}

function compareInstructions(
  old: CheckedPattern,
  now: CheckedPattern,
  language: Language,
): readonly LineChange[] {
  const [was, is] = [linesOf(old, language), linesOf(now, language)];
  // Sizes are told in the new pattern's order; a size of the old one is found by its name.
  const places = now.pattern.sizes.map((size) => old.pattern.sizes.indexOf(size));
  const pieces = [...new Set([...was, ...is].map(({ piece, section }) => `${piece}\n${section}`))];
  return pieces.flatMap((name) => {
    const inPiece = (line: PlacedLine) => `${line.piece}\n${line.section}` === name;
    const pairs = alignLines(
      was.filter(inPiece),
      is.filter(inPiece),
      ({ whole }) => whole,
      ({ label }) => label,
    );
    return pairs.flatMap((pair) => lineChange(pair.was, pair.is, places));
  });
}

function lineChange(
  was: PlacedLine | undefined,
  is: PlacedLine | undefined,
  places: readonly number[],
): readonly LineChange[] {
  const line = is ?? was;
  if (!line) return [];
  const sizes = places.flatMap((place, size) => {
    const before = place < 0 ? undefined : was?.bySize[place];
    return before === is?.bySize[size] ? [] : [size];
  });
  if (sizes.length === 0) return [];
  const { piece, section, label, pointer } = line;
  const texts = { was: was?.whole ?? '', is: is?.whole ?? '' };
  return [{ kind: 'line', piece, section, label, pointer, sizes, ...texts }];
}

function linesOf(checked: CheckedPattern, language: Language): readonly PlacedLine[] {
  const whole = sayPattern(checked, language);
  const bySize = checked.pattern.sizes.map((_, size) =>
    textsByPointer(sayPattern(checked, language, size)),
  );
  return whole.pieces.flatMap((piece) =>
    piece.sections.flatMap((section) =>
      section.lines.map(({ written, said }) => ({
        piece: piece.title,
        section: section.title ?? '',
        pointer: written.pointer,
        label: plainText(said.label),
        whole: sayWhole(said),
        bySize: bySize.map((texts) => texts.get(written.pointer)),
      })),
    ),
  );
}

function textsByPointer({ pieces }: SpokenPattern): ReadonlyMap<string, string> {
  const lines = pieces.flatMap((piece) => piece.sections.flatMap((section) => section.lines));
  return new Map(lines.map(({ written, said }) => [written.pointer, sayWhole(said)]));
}

const sayWhole = ({ label, body, count }: SpokenLine): string =>
  [label, body, count].map(plainText).filter(Boolean).join(' ');

function compareTexts(
  old: CheckedPattern,
  now: CheckedPattern,
  { tag }: Language,
): readonly TextChange[] {
  const [was, is] = [old, now].map((each) => proseFor(each.pattern.bundle.prose, tag));
  const keys = [...new Set([...(was?.keys() ?? []), ...(is?.keys() ?? [])])];
  return keys.flatMap((key) => {
    const texts = { was: was?.get(key)?.join('\n') ?? '', is: is?.get(key)?.join('\n') ?? '' };
    // The story of the versions is told by the sheet itself.
    if (texts.was === texts.is || key.startsWith('history.')) return [];
    return [{ kind: 'text' as const, key, ...texts }];
  });
}
