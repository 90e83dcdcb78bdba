/**
 * Changed lines of the instructions: each line as every size reads it, compared between two versions,
 * with what the change does to the stitches. Takes two checked patterns and a language; a section that
 * was only renamed inside the bundle is the same section.
 */
import {
  type Language,
  plainText,
  sayPattern,
  type SpokenLine,
  type SpokenPattern,
} from '../../language/index.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import { alignLines } from './align.ts';

/** The three parts of a line as they stand on the page. */
export interface SaidLine {
  readonly label: string;
  readonly body: string;
  readonly count: string;
}

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
  /** The same in parts; undefined for a line that came, or that went. */
  readonly before: SaidLine | undefined;
  readonly after: SaidLine | undefined;
  /** `count`: stitches differ after it; `work`: only how they are worked; `label`: neither. */
  readonly effect: 'count' | 'work' | 'label';
  /** JSON pointer into the new bundle, into the old one for a line that went. */
  readonly pointer: string;
  /** The line's own name in its bundle, `piece/line`, where it has one. */
  readonly anchor: string | undefined;
}

interface PlacedLine {
  /** Piece and section as they are printed. */
  readonly place: string;
  readonly piece: string;
  readonly section: string;
  readonly pointer: string;
  readonly anchor: string | undefined;
  readonly said: SaidLine;
  readonly whole: string;
  /** The line as each size reads it; undefined where the size leaves it out. */
  readonly bySize: readonly (SaidLine | undefined)[];
  /** Stitches the line starts from and leaves, by size. */
  readonly stitches: readonly (readonly [before: number, after: number])[];
}

interface PlacedSection {
  readonly place: string;
  /** `piece/section` inside the bundle. */
  readonly id: string;
  readonly lines: readonly PlacedLine[];
}

export function compareInstructions(
  old: CheckedPattern,
  now: CheckedPattern,
  language: Language,
): readonly LineChange[] {
  const is = sectionsOf(now, language);
  const was = sectionsOf(old, language).map((section) => renamed(section, is));
  // Sizes are told in the new pattern's order; a size of the old one is found by its name.
  const sizes = now.pattern.sizes.map((size) => old.pattern.sizes.indexOf(size));
  const places = [...new Set([...is, ...was].map(({ place }) => place))];
  return places.flatMap((name) => {
    const inPlace = (sections: readonly PlacedSection[]) =>
      sections.filter(({ place }) => place === name).flatMap(({ lines }) => lines);
    const pairs = alignLines(
      inPlace(was),
      inPlace(is),
      ({ whole }) => whole,
      ({ said }) => said.label,
    );
    return pairs.flatMap((pair) => lineChange(pair.was, pair.is, sizes));
  });
}

/** A section whose heading is no longer there stands where the section of its id stands now. */
function renamed(section: PlacedSection, now: readonly PlacedSection[]): PlacedSection {
  if (now.some(({ place }) => place === section.place)) return section;
  const same = now.find(({ id }) => id === section.id);
  return same ? { ...section, place: same.place } : section;
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
    return wholeOf(before) === wholeOf(is?.bySize[size]) ? [] : [size];
  });
  if (sizes.length === 0) return [];
  const { piece, section, pointer, anchor } = line;
  return [
    {
      kind: 'line',
      piece,
      section,
      label: line.said.label,
      pointer,
      anchor,
      sizes,
      was: was?.whole ?? '',
      is: is?.whole ?? '',
      before: was?.said,
      after: is?.said,
      effect: effectOf(was, is, sizes, places),
    },
  ];
}

function effectOf(
  was: PlacedLine | undefined,
  is: PlacedLine | undefined,
  sizes: readonly number[],
  places: readonly number[],
): LineChange['effect'] {
  if (was && is) {
    const isKept = sizes.every((size) => {
      const before = places[size] ?? -1;
      const isSaid = was.bySize[before]?.count === is.bySize[size]?.count;
      return isSaid && leaves(was, before) === leaves(is, size);
    });
    if (!isKept) return 'count';
    const isSame = sizes.every(
      (size) => was.bySize[places[size] ?? -1]?.body === is.bySize[size]?.body,
    );
    return isSame ? 'label' : 'work';
  }
  const only = is ?? was;
  const changes = sizes.some((size) => {
    const [before, after] = only?.stitches[is ? size : (places[size] ?? -1)] ?? [0, 0];
    return before !== after;
  });
  return changes ? 'count' : 'work';
}

const leaves = (line: PlacedLine | undefined, size: number): number | undefined =>
  line?.stitches[size]?.[1];

// ---------------------------------------------------------------- the lines as they are printed

function sectionsOf(checked: CheckedPattern, language: Language): readonly PlacedSection[] {
  const whole = sayPattern(checked, language);
  const bySize = checked.pattern.sizes.map((_, size) =>
    linesByPointer(sayPattern(checked, language, size)),
  );
  const traces = new Map(
    checked.pieces.flatMap((piece) => piece.lines.map((each) => [each.line.pointer, each])),
  );
  return whole.pieces.flatMap((piece) =>
    piece.sections.map((section): PlacedSection => {
      const named = { piece: piece.title, section: section.title ?? '' };
      const place = `${named.piece}\n${named.section}`;
      const lines = section.lines.map(({ written, said }): PlacedLine => {
        const { pointer, id } = written;
        const outcomes = traces.get(pointer)?.outcomes ?? [];
        return {
          place,
          ...named,
          pointer,
          anchor: id === undefined ? undefined : `${piece.id}/${id}`,
          said: partsOf(said),
          whole: wholeOf(partsOf(said)) ?? '',
          bySize: bySize.map((texts) => texts.get(pointer)),
          stitches: outcomes.map(({ before, after }) => [before, after] as const),
        };
      });
      return { place, id: `${piece.id}/${section.id}`, lines };
    }),
  );
}

function linesByPointer({ pieces }: SpokenPattern): ReadonlyMap<string, SaidLine> {
  const lines = pieces.flatMap((piece) => piece.sections.flatMap((section) => section.lines));
  return new Map(lines.map(({ written, said }) => [written.pointer, partsOf(said)]));
}

const partsOf = ({ label, body, count }: SpokenLine): SaidLine => ({
  label: plainText(label),
  body: plainText(body),
  count: plainText(count),
});

const wholeOf = (line: SaidLine | undefined): string | undefined =>
  line && [instructionOf(line), line.count].filter(Boolean).join(' ');

/** Label and body as they stand in one line; a wide colon brings its own white space. */
export const instructionOf = ({ label, body }: Pick<SaidLine, 'label' | 'body'>): string =>
  `${label}${label.endsWith('：') ? '' : ' '}${body}`.trim();
