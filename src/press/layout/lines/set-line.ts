/**
 * Sets one chosen line: spreads or closes its spaces, puts its parts in the order of sight, and gives
 * marks in the order of reading. Places run from the page's start edge; the whole page is turned over
 * at the end where text runs from right to left, so that nothing here knows about sides.
 */
import type { Glyph, Run } from '../../fonts/face.ts';
import type { Mark } from '../frames.ts';
import { visualOrder } from './direction.ts';
import type { Stretch } from './flat-text.ts';
import type { Unit } from './units.ts';

export interface LinePlace {
  /** Start of the line and its room, indent taken off. */
  readonly x: number;
  readonly room: number;
  /** What of the first and the last sign is blank and stands outside the room. */
  readonly startBlank: number;
  readonly endBlank: number;
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
  /** Height of the tallest drawing above the baseline. */
  readonly drawingHeight: number;
  /** Less than 1 where the line had to be made smaller to stay inside. */
  readonly scale: number;
}

/** A unit with its distance from the page's start edge and what is added to its width. */
interface Placed {
  readonly unit: Unit;
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

/** Drawings in a line reach below the baseline, so that small ones look centred beside letters. */
const DRAWING_DROP = 0.18;

const roundTo = (value: number): number => Math.round(value * 1000) / 1000;

/** Sets a line's units in their place. */
export function setLine(units: readonly Unit[], place: LinePlace): SetLine {
  const count = units.findLastIndex(({ kind }) => kind !== 'trailing') + 1;
  const seen = units.slice(0, count);
  let natural = -place.startBlank - place.endBlank;
  for (const unit of seen) natural += unit.width;
  const extras = extrasOf(units, count, natural, place);
  let spread = natural;
  for (const extra of extras) spread += extra;
  const scale = spread > place.room + HAIR && spread > 0 ? place.room / spread : 1;
  const width = spread * scale;
  const x = place.x + startOffset(place.align, place.room - width);
  const placed = inPlace(units, extras, x - place.startBlank * scale, scale, place.direction);
  return {
    marks: [...textMarks(placed, scale, place.direction), ...linkMarks(placed, scale, place)],
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

/** What is added to the width of each unit so that the first `count` fill their room or fit into it. */
function extrasOf(
  units: readonly Unit[],
  count: number,
  natural: number,
  place: LinePlace,
): readonly number[] {
  const slack = place.room - natural;
  const extras = units.map(() => 0);
  const tight = slack < -HAIR;
  if (!tight && !place.fill) return extras;
  const weights = units.map((unit, index) => {
    if (index >= count) return 0;
    if (unit.kind === 'space') return unit.width * SPACE_WEIGHT;
    const opens = !tight && index < count - 1 && place.openings.has(unit.end);
    return opens ? unit.stretch.size * SQUARE_WEIGHT : 0;
  });
  let total = 0;
  for (const weight of weights) total += weight;
  if (total === 0) return extras;
  const least = (-total / SPACE_WEIGHT) * LARGEST_SHRINK;
  const spread = tight ? Math.max(slack, least) : slack;
  return weights.map((weight) => (spread * weight) / total);
}

/** Units in their places, in the order of the text. */
function inPlace(
  units: readonly Unit[],
  extras: readonly number[],
  x: number,
  scale: number,
  direction: 'ltr' | 'rtl',
): Placed[] {
  const placed: Placed[] = [];
  let at = x;
  for (const index of startToEnd(units, direction)) {
    const unit = units[index] as Unit;
    const extra = extras[index] as number;
    placed[index] = { unit, extra, x: at };
    at += (unit.width + extra) * scale;
  }
  return placed;
}

/** Numbers of units from the start edge of the line to its end edge. */
function startToEnd(units: readonly Unit[], direction: 'ltr' | 'rtl'): number[] {
  const base = direction === 'rtl' ? 1 : 0;
  if (units.every(({ level }) => level === base)) return units.map((_, index) => index);
  const order = visualOrder(units.map(({ level }) => level));
  return direction === 'rtl' ? order.reverse() : order;
}

/** A mark of text that still grows. */
interface OpenRun {
  readonly first: Unit;
  readonly size: number;
  readonly direction: Run['direction'];
  readonly glyphs: Glyph[];
  text: string;
  x: number;
  /** In points, spread or closed spaces included. */
  width: number;
}

/** One mark for neighbours that share face, size, colour, tag and direction. */
function textMarks(placed: readonly Placed[], scale: number, direction: 'ltr' | 'rtl'): Mark[] {
  const marks: Mark[] = [];
  let open: OpenRun | undefined;
  for (const each of placed) {
    const { unit, extra, x } = each;
    const { run, stretch } = unit;
    if (run === undefined) {
      if (open !== undefined) marks.push(markOf(open));
      open = undefined;
      if (unit.drawing !== undefined) marks.push(drawingMark(each, scale));
      continue;
    }
    const size = stretch.size * scale;
    const width = (unit.width + extra) * scale;
    if (open !== undefined && !joins(open, unit, run, x, width, size, direction)) {
      marks.push(markOf(open));
      open = undefined;
    }
    open ??= { first: unit, size, direction: run.direction, glyphs: [], text: '', x, width: 0 };
    open.x = Math.min(open.x, x);
    open.width += width;
    open.text += run.text;
    addGlyphs(open.glyphs, run, (extra * 1000) / stretch.size);
  }
  if (open !== undefined) marks.push(markOf(open));
  return marks;
}

/** The glyphs of a run, the last of them wider by what its space was spread. */
function addGlyphs(glyphs: Glyph[], run: Run, extra: number): void {
  for (const glyph of run.glyphs) glyphs.push(glyph);
  const last = run.glyphs.at(-1);
  if (last === undefined || Math.abs(extra) < 1e-9) return;
  glyphs[glyphs.length - 1] = { ...last, advance: last.advance + extra };
}

function markOf({ first, size, direction, glyphs, text, x, width }: OpenRun): Mark {
  const { colour, tag } = first.stretch;
  const face = first.run?.face ?? '';
  const run = { face, direction, glyphs, width: (width * 1000) / size, text };
  return { kind: 'run', x: roundTo(x), y: 0, sizePoints: roundTo(size), run, colour, tag };
}

/** Whether a unit stands directly after what is open, in the direction of its own text. */
function joins(
  open: OpenRun,
  unit: Unit,
  run: Run,
  x: number,
  width: number,
  size: number,
  direction: 'ltr' | 'rtl',
): boolean {
  const { stretch, level } = unit;
  const { first } = open;
  if (run.face !== first.run?.face || run.direction !== open.direction || level !== first.level) {
    return false;
  }
  const known = first.stretch;
  if (stretch.colour !== known.colour || stretch.tag !== known.tag || size !== open.size)
    return false;
  const along = (level % 2 === 1) === (direction === 'rtl');
  const gap = along ? x - (open.x + open.width) : x + width - open.x;
  return Math.abs(gap) < HAIR;
}

/** How high a drawing stands above the baseline. */
function heightOfDrawing({ drawing, width, stretch }: Unit): number {
  if (drawing === undefined || drawing.widthPoints <= 0) return 0;
  const height = (drawing.heightPoints * width) / drawing.widthPoints;
  return Math.max(0, height - stretch.size * DRAWING_DROP);
}

function drawingMark({ unit, x }: Placed, scale: number): Mark {
  const drawing = unit.drawing as NonNullable<Unit['drawing']>;
  const own = (unit.width / Math.max(drawing.widthPoints, 1e-6)) * scale;
  return {
    kind: 'drawing',
    x: roundTo(x),
    y: roundTo(unit.stretch.size * DRAWING_DROP * scale - drawing.heightPoints * own),
    scale: own,
    drawing,
    language: unit.stretch.style.language,
    tag: unit.stretch.tag,
  };
}

/** One rectangle for each part of a link on the line. */
function linkMarks(placed: readonly Placed[], scale: number, place: LinePlace): Mark[] {
  if (placed.every(({ unit }) => unit.stretch.target === undefined)) return [];
  const marks: Mark[] = [];
  let start = 0;
  while (start < placed.length) {
    const { stretch } = (placed[start] as Placed).unit;
    let end = start + 1;
    while (isSameLink(placed[end]?.unit.stretch, stretch)) end++;
    if (stretch.target !== undefined && stretch.tag !== 'artifact') {
      const parts = placed.slice(start, end).filter(({ unit }) => unit.kind !== 'trailing');
      if (parts.length > 0) marks.push(linkMark(parts, stretch.target, scale, place));
    }
    start = end;
  }
  return marks;
}

const isSameLink = (stretch: Stretch | undefined, first: Stretch): boolean =>
  stretch !== undefined && stretch.target === first.target && stretch.tag === first.tag;

function linkMark(parts: readonly Placed[], target: string, scale: number, place: LinePlace): Mark {
  const { size, tag } = (parts[0] as Placed).unit.stretch;
  const starts = parts.map((part) => part.x);
  const ends = parts.map((part) => part.x + (part.unit.width + part.extra) * scale);
  const x = Math.max(place.x, Math.min(...starts));
  const end = Math.min(place.x + place.room, Math.max(...ends));
  return {
    kind: 'link',
    x: roundTo(x),
    y: roundTo(-size * LINK_ABOVE * scale),
    width: roundTo(end - x),
    height: roundTo(size * (LINK_ABOVE + LINK_BELOW) * scale),
    target,
    tag,
  };
}
