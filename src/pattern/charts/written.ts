/**
 * A chart as written rows: each row in the order of working, with its repeat. Takes a chart, gives
 * lines of notation as trees; what prints and says every other line prints and says these.
 */
import { NOWHERE } from '../../base/span.ts';
import { sizedOf } from '../bundle/size-list.ts';
import type { Action, Line } from '../notation/ast.ts';
import type { Chart } from '../pattern.ts';
import type { StitchFlow } from '../needle/env.ts';
import { rowInOrder, type RowInOrder } from './rows.ts';

/** One line for each row of the chart, from the bottom up. */
export function writtenRowsOf(
  chart: Chart,
  stitch: (name: string) => StitchFlow | undefined,
): readonly Line[] {
  return chart.rows.flatMap((row) => {
    const ordered = rowInOrder(chart, row.number);
    return ordered ? [lineOf(chart, row.number, ordered, stitch)] : [];
  });
}

function lineOf(
  chart: Chart,
  number: number,
  row: RowInOrder,
  stitch: (name: string) => StitchFlow | undefined,
): Line {
  const flat = chart.data.form === 'flat';
  const only = sizedOf(number);
  return {
    label: {
      kind: 'numbered',
      unit: flat ? 'row' : 'round',
      ranges: [{ from: only, to: only }],
      span: NOWHERE,
      ...(flat && { side: row.side }),
    },
    sentences: [{ kind: 'actions', actions: actionsOf(chart, row, stitch), span: NOWHERE }],
    text: '',
    span: NOWHERE,
  };
}

/** `k2, *yo, k2tog; rep from * to last 3 sts, k3`. A chart without a box is one repeat. */
function actionsOf(
  chart: Chart,
  { before, repeat, after }: RowInOrder,
  stitch: (name: string) => StitchFlow | undefined,
): readonly Action[] {
  const last = after.reduce((sum, action) => sum + takesOf(action, stitch), 0);
  const goal =
    last === 0
      ? ({ kind: 'end', span: NOWHERE } as const)
      : ({ kind: 'last', count: sizedOf(last), span: NOWHERE } as const);
  const [only, ...more] = repeat;
  if (only?.kind === 'work' && more.length === 0 && takesOf(only, stitch) > 0) {
    const { stitch: name } = only;
    return [...before, { kind: 'workTo', stitch: name, goal, span: NOWHERE }, ...after];
  }
  if (repeat.length === 0) return [...before, ...after];
  const until = { kind: 'goal', goal } as const;
  return [...before, { kind: 'repeat', actions: repeat, until, span: NOWHERE }, ...after];
}

const takesOf = (action: Action, stitch: (name: string) => StitchFlow | undefined): number =>
  action.kind === 'work' ? (stitch(action.stitch)?.takes ?? 0) * (action.times.values[0] ?? 0) : 0;
