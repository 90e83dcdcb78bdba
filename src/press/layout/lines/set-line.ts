/**
 * Sets one chosen line: spreads or closes its spaces, puts its parts in the order of sight, and gives
 * marks in the order of reading. Places run from the page's start edge; the whole page is turned over
 * at the end where text runs from right to left, so that nothing here knows about sides.
 */
import type { Run } from '../../fonts/face.ts';
import type { Mark, TagRef } from '../frames.ts';
import { visualOrder } from './direction.ts';
import type { Unit } from './units.ts';

export interface LinePlace {
  /** Start of the line and its room, indent taken off. */
  readonly x: number;
  readonly room: number;
  readonly align: 'start' | 'centre' | 'end';
  /** Spaces are spread until the line is full. */
  readonly fill: boolean;
  readonly direction: 'ltr' | 'rtl';
  /** Ends of units where a line of Han or kana may open a little. */
  readonly openings: ReadonlySet<number>;
}

export interface SetLine {
  /** `y` is counted from the baseline. */
  readonly marks: readonly Mark[];
  readonly x: number;
  readonly width: number;
  /** Height of the tallest drawing in the line. */
  readonly drawingHeight: number;
  /** Less than 1 where the line had to be made smaller to stay inside. */
  readonly scale: number;
}

interface Placed extends Unit {
  readonly extra: number;
  readonly x: number;
}

const SQUARE_WEIGHT = 0.05;
const SPACE_WEIGHT = 0.5;
const LARGEST_SHRINK = 0.25;
const HAIR = 0.01;
/** Room for links above and below the baseline, in sizes of the type. */
const LINK_ABOVE = 0.85;
const LINK_BELOW = 0.25;

const roundTo = (value: number): number => Math.round(value * 1000) / 1000;

/** Sets a line's units in their place. */
export function setLine(units: readonly Unit[], place: LinePlace): SetLine {
  const seen = units.filter(({ kind }) => kind !== 'trailing');
  const natural = seen.reduce((sum, { width }) => sum + width, 0);
  const extras = extrasOf(seen, natural, place);
  const spread = natural + extras.reduce((sum, extra) => sum + extra, 0);
  const scale = spread > place.room + HAIR && spread > 0 ? place.room / spread : 1;
  const width = spread * scale;
  const x = place.x + startOffset(place.align, place.room - width);
  const placed = inPlace(units, extras, x, scale, place.direction);
  return {
    marks: [...textMarks(placed, scale, place.direction), ...linkMarks(placed, scale)],
    x,
    width,
    drawingHeight: Math.max(0, ...seen.map(heightOfDrawing)) * scale,
    scale,
  };
}

function startOffset(align: LinePlace['align'], slack: number): number {
  if (align === 'start') return 0;
  return align === 'end' ? slack : slack / 2;
}

/** What is added to each unit's width so that the line fills its room or fits into it. */
function extrasOf(seen: readonly Unit[], natural: number, place: LinePlace): number[] {
  const slack = place.room - natural;
  if (slack < -HAIR) {
    const spaces = seen.reduce((sum, unit) => sum + (unit.kind === 'space' ? unit.width : 0), 0);
    const taken = Math.min(-slack, spaces * LARGEST_SHRINK);
    return seen.map(({ kind, width }) => (kind === 'space' ? -(taken * width) / spaces : 0));
  }
  if (!place.fill) return seen.map(() => 0);
  const weights = seen.map((unit, index) => {
    if (unit.kind === 'space') return unit.width * SPACE_WEIGHT;
    const inside = index < seen.length - 1;
    return inside && place.openings.has(unit.end) ? unit.stretch.size * SQUARE_WEIGHT : 0;
  });
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return weights.map((weight) => (total === 0 ? 0 : (slack * weight) / total));
}

/** Units with their distance from the page's start edge, in the order of the text. */
function inPlace(
  units: readonly Unit[],
  extras: readonly number[],
  x: number,
  scale: number,
  direction: 'ltr' | 'rtl',
): Placed[] {
  const order = visualOrder(units.map(({ level }) => level));
  if (direction === 'rtl') order.reverse();
  let seenBefore = 0;
  const extraOf = units.map(({ kind }) => (kind === 'trailing' ? 0 : (extras[seenBefore++] ?? 0)));
  const starts: number[] = [];
  let at = x;
  for (const index of order) {
    starts[index] = at;
    at += ((units[index] as Unit).width + (extraOf[index] as number)) * scale;
  }
  return units.map((unit, index) => ({
    ...unit,
    extra: extraOf[index] as number,
    x: starts[index] as number,
  }));
}

interface OpenRun {
  readonly face: string;
  readonly size: number;
  readonly colour: string;
  readonly tag: TagRef;
  readonly level: number;
  x: number;
  width: number;
  run: Run;
}

/** One mark for neighbours that share face, size, colour, tag and direction. */
function textMarks(placed: readonly Placed[], scale: number, direction: 'ltr' | 'rtl'): Mark[] {
  const marks: Mark[] = [];
  let open: OpenRun | undefined;
  const close = () => {
    if (open === undefined) return;
    const { x, size, run, colour, tag } = open;
    marks.push({ kind: 'run', x: roundTo(x), y: 0, sizePoints: roundTo(size), run, colour, tag });
    open = undefined;
  };
  for (const unit of placed) {
    if (unit.drawing !== undefined) {
      close();
      marks.push(drawingMark(unit, scale));
    }
    if (unit.run === undefined) continue;
    const size = unit.stretch.size * scale;
    const run = widened(unit.run, (unit.extra * 1000) / unit.stretch.size);
    const width = (unit.width + unit.extra) * scale;
    if (open !== undefined && joins(open, unit, size, direction)) {
      open.x = Math.min(open.x, unit.x);
      open.width += width;
      open.run = joined(open.run, run);
      continue;
    }
    close();
    const { colour, tag } = unit.stretch;
    open = { face: run.face, size, colour, tag, level: unit.level, x: unit.x, width, run };
  }
  close();
  return marks;
}

/** Whether a unit stands directly after what is open, in the direction of its own text. */
function joins(open: OpenRun, unit: Placed, size: number, direction: 'ltr' | 'rtl'): boolean {
  const { stretch, run, level } = unit;
  if (run?.face !== open.face || run.direction !== open.run.direction || level !== open.level) {
    return false;
  }
  if (stretch.colour !== open.colour || stretch.tag !== open.tag || size !== open.size)
    return false;
  const along = (level % 2 === 1) === (direction === 'rtl');
  const gap = along ? unit.x - (open.x + open.width) : unit.x + unit.width + unit.extra - open.x;
  return Math.abs(gap) < HAIR;
}

function widened(run: Run, extra: number): Run {
  const last = run.glyphs.at(-1);
  if (Math.abs(extra) < 1e-9 || last === undefined) return run;
  const glyphs = [...run.glyphs.slice(0, -1), { ...last, advance: last.advance + extra }];
  return { ...run, glyphs, width: run.width + extra };
}

const joined = (first: Run, second: Run): Run => ({
  ...first,
  glyphs: [...first.glyphs, ...second.glyphs],
  width: first.width + second.width,
  text: first.text + second.text,
});

const heightOfDrawing = ({ drawing, width }: Unit): number =>
  drawing === undefined || drawing.widthPoints <= 0
    ? 0
    : (drawing.heightPoints * width) / drawing.widthPoints;

function drawingMark(unit: Placed, scale: number): Mark {
  const drawing = unit.drawing as NonNullable<Unit['drawing']>;
  const own = (unit.width / Math.max(drawing.widthPoints, 1e-6)) * scale;
  return {
    kind: 'drawing',
    x: roundTo(unit.x),
    y: roundTo(-drawing.heightPoints * own),
    scale: own,
    drawing,
    language: unit.stretch.style.language,
    tag: unit.stretch.tag,
  };
}

/** One rectangle for each part of a link on the line. */
function linkMarks(placed: readonly Placed[], scale: number): Mark[] {
  const marks: Mark[] = [];
  let start = 0;
  while (start < placed.length) {
    const { target, tag, size } = (placed[start] as Placed).stretch;
    let end = start + 1;
    while (placed[end]?.stretch.target === target && placed[end]?.stretch.tag === tag) end++;
    if (target !== undefined && tag !== 'artifact') {
      const parts = placed.slice(start, end).filter(({ kind }) => kind !== 'trailing');
      const x = Math.min(...parts.map((part) => part.x));
      const right = Math.max(...parts.map((part) => part.x + (part.width + part.extra) * scale));
      const y = roundTo(-size * LINK_ABOVE * scale);
      const height = roundTo(size * (LINK_ABOVE + LINK_BELOW) * scale);
      const width = roundTo(right - x);
      if (parts.length > 0)
        marks.push({ kind: 'link', x: roundTo(x), y, width, height, target, tag });
    }
    start = end;
  }
  return marks;
}
