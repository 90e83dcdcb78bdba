/**
 * Makes the track of a row-making sentence in the state it finds: how many rows, which rows, what
 * changes at the edges. Gives undefined where the sentence does not apply to this size.
 */
import { assertNever } from '../../base/assert.ts';
import type { Extent, Sentence } from '../notation/ast.ts';
import { definitionsOfFabric, noteFabricRows, patternNamed, startFabricAt } from './fabrics.ts';
import { fail, type Job, softly } from './job.ts';
import { heightReached, missingInches, nearestRows, targetOf } from './lengths.ts';
import { problem } from './problem.ts';
import { complainLonger, rowsMeant } from './repeat-rows.ts';
import { lastRows, type RowDefinition, type State, stitchesOn } from './state.ts';
import { openTrack, rowsTrack, scheduleTrack, type Track } from './tracks.ts';
import { workSentences } from './sentences.ts';

type RowMaking = Extract<
  Sentence,
  { kind: 'actions' | 'repeatRows' | 'workEven' | 'shape' | 'edgeRows' | 'steps' }
>;

/** A track whose number of rows is known beforehand: what shaping at the same time must fit into. */
export interface MeasuredTrack extends Track {
  readonly length: number;
}

export function trackOf(
  job: Job,
  sentence: RowMaking,
  labelled: number | undefined,
  merged: boolean,
): Track | undefined {
  switch (sentence.kind) {
    case 'workEven':
      return evenTrack(job, sentence, labelled, merged);
    case 'shape':
      return shapeTrack(job, sentence);
    case 'edgeRows':
      return edgeTrack(job, sentence);
    case 'repeatRows':
      return repeatTrack(job, sentence);
    case 'actions': {
      const row: RowDefinition = {
        actions: sentence.actions,
        unit: job.state.form === 'round' ? 'round' : 'row',
        line: job.lineIndex,
        short: false,
      };
      return measured(rowsTrack(sentence.span, 1, [row]), 1);
    }
    case 'steps':
      // Steps are whole sentences of their own and cannot be cut row by row.
      workSentences(job, [sentence]);
      return undefined;
    default:
      return assertNever(sentence);
  }
}

const measured = (track: Track, length: number): MeasuredTrack => ({ ...track, length });

// ---------------------------------------------------------------- plain stretches

type WorkEven = Extract<Sentence, { kind: 'workEven' }>;

function evenTrack(
  job: Job,
  sentence: WorkEven,
  labelled: number | undefined,
  merged: boolean,
): Track | undefined {
  const { extent, fabric, span } = sentence;
  job.fabric = fabric;
  if (extent.kind === 'once' && labelled === undefined) {
    if (merged) return openTrack(span);
    if (job.line.label === undefined) softly(job, problem('count/open-ended', span, {}, {}));
    return fabricTrack(job, sentence, 1, merged);
  }
  const rows =
    extent.kind === 'once' ? labelled : rowsOfExtent(job, extent, stopFor(job, sentence), span);
  return rows === undefined ? undefined : fabricTrack(job, sentence, rows, merged);
}

/** Rows of a stitch pattern are worked row by row; under shaping they are kept "in pattern". */
function fabricTrack(
  job: Job,
  { fabric, span, beginning }: WorkEven,
  rows: number,
  merged: boolean,
): Track | undefined {
  const target = job.exactInches;
  job.exactInches = undefined;
  const finish = (state: State): State =>
    target === undefined ? state : heightReached(state, target);
  if (fabric === undefined || merged || rows === 0) {
    return measured(rowsTrack(span, rows, [], [], finish), rows);
  }
  beginAt(job, fabric, beginning);
  const definitions = definitionsOfFabric(job, fabric, 'next');
  if (definitions && !fitsPattern(job, fabric, span)) return undefined;
  if (!definitions) return measured(rowsTrack(span, rows, [], [], finish), rows);
  const track = rowsTrack(span, rows, definitions, [], (state) => {
    const noted: Job = { ...job, state };
    noteFabricRows(noted, fabric, rows);
    return finish(noted.state);
  });
  return measured(track, rows);
}

/** `beg with row 5`: the pattern goes on from there. */
function beginAt(job: Job, fabric: string, beginning: WorkEven['beginning']): void {
  if (!beginning || !('row' in beginning)) return;
  const row = job.read(beginning.row);
  if (row !== null && row > 0) startFabricAt(job, fabric, row);
}

/** A stitch pattern needs its multiple; said before its rows are tried, because it says more. */
function fitsPattern(job: Job, fabric: string, span: WorkEven['span']): boolean {
  const pattern = patternNamed(job, fabric);
  if (!pattern) return true;
  const before = stitchesOn(job.state);
  const leftOver = (before - pattern.plus) % pattern.multiple;
  if (leftOver === 0 && before >= pattern.plus) return true;
  const { multiple, plus } = pattern;
  const words = {
    pattern: pattern.id,
    multiple: plus > 0 ? `${multiple} + ${plus}` : `${multiple}`,
  };
  fail(job, problem('count/multiple', span, { before, leftOver }, words));
  return false;
}

function stopFor(job: Job, { extent, fabric }: WorkEven) {
  if (extent.kind !== 'length') return {};
  const ending = extent.endingRow ? job.read(extent.endingRow) : null;
  const rows = fabric === undefined ? undefined : definitionsOfFabric(job, fabric, 'next');
  if (ending !== null && rows && rows.length > 0) {
    const at = rows.findIndex((row) => row.number === ending);
    return { cycle: rows.length, rest: (at + 1) % rows.length };
  }
  return extent.ending ? { side: extent.ending } : {};
}

/** Rows an extent stands for; undefined where it does not apply, or after a complaint. */
export function rowsOfExtent(
  job: Job,
  extent: Extent,
  stop: Parameters<typeof nearestRows>[2],
  span: Sentence['span'],
): number | undefined {
  switch (extent.kind) {
    case 'rows':
      return job.read(extent.count) ?? undefined;
    case 'more':
    case 'total':
      return job.read(extent.times) ?? undefined;
    case 'length': {
      const target = targetOf(job.state, extent, job.read);
      if (target === null) return undefined;
      const wanted = missingInches(job.state, target) * job.env.rowsPerInch(job.fabric);
      if (wanted < -0.5) return complainLonger(job, target, span);
      job.exactInches = target;
      return nearestRows(wanted, job.state, stop);
    }
    case 'count':
      if (stitchesOn(job.state) === job.read(extent.count)) return 0;
      fail(
        job,
        problem(
          'count/never',
          span,
          { from: stitchesOn(job.state), target: job.read(extent.count) },
          {},
        ),
      );
      return undefined;
    case 'once':
      return 1;
    default:
      return assertNever(extent);
  }
}

// ---------------------------------------------------------------- shaping

function shapeTrack(job: Job, { schedule }: Extract<Sentence, { kind: 'shape' }>): Track {
  const again =
    schedule.act === 'repeat'
      ? ((schedule.row && job.state.roles.get(schedule.row)) ?? lastShaping(job))
      : undefined;
  const { until } = schedule;
  const enough = (state: State): boolean => {
    if (until?.kind === 'count') {
      const target = job.read(until.count);
      return target === null || isPast(job.state, state, target);
    }
    if (until?.kind === 'length') {
      const target = targetOf(job.state, until, job.read);
      return target === null || state.inches >= target - 1e-9;
    }
    return true;
  };
  return scheduleTrack(schedule, {
    read: job.read,
    rowsPerInch: job.env.rowsPerInch(job.fabric),
    enough,
    ...(again && { again: { ...again, foreign: true } }),
  });
}

/** The count is reached or stepped over; a stated count after the line tells the two apart. */
function isPast(start: State, now: State, target: number): boolean {
  const from = stitchesOn(start);
  const here = stitchesOn(now);
  return from <= target ? here >= target : here <= target;
}

/** The row that `rep … every 4th row` means where it names none: the last with a role, else the last. */
function lastShaping(job: Job): RowDefinition | undefined {
  const { roles } = job.state;
  return roles.get('decrease') ?? roles.get('increase') ?? lastRows(job.state, 1)[0];
}

function edgeTrack(job: Job, sentence: Extract<Sentence, { kind: 'edgeRows' }>): Track | undefined {
  const count = job.read(sentence.count) ?? 0;
  const rows = job.read(sentence.rows) ?? 0;
  if (count <= 0 || rows <= 0) return undefined;
  const { act, at: place, span } = sentence;
  return measured(rowsTrack(span, rows, [], [{ act, place, count, span }]), rows);
}

function repeatTrack(
  job: Job,
  sentence: Extract<Sentence, { kind: 'repeatRows' }>,
): Track | undefined {
  const definitions = rowsMeant(job, sentence);
  if (!definitions) return undefined;
  const { extent, span } = sentence;
  const cycles = extent.kind === 'more' || extent.kind === 'total';
  const asked = rowsOfExtent(job, extent, {}, span);
  if (asked === undefined) return undefined;
  const less = extent.kind === 'total' && sentence.of === undefined ? 1 : 0;
  const rows = cycles ? Math.max(0, asked - less) * definitions.length : asked;
  const once = extent.kind === 'once' ? definitions.length : rows;
  const target = job.exactInches;
  job.exactInches = undefined;
  const finish = (state: State): State =>
    target === undefined ? state : heightReached(state, target);
  return measured(rowsTrack(span, once, definitions, [], finish), once);
}
