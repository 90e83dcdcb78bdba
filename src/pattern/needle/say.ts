/** Lines and places in the knitter's words: "round 3", "Hat: crown, rounds 4–6". English, for findings. */
import type { Line, RowLabel, Sentence } from '../notation/ast.ts';
import { printSizeList, type Sized } from '../bundle/size-list.ts';
import type { Pattern, Piece } from '../pattern.ts';

/** What a line is, as it stands in a sentence. */
export function lineSay(line: Line | undefined): string {
  if (!line) return 'this line';
  if (line.label) return labelSay(line.label);
  const first = line.sentences.find((sentence) => SENTENCES[sentence.kind] !== undefined);
  return (first && SENTENCES[first.kind]) ?? 'this line';
}

const SENTENCES: Readonly<Partial<Record<Sentence['kind'], string>>> = {
  actions: 'this row',
  castOn: 'the cast-on',
  repeatRows: 'the repeated rows',
  workEven: 'the rows worked even',
  shape: 'the shaping',
  atTheSameTime: 'the shaping at the same time',
  steps: 'these steps',
  edgeRows: 'the rows at the edge',
  hold: 'the stitches on hold',
  resume: 'the stitches taken up again',
  drawThrough: 'the last stitches',
  bindOffAll: 'the bind-off',
  joinStitches: 'the join',
};

function labelSay(label: RowLabel): string {
  switch (label.kind) {
    case 'named':
      return `“${label.name}”`;
    case 'next': {
      const role = label.role ? `the ${label.role} ` : 'the next ';
      const number = label.number ? ` ${printSizeList(label.number)}` : '';
      const many = label.count.values.some((count) => count !== null && count > 1);
      const count = many && label.count.values.length === 1 ? `${label.count.values[0]} ` : '';
      return `${role}${count}${label.unit}${many ? 's' : ''}${number}`;
    }
    case 'numbered': {
      const ranges = label.ranges.map(({ from, to }) =>
        sameNumbers(from, to) ? printSizeList(from) : `${printSizeList(from)}–${printSizeList(to)}`,
      );
      const many = ranges.length > 1 || ranges.some((range) => range.includes('–'));
      const last = ranges.length > 1 ? ` and ${ranges.at(-1)}` : '';
      const first = ranges.length > 1 ? ranges.slice(0, -1).join(', ') : (ranges[0] ?? '');
      return `${label.unit}${many ? 's' : ''} ${first}${last}`;
    }
  }
}

const sameNumbers = (one: Sized, other: Sized): boolean =>
  one.values.length === other.values.length &&
  one.values.every((value, at) => value === other.values[at]);

/** "Hat: crown, round 3": the piece, the section, the line. */
export function placeSay(
  pattern: Pattern,
  piece: Piece,
  section: number,
  line: Line | undefined,
): string {
  const titled = piece.sections[section];
  const where = titled ? titleSay(pattern, titled.title ?? titled.id) : '';
  const label = line?.label ? `, ${labelSay(line.label)}` : '';
  const name = capital(titleSay(pattern, piece.data.title));
  return where === '' || where === name.toLowerCase() ? name + label : `${name}: ${where}${label}`;
}

/** A title is a known word or the key of a text; the designer's own language is good enough here. */
function titleSay(pattern: Pattern, title: string): string {
  const { data, prose } = pattern.bundle;
  const text = prose.get(data.language)?.[title];
  return typeof text === 'string' ? text : title;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
