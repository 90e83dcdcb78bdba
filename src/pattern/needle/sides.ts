/**
 * Sides and ends that a pattern states so that a knitter can check herself: which side faces at a row,
 * with which side or row a stretch ends. They are held against what was worked.
 */
import type { Span } from '../../base/span.ts';
import type { Extent, Side } from '../notation/ast.ts';
import { type Job, softly } from './job.ts';
import { problem } from './problem.ts';
import { lastRows } from './state.ts';

export const sideSay = (side: Side): string =>
  side === 'RS' ? 'the right side' : 'the wrong side';

/** The side stated for the next row must be the one that faces. Rounds are always on the right side. */
export function checkFacing(job: Job, side: Side | undefined, span: Span): void {
  if (!side || job.state.form === 'round' || side === job.state.side) return;
  const words = { stated: sideSay(side), faces: sideSay(job.state.side) };
  if (!job.state.guessed) {
    softly(job, problem('count/side', span, { rowNumber: job.state.row + 1 }, words));
  }
  // What is stated is believed from here on, so that one row too many is one finding.
  job.state = { ...job.state, side };
}

/** "With RS facing, join yarn": the work is held so, whatever it was before. */
export function faceWith(job: Job, side: Side | undefined): void {
  if (side && job.state.form === 'flat') job.state = { ...job.state, side };
}

/** `ending with a WS row`, `ending with row 8`: after a stretch of at least one row. */
export function checkEnding(job: Job, extent: Extent, span: Span): void {
  const { state } = job;
  if (job.failed || state.guessed) return;
  const worked: Side = state.side === 'RS' ? 'WS' : 'RS';
  if (extent.ending && state.form === 'flat' && extent.ending !== worked) {
    const words = { stated: sideSay(extent.ending), ended: sideSay(worked) };
    softly(job, problem('count/ending', span, { row: state.row }, words));
    job.state = { ...state, side: worked };
  }
  const wanted = extent.endingRow ? job.read(extent.endingRow) : null;
  const last = patternRowOf(job);
  if (wanted === null || last === undefined || last === wanted) return;
  const words = { stated: `row ${wanted}`, ended: `row ${last}` };
  softly(job, problem('count/ending', span, { row: state.row }, words));
}

/** The row of its chart, stitch pattern or label that was worked last. */
function patternRowOf({ state }: Job): number | undefined {
  const worked = [...state.fabricRows.values()].find(({ row }) => row === state.row);
  return worked?.patternRow ?? lastRows(state, 1)[0]?.number;
}
