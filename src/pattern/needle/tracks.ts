/**
 * Row-making sentences as tracks: each says, row by row, what it wants of the next rows until it is
 * done. Two sentences that are worked AT THE SAME TIME are two tracks run together: the rows of the
 * first, with the changes of both. A track never looks further ahead than it must.
 */
import type { Span } from '../../base/span.ts';
import type { Rate, Schedule } from '../notation/ast.ts';
import type { EdgeChange } from './edges.ts';
import { inchesOf } from './lengths.ts';
import type { NumberReader } from './env.ts';
import type { RowDefinition, State } from './state.ts';

/** What a track wants of the next rows: `rows` alike, at least one. */
export interface Step {
  readonly rows: number;
  /** The written row to work; absent: plain, as established. */
  readonly definition?: RowDefinition;
  readonly changes: readonly EdgeChange[];
}

export interface Track {
  readonly span: Span;
  /** Ends by itself: a schedule, a number of rows. An open one runs as long as the others. */
  readonly open: boolean;
  next(state: State): Step | undefined;
  /** Is told how many of the wanted rows were worked. */
  worked(rows: number): void;
  /** After its last row. */
  finish(state: State): State;
}

const asItIs = (state: State): State => state;

/** So many rows, each with the same change or none; definitions are taken in turn. */
export function rowsTrack(
  span: Span,
  rows: number,
  definitions: readonly RowDefinition[],
  changes: readonly EdgeChange[] = [],
  finish: (state: State) => State = asItIs,
): Track {
  let done = 0;
  return {
    span,
    open: false,
    next() {
      if (done >= rows) return undefined;
      const definition = definitions[done % Math.max(1, definitions.length)];
      if (definition) return { rows: 1, definition, changes };
      return { rows: changes.length > 0 ? 1 : rows - done, changes };
    },
    worked(count) {
      done += count;
    },
    finish,
  };
}

/** An open stretch: plain rows for as long as other tracks run. */
export const openTrack = (span: Span): Track => ({
  span,
  open: true,
  next: () => ({ rows: Number.MAX_SAFE_INTEGER, changes: [] }),
  worked: () => undefined,
  finish: asItIs,
});

/** Tracks one after another; each is made when it begins, from the state it finds. */
export function sequenceTrack(
  span: Span,
  makers: readonly ((state: State) => Track | undefined)[],
): Track {
  let at = 0;
  let current: Track | undefined;
  return {
    span,
    open: false,
    next(state) {
      while (at < makers.length) {
        current ??= makers[at]?.(state);
        const step = current?.next(state);
        if (step) return step;
        current = undefined;
        at += 1;
      }
      return undefined;
    },
    worked(rows) {
      current?.worked(rows);
    },
    finish: asItIs,
  };
}

// ---------------------------------------------------------------- schedules

export interface ScheduleNeeds {
  readonly read: NumberReader;
  readonly rowsPerInch: number;
  /** The row that act `repeat` works again. */
  readonly again?: RowDefinition;
  /** Where the last rate has no times. */
  readonly enough: (state: State) => boolean;
}

/**
 * "Every 4th row 5 times": three rows plain and a row with the change, five times, counted from the row
 * just worked. "Next row and every 4th row 5 times" has one more, on the next row.
 */
export function scheduleTrack(schedule: Schedule, needs: ScheduleNeeds): Track {
  const { read } = needs;
  const legs = schedule.rates.map((rate) => readLeg(rate, needs));
  const changes = changesOf(schedule, read);
  let leg = 0;
  let times = 0;
  let plain: number | undefined = schedule.startsNow ? 0 : undefined;
  let started = false;
  return {
    span: schedule.span,
    open: false,
    next(state) {
      if (plain === undefined) {
        while (legs[leg] && times >= (legs[leg]?.times ?? 0)) {
          leg += 1;
          times = 0;
        }
        const here = legs[leg];
        if (!here || (here.times === Infinity && needs.enough(state))) return undefined;
        plain = plainRows(here, state);
      }
      if (plain > 0) return { rows: plain, changes: [] };
      return { rows: 1, changes, ...(needs.again && { definition: needs.again }) };
    },
    worked(rows) {
      if (plain !== undefined && plain > 0) {
        plain -= rows;
        return;
      }
      // The change on the next row comes before the first leg and is not one of its times.
      const wasFirst = schedule.startsNow && leg === 0 && times === 0 && !started;
      started = true;
      if (!wasFirst) times += 1;
      plain = undefined;
    },
    finish: asItIs,
  };
}

interface Leg {
  readonly every: number;
  readonly side?: 'RS' | 'WS';
  readonly times: number;
}

function readLeg(rate: Rate, { read, rowsPerInch }: ScheduleNeeds): Leg {
  const times = rate.times ? (read(rate.times) ?? 0) : Infinity;
  if (rate.kind === 'length') {
    const every = Math.round((inchesOf(rate.every, read) ?? 0) * rowsPerInch);
    return { every: Math.max(1, every), times };
  }
  const every = Math.max(1, read(rate.every) ?? 1);
  return { every, times, ...(rate.side && { side: rate.side }) };
}

/** Plain rows before the next change. A leg by side waits for its side, at least all but two rows. */
function plainRows(leg: Leg, state: State): number {
  if (!leg.side || state.form === 'round') return leg.every - 1;
  const least = Math.max(0, leg.every - 2);
  const facing = least % 2 === 0 ? state.side : state.side === 'RS' ? 'WS' : 'RS';
  return facing === leg.side ? least : least + 1;
}

function changesOf(schedule: Schedule, read: NumberReader): readonly EdgeChange[] {
  const { act, place, marker, span } = schedule;
  if (act === 'repeat') return [];
  const count = read(schedule.count) ?? 0;
  return [{ act, place, count, span, ...(marker !== undefined && { marker }) }];
}
