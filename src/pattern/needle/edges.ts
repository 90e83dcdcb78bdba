/**
 * Increases and decreases that a row or schedule places by an edge, a marker, or evenly. The row is
 * worked plain first; then stitches are added or lifted where the change falls, so that markers keep
 * their stitches on either side.
 */
import { assertNever } from '../../base/assert.ts';
import type { Span } from '../../base/span.ts';
import type { Action, ShapingPlace } from '../notation/ast.ts';
import { markerSay } from './goals.ts';
import { problem } from './problem.ts';
import { complain, isNamed, isRoundStart, make, take, type Work } from './row.ts';
import {
  addAtBottom,
  countStitches,
  isMark,
  liftFromBottom,
  liftStitches,
  type Mark,
  passMarks,
  pushStitches,
  type Strand,
} from './strands.ts';

export interface EdgeChange {
  readonly act: 'increase' | 'decrease' | 'bindOff' | 'castOn';
  readonly place: ShapingPlace;
  /** Stitches at each place. */
  readonly count: number;
  readonly marker?: string;
  readonly span: Span;
}

type Edge = 'first' | 'second';

/** Changes a row whose stitches all lie on the right needle, the one worked first at the bottom. */
export function changeEdges(work: Work, change: EdgeChange): void {
  const { count, place } = change;
  if (count <= 0) return;
  passMarks(work.needles);
  switch (place) {
    case 'each end':
      changeAt(work, change, 'first');
      return changeAt(work, change, 'second');
    case 'beginning':
      return changeAt(work, change, 'first');
    case 'end':
      return changeAt(work, change, 'second');
    case 'neck edge':
    case 'front edge':
      return changeAt(work, change, edgeFacing(work, work.env.neckEdge(work.definition.line)));
    case 'armhole edge':
    case 'side edge': {
      const neck = work.env.neckEdge(work.definition.line);
      return changeAt(work, change, edgeFacing(work, neck === 'left' ? 'right' : 'left'));
    }
    case 'each marker':
    case 'each side of marker':
      return changeAtMarkers(work, change);
    default:
      return assertNever(place);
  }
}

/** The edge worked first on the right side is the right-hand one; on the wrong side, the left-hand. */
const edgeFacing = (work: Work, edge: 'left' | 'right'): Edge =>
  (edge === 'right') === (work.side === 'RS') ? 'first' : 'second';

const grows = (change: EdgeChange): boolean => change.act === 'increase' || change.act === 'castOn';

function changeAt(work: Work, change: EdgeChange, edge: Edge): void {
  const { right } = work.needles;
  const { count } = change;
  const has = countStitches(right);
  if (grows(change)) {
    if (edge === 'first') addAtBottom(right, count);
    else pushStitches(right, count);
  } else {
    const lifted = edge === 'first' ? liftFromBottom(right, count) : liftStitches(right, count);
    if (lifted < count) complainFew(work, change, has);
  }
  noteEdge(work, edge, grows(change) ? count : -count);
}

function noteEdge(work: Work, edge: Edge, change: number): void {
  if (edge === 'first') work.changedFirst += change;
  else work.changedSecond += change;
}

function complainFew(work: Work, change: EdgeChange, over: number): void {
  const what = change.act === 'bindOff' ? 'bind off' : change.act;
  complain(work, problem('count/evenly', change.span, { over, changes: change.count }, { what }));
}

function changeAtMarkers(work: Work, change: EdgeChange): void {
  const { needles } = work;
  const fits = markersMeant(needles.right, change.marker);
  const meant = needles.right.filter((strand) => isMark(strand) && fits(strand)).length;
  if (meant === 0) {
    const has = countStitches(needles.right);
    const marker = markerSay(change.marker);
    complain(work, problem('count/no-marker', change.span, { has }, { marker }));
    return;
  }
  const both = change.place === 'each side of marker';
  const runs = [...needles.right];
  for (let at = 0; at < runs.length; at += 1) {
    const strand = runs[at];
    if (!isMark(strand) || !fits(strand)) continue;
    at += changeRun(runs, at, 'before', change);
    if (both) changeRun(runs, at, 'after', change);
  }
  needles.right.splice(0, needles.right.length, ...runs.filter((strand) => strand !== 0));
  if (runs.some((strand) => typeof strand === 'number' && strand < 0)) {
    complainFew(work, change, countStitches(needles.right));
  }
  const all = (grows(change) ? 1 : -1) * change.count * meant * (both ? 2 : 1);
  const first = Math.trunc(all / 2);
  noteEdge(work, 'first', first);
  noteEdge(work, 'second', all - first);
}

/** Markers of this name; where none has it, all but the beginning of the round; else that one. */
function markersMeant(
  strands: readonly Strand[],
  name: string | undefined,
): (mark: Mark) => boolean {
  const markers = strands.filter(isMark).filter((mark) => mark.kind === 'marker');
  if (name && markers.some((mark) => isNamed(mark, name))) return (mark) => isNamed(mark, name);
  const others = markers.some((mark) => !isRoundStart(mark));
  return (mark) => mark.kind === 'marker' && (!others || !isRoundStart(mark));
}

/** Changes the run beside a mark; gives by how many places the mark has moved. */
function changeRun(
  runs: Strand[],
  mark: number,
  side: 'before' | 'after',
  change: EdgeChange,
): number {
  const by = grows(change) ? change.count : -change.count;
  // In the round the neighbour of the first mark is the last run: the ring is closed there.
  const wanted = side === 'before' ? mark - 1 : mark + 1;
  const at = wanted < 0 ? runs.length - 1 : wanted >= runs.length ? 0 : wanted;
  const run = runs[at];
  if (typeof run === 'number') {
    runs[at] = run + by;
    return 0;
  }
  runs.splice(side === 'before' ? mark : mark + 1, 0, by);
  return side === 'before' ? 1 : 0;
}

// ---------------------------------------------------------------- evenly

type Evenly = Extract<Action, { kind: 'evenly' }>;

/** A decrease takes two stitches, an increase needs one to stand on. */
export function spreadChanges(work: Work, action: Evenly): void {
  const changes = work.read(action.count) ?? 0;
  const rest = countStitches(work.needles.left);
  const over = action.over ? (work.read(action.over) ?? 0) : rest;
  const flat = { takes: 1, makes: 1 };
  if (changes <= 0) return take(work, action.span, flat, over);
  const needs = action.act === 'decrease' ? changes * 2 : changes;
  if (needs > over) {
    complain(work, problem('count/evenly', action.span, { over, changes }, { what: action.act }));
    return;
  }
  const marked = work.needles.left.some(isMark);
  const parts = marked ? changes : 1;
  for (let part = 0; part < parts && !work.problem; part += 1) {
    const from = Math.floor((over * part) / parts);
    const to = Math.floor((over * (part + 1)) / parts);
    spreadPart(work, action, to - from, changes / parts);
  }
}

function spreadPart(work: Work, action: Evenly, over: number, changes: number): void {
  const flat = { takes: 1, makes: 1 };
  if (action.act === 'increase') {
    take(work, action.span, flat, over);
    return make(work, action.span, changes);
  }
  take(work, action.span, { takes: 2, makes: 1 }, changes);
  take(work, action.span, flat, over - 2 * changes);
}
