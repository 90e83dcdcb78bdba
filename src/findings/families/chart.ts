/** Findings of the family `chart`: each code with its severity, its facts and how they are said. */
import { entry } from '../finding.ts';
import { plural } from './wording.ts';

interface At {
  readonly [key: string]: string | number;
  readonly chart: string;
  /** From 1 at the bottom, as a knitter counts. */
  readonly row: number;
}

export const chartFamily = {
  'chart/ragged': entry<At & { columns: number; expected: number }>({
    severity: 'error',
    about: 'The rows of a chart are not equally wide.',
    word: ({ chart, row, columns, expected }) => ({
      headline: `row ${row} of ${chart} is ${columns} cells wide; the others are ${expected}`,
      action: 'add or take out cells; where the count is smaller, draw cells without a stitch',
    }),
  }),
  'chart/no-key': entry<At & { character: string; column: number }>({
    severity: 'error',
    about: 'A character of a chart does not stand in its key.',
    word: ({ chart, row, character, column }) => ({
      headline: `“${character}” in row ${row} of ${chart}, cell ${column} from the right, is not in the key`,
      action: `add “${character}” to the key, or correct the cell`,
    }),
  }),
  'chart/unused-key': entry<{ chart: string; character: string }>({
    severity: 'warning',
    about: 'The key of a chart explains a character that the chart does not use.',
    word: ({ chart, character }) => ({
      headline: `the key of ${chart} has “${character}”, which stands in no cell`,
      action: 'take it out of the key',
    }),
  }),
  'chart/unknown-stitch': entry<{
    chart: string;
    character: string;
    stitch: string;
    nearest: readonly string[];
  }>({
    severity: 'error',
    about: 'The key of a chart names a stitch that neither the catalogue nor the bundle knows.',
    word: ({ chart, character, stitch, nearest }) => ({
      headline: `the key of ${chart} explains “${character}” as “${stitch}”, which is not a known stitch`,
      ...(nearest.length > 0 && {
        action: `did you mean ${nearest.map((each) => `“${each}”`).join(' or ')}?`,
      }),
    }),
  }),
  'chart/cable-width': entry<At & { stitch: string; width: number; cells: number }>({
    severity: 'error',
    about: 'A cable of a chart covers more or fewer cells than it crosses stitches.',
    word: ({ chart, row, stitch, width, cells }) => ({
      headline: `${stitch} in row ${row} of ${chart} covers ${plural(cells, 'cell')}; it crosses ${width} stitches`,
      action: `draw it over ${width} cells, or over a multiple of ${width} for several side by side`,
    }),
  }),
  'chart/box': entry<{ chart: string; problem: string }>({
    severity: 'error',
    about: 'The boxed repeat of a chart does not fit the chart.',
    word: ({ chart, problem }) => ({ headline: `the repeat of ${chart} ${problem}` }),
  }),
  'chart/row-count': entry<At & { takes: number; makes: number; part: string }>({
    severity: 'error',
    about: 'A row of a chart takes another number of stitches than the row below it leaves.',
    word: ({ chart, row, takes, makes, part }) => ({
      headline: `row ${row} of ${chart} takes ${takes} sts ${part}; row ${row - 1} leaves ${makes}`,
      action: 'correct a stitch, or draw cells without a stitch where the count changes',
    }),
  }),
  'chart/returns': entry<{ chart: string; first: number; last: number; part: string }>({
    severity: 'error',
    about: 'The top row of a boxed repeat leaves another count than its first row takes.',
    word: ({ chart, first, last, part }) => ({
      headline: `the box of ${chart} ends with ${last} sts ${part} and begins again with ${first}`,
    }),
  }),
  'chart/multiple': entry<{
    chart: string;
    pattern: string;
    multiple: number;
    plus: number;
    boxed: number;
    edges: number;
  }>({
    severity: 'error',
    about: 'A stitch pattern states another multiple than its chart shows.',
    word: ({ chart, pattern, multiple, plus, boxed, edges }) => ({
      headline: `${pattern} states a multiple of ${multiple} + ${plus}; ${chart} shows ${boxed} + ${edges}`,
    }),
  }),
  'chart/other-side': entry<At & { stitch: string }>({
    severity: 'error',
    about: 'A wrong-side row of a chart has a stitch that cannot be worked from that side.',
    word: ({ chart, row, stitch }) => ({
      headline: `row ${row} of ${chart} is a wrong-side row with ${stitch}, which is known on the right side only`,
      action: 'move it to a right-side row, or define the stitch in the bundle',
    }),
  }),
  'chart/float': entry<At & { length: number; colour: string }>({
    severity: 'warning',
    about: 'A yarn is carried behind more than five stitches, about an inch.',
    word: ({ chart, row, length, colour }) => ({
      headline: `row ${row} of ${chart} works ${length} sts in ${colour} without a change: the other yarn floats behind them`,
      action: 'break the stretch, or say that the float is caught and accept this',
    }),
  }),
  'chart/differs': entry<At & { stitch: number; drawn: string; written: string; pattern: string }>({
    severity: 'error',
    about: 'A chart and its written rows say different things.',
    word: ({ chart, row, stitch, drawn, written, pattern }) => ({
      headline: `row ${row}, stitch ${stitch}: ${chart} shows ${drawn}, the written row of ${pattern} works ${written}`,
      action: 'correct one of the two',
    }),
  }),
  'chart/rows-differ': entry<{ chart: string; pattern: string; drawn: number; written: number }>({
    severity: 'error',
    about: 'A chart has another number of rows than the written stitch pattern.',
    word: ({ chart, pattern, drawn, written }) => ({
      headline: `${chart} has ${plural(drawn, 'row')}; ${pattern} writes ${written}`,
    }),
  }),
} as const;
