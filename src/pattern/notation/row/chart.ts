/**
 * Charts inside a row: `work Chart A`, `work row 3 of Chart A over next 24 sts`, `Chart B 3 times`.
 */
import type { Action, Goal } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from '../text/reader.ts';
import { readChartName } from '../text/fabric.ts';
import { isSized, readSized } from '../text/size-values.ts';
import { readTimes } from '../text/times.ts';
import { isGoal, readGoal } from './goal.ts';

/** Whether a chart is worked here. */
export function isChart(reader: Reader): boolean {
  const position = reader.position;
  const found = reader.attempt(() => readChartHead(reader)) !== undefined;
  if (found) reader.back(position);
  return found;
}

interface Head {
  readonly chart: string;
  readonly row?: Sized;
}

/** @rule chart head = [ "work" ], [ "row", sized, "of" ], chart name; */
function readChartHead(reader: Reader): Head | undefined {
  reader.take('work', 'k', 'cont');
  reader.take('in', 'from', 'across');
  reader.take('next row of', 'next round of', 'patt from', 'patt of');
  const row =
    reader.take('row', 'round') && isSized(reader) ? readSized(reader, 'the row') : undefined;
  if (row) reader.take('of', 'from');
  const chart = readChartName(reader);
  if (chart === undefined) return undefined;
  reader.take('patt');
  return { chart, ...(row && { row }) };
}

/** @rule chart = chart head, [ "over next", sized, "sts" ], [ times ], [ goal ]; */
export function readChart(reader: Reader): Action | undefined {
  const position = reader.position;
  const head = readChartHead(reader);
  if (!head) return reader.missing('a chart');
  let over: Sized | undefined;
  if (reader.take('over next', 'over', 'across next')) {
    over = readSized(reader, '“over”');
    if (!over) return undefined;
    reader.take('sts');
  }
  const times = readTimes(reader)?.times;
  const goal: Goal | undefined =
    isGoal(reader) && !reader.is('until') ? readGoal(reader) : undefined;
  return {
    kind: 'chart',
    ...head,
    ...(over && { over }),
    ...(times && { times }),
    ...(goal && { goal }),
    span: reader.spanFrom(position),
  };
}
