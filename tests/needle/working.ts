/** Works single lines and small patterns for tests, with the real reader and catalogue. */
import { bareBundle } from '../../src/pattern/checks/bare-bundle.ts';
import type { Env } from '../../src/pattern/needle/env.ts';
import { type LineResult, workLine } from '../../src/pattern/needle/line.ts';
import { type State, startState } from '../../src/pattern/needle/state.ts';
import { workPattern, type WorkedPattern } from '../../src/pattern/needle/index.ts';
import { readLine } from '../../src/pattern/notation/index.ts';
import type { Bundle, Pattern } from '../../src/pattern/pattern.ts';
import { readPattern } from '../../src/pattern/read.ts';
import { CATALOGUE } from '../../src/pattern/stitches/index.ts';

/** So many stitches on the needle, ready for the first row. */
export const castOn = (count: number, form: 'flat' | 'round' = 'flat'): State => ({
  ...startState(form, 'RS', new Map()),
  left: count > 0 ? [count] : [],
});

/** Works one line on a state in one size; throws where the line cannot be read. */
export function workText(
  state: State,
  text: string,
  size = 0,
  sizes: readonly string[] = ['one'],
): LineResult {
  const { line, problems } = readLine(text, {
    sizes: sizes.length > 1 ? sizes : undefined,
    catalogue: CATALOGUE,
  });
  if (!line) throw new Error(`${text}: ${JSON.stringify(problems[0])}`);
  const env: Env = {
    sizes,
    lines: [{ text, pointer: '', line }],
    piece: 'piece',
    form: state.form,
    firstSide: 'RS',
    made: 1,
    stitch: (name) => CATALOGUE.lookup(name),
    chart: () => undefined,
    stitchPattern: () => undefined,
    rowsPerInch: () => 7,
    neckEdge: () => 'left',
  };
  return workLine(state, line, 0, env, size);
}

export interface SmallPattern {
  readonly sizes?: readonly string[];
  readonly form?: 'flat' | 'round';
  readonly firstSide?: 'RS' | 'WS';
  readonly lines: readonly string[];
  /** Rows of 4 in. */
  readonly gaugeRows?: number;
  readonly data?: Partial<Bundle['data']>;
}

/** A bundle of one piece, with a gauge of 20 stitches and 28 rows to 4 in. */
export function bundleOf(small: SmallPattern): Bundle {
  const { sizes = ['one'], form = 'flat', firstSide = 'RS', lines, gaugeRows = 28 } = small;
  const bare = bareBundle(sizes);
  const piece = {
    id: 'piece',
    title: 'piece',
    form,
    firstSide,
    gauge: 'body',
    make: 1,
    sections: [{ id: 'part', lines: lines.map(withId) }],
  };
  return {
    ...bare,
    data: {
      ...bare.data,
      needles: [{ id: 'needle', mm: 4, kind: 'circular' }],
      gauges: [
        {
          id: 'body', stitches: 20, rows: gaugeRows, over: '4 in', pattern: 'stockinette', form: 'flat',
          needle: 'needle', blocked: true,
        },
      ], // prettier-ignore
      pieces: [piece],
      ...small.data,
    },
  };
}

/** `#hem Rep Rows 1 and 2 …` gives the line the id `hem`. */
function withId(line: string): string | { text: string; id: string } {
  const match = /^#([a-z0-9-]+) (.*)$/.exec(line);
  return match ? { id: match[1] ?? '', text: match[2] ?? '' } : line;
}

export function patternOf(small: SmallPattern): Pattern {
  const { pattern, findings } = readPattern(bundleOf(small));
  const unread = findings.filter(({ code }) => code.startsWith('notation/'));
  if (unread.length > 0) throw new Error(JSON.stringify(unread[0]));
  return pattern;
}

export const work = (small: SmallPattern): WorkedPattern => workPattern(patternOf(small));

/** The count after every line, by size. */
export const countsOf = (worked: WorkedPattern): readonly (readonly number[])[] =>
  worked.pieces.flatMap(({ lines }) =>
    lines.map(({ outcomes }) => outcomes.map(({ after }) => after)),
  );

/** The rows of every line in the first size. */
export const rowsOf = (worked: WorkedPattern): readonly number[] =>
  worked.pieces.flatMap(({ lines }) => lines.map(({ outcomes }) => outcomes[0]?.rows ?? 0));
