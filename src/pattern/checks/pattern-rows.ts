/**
 * Which row of each chart lies on the needle after each line: what falls at armhole, neck and cuff.
 * Takes a worked piece, gives rows by line, size and chart. Rows that name their chart say it
 * themselves; rows worked as established carry on every chart of the row before.
 */
import { rowAfter } from '../needle/chart-row.ts';
import type { Line, Sentence } from '../notation/ast.ts';
import type { PieceTrace } from '../pattern.ts';
import type { CheckContext } from './context.ts';

/** Row by id of the chart or stitch pattern. */
export type FollowedRows = Readonly<Record<string, number>>;

/** By line of the piece, then by size. */
export function followedRows(
  { pattern }: CheckContext,
  { lines }: PieceTrace,
): readonly (readonly FollowedRows[])[] {
  const live: FollowedRows[] = pattern.sizes.map(() => ({}));
  return lines.map(({ line, outcomes }) =>
    outcomes.map(({ rows, patternRows }, size) => {
      const before = live[size] ?? {};
      if (patternRows) live[size] = patternRows;
      else if (rows > 0)
        live[size] = isAsEstablished(line.line) ? carriedOn(pattern, before, rows) : {};
      return live[size] ?? {};
    }),
  );
}

function carriedOn(
  { charts }: CheckContext['pattern'],
  before: FollowedRows,
  rows: number,
): FollowedRows {
  const after = Object.entries(before).flatMap(([id, row]) => {
    const chart = [...charts.values()].find(({ data }) => data.id === id);
    if (!chart) return [];
    let now = row;
    for (let worked = 0; worked < rows; worked += 1) now = rowAfter(chart, now);
    return [[id, now] as const];
  });
  return Object.fromEntries(after);
}

const isAsEstablished = (line: Line | undefined): boolean => line?.sentences.some(goesOn) === true;

/** Nothing else is named that the row is worked in. */
function goesOn(sentence: Sentence): boolean {
  switch (sentence.kind) {
    case 'workEven':
      return sentence.fabric === undefined;
    case 'shape':
    case 'edgeRows':
      return true;
    case 'steps':
    case 'atTheSameTime':
      return sentence.sentences.some(goesOn);
    case 'actions':
      return sentence.actions.some(
        (action) =>
          (action.kind === 'work' || action.kind === 'workTo') &&
          action.stitch === 'work' &&
          action.fabric === undefined,
      );
    default:
      return false;
  }
}
