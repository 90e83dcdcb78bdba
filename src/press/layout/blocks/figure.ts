/**
 * Pictures and drawings at the size their role gives, always whole: scaled to the column, no higher
 * than the page leaves, drawings hardly above their own size. A figure may become somewhat smaller to
 * stay on the page of its text. The caption stays below it.
 */
import { assertNever } from '../../../base/assert.ts';
import type { Block, FigureContent } from '../../document.ts';
import type { Mark } from '../frames.ts';
import { prepareText } from '../lines/paragraph.ts';
import type { Area, Column, Setting } from '../setting.ts';
import { FORBIDDEN, lowered, slab, type Slab, stacked, stackHeight, withEnds } from '../slab.ts';
import { roleSlabs } from './paragraph.ts';

export type Figure = Extract<Block, { kind: 'figure' }>;

interface Size {
  readonly width: number;
  readonly height: number;
}

const PRINT_DOTS_PER_INCH = 300;
const POINTS_PER_INCH = 72;
/** Room kept for a caption when a figure could fill the page. */
const HIGHEST_SHARE = 0.9;
/** A single half figure is wider than half: beside nothing, half a column looks lost. */
const HALF_SHARE = 0.62;
/** Least share of the width that one of two pictures side by side has. */
const NARROWEST_OF_PAIR = 0.3;
/** Share of the width from which a figure counts as filling it. */
const FILLED = 0.985;
/** A caption beside a figure is no higher than this share of it. */
const TALLEST_SIDE_CAPTION = 0.8;

/** The size at which a figure is as large as itself: a drawing's own, a picture's at 300 dots an inch. */
function naturalSize(content: FigureContent): Size {
  switch (content.kind) {
    case 'drawing':
      return { width: content.drawing.widthPoints, height: content.drawing.heightPoints };
    case 'picture': {
      const scale = POINTS_PER_INCH / PRINT_DOTS_PER_INCH;
      return { width: content.widthPixels * scale, height: content.heightPixels * scale };
    }
    default:
      return assertNever(content);
  }
}

/** A column and the scale at which a figure stands in it. */
interface Stand {
  readonly column: Column;
  readonly scale: number;
  /** Where a caption may stand beside the figure. */
  readonly side: Column | undefined;
  /** Where it stands when it must become smaller, so that its edges stay those of a column. */
  readonly narrower?: Column;
}

/** Largest scale at which a figure of a role may be as wide as a column and as high as a page. */
function scaleIn(block: Figure, width: number, setting: Setting): number {
  const { figure } = setting.style;
  const natural = naturalSize(block.content);
  if (natural.width <= 0 || natural.height <= 0) return 1;
  const share = block.size === 'cover' ? figure.coverHeightShare : HIGHEST_SHARE;
  const own = natural.width * (block.content.kind === 'drawing' ? figure.naturalScale : 1);
  const saved = block.content.kind === 'picture' && block.size !== 'cover';
  const room = saved ? width * figure.photographShare : width;
  const wanted = block.size === 'natural' ? Math.min(own, room) : room;
  const scale = Math.min(wanted / natural.width, (setting.pageHeight * share) / natural.height);
  return block.content.kind === 'drawing' ? Math.min(scale, figure.largestDrawingScale) : scale;
}

/**
 * The whole width where the figure fills it, else the text column, so that its edge is the text's. A
 * small figure stands in the text column, and its caption then has the side column.
 */
function standOf(block: Figure, area: Area, setting: Setting): Stand {
  const { text, wide } = area;
  const side = text.x > wide.x ? { x: wide.x, width: setting.style.side.width } : undefined;
  const natural = naturalSize(block.content);
  const inText = (width: number): Stand => {
    const column = { x: text.x, width };
    return { column, scale: scaleIn(block, width, setting), side };
  };
  if (block.size === 'half') return inText(text.width * HALF_SHARE);
  const scale = scaleIn(block, wide.width, setting);
  const width = natural.width * scale;
  if (width <= text.width || (width < wide.width * FILLED && side !== undefined)) {
    return inText(text.width);
  }
  return {
    column: wide,
    scale,
    side: undefined,
    ...(side === undefined ? {} : { narrower: text }),
  };
}

function contentMark(block: Figure, x: number, scale: number, tag: number, setting: Setting): Mark {
  const { content } = block;
  const { width, height } = naturalSize(content);
  switch (content.kind) {
    case 'picture':
      return {
        kind: 'picture', x, y: 0, width: width * scale, height: height * scale, hash: content.hash, tag,
      }; // prettier-ignore
    case 'drawing':
      return {
        kind: 'drawing', x, y: 0, scale, drawing: content.drawing, language: setting.language, tag,
      }; // prettier-ignore
    default:
      return assertNever(content);
  }
}

/** Whether a figure, as large as it may be, leaves the side column free. */
export const standsInText = (block: Figure, area: Area, setting: Setting): boolean =>
  standOf(block, area, setting).column.x >= area.text.x;

/** Pictures with too few pixels for their size on paper are told of, and set all the same. */
function checkResolution(block: Figure, scale: number, setting: Setting): void {
  if (block.content.kind !== 'picture') return;
  const dots = Math.round(PRINT_DOTS_PER_INCH / scale);
  if (dots >= setting.style.figure.smallestDotsPerInch) return;
  const text = `${block.id} is printed with ${dots} dots per inch`;
  setting.trouble.push({ kind: 'picture-resolution', text, at: block.id });
}

/** How far a drawing may shrink before its smallest letters become too small. */
function leastShare(content: FigureContent, scale: number, leastPoints: number): number {
  if (content.kind !== 'drawing') return 0;
  const sizes = content.drawing.shapes.map((shape) =>
    shape.kind === 'text' ? shape.sizePoints : Infinity,
  );
  return Math.min(1, leastPoints / (Math.min(...sizes) * scale));
}

export function figureSlabs(block: Figure, area: Area, parent: number, setting: Setting): Slab[] {
  return standingSlabs(block, standOf(block, area, setting), parent, setting);
}

function standingSlabs(block: Figure, stand: Stand, parent: number, setting: Setting): Slab[] {
  const { figure, paragraphs } = setting.style;
  const { column, scale, side } = stand;
  const tag = setting.tags.add('Figure', parent, { alternative: block.alternative });
  checkResolution(block, scale, setting);
  const natural = naturalSize(block.content);
  const height = natural.height * scale;
  const share = Math.max(
    block.size === 'cover' ? figure.coverShrink : figure.shrink,
    leastShare(block.content, scale, setting.style.leastDrawnSize),
  );
  const standAt = (given: number): { readonly x: number; readonly scale: number } => {
    const own = given / Math.max(natural.height, 1e-6);
    const { narrower } = stand;
    if (given >= height * FILLED || narrower === undefined) return { x: column.x, scale: own };
    return { x: narrower.x, scale: Math.min(own, narrower.width / natural.width) };
  };
  const takes = (given: number): number => natural.height * standAt(given).scale;
  const content = (given: number): Mark[] => {
    const { x, scale: own } = standAt(given);
    return [contentMark(block, x, own, tag, setting)];
  };
  const ends = { before: figure.around, after: figure.around, anchors: [{ id: block.id }] };
  const main = (at: (given: number) => Mark[]): Slab =>
    slab(height, at(height), { ...ends, shrink: { by: height * (1 - share), at, takes } });
  if (block.caption.length === 0) return [main(content)];
  const captionTag = setting.tags.add('Caption', tag);
  const prepared = prepareText(block.caption, paragraphs.caption.type, captionTag, setting);
  const set = (place: Column): Slab[] => roleSlabs(prepared, 'caption', place, setting);
  const beside = side === undefined || block.content.kind === 'drawing' ? undefined : set(side);
  if (beside !== undefined && stackHeight(beside) <= height * share * TALLEST_SIDE_CAPTION) {
    const marks = stacked(beside);
    const drop = stackHeight(beside);
    return [main((given) => [...content(given), ...lowered(marks, takes(given) - drop)])];
  }
  const below = set(captionColumn(column, natural.width * scale));
  const after = Math.max(figure.around, paragraphs.caption.after);
  return [
    { ...main(content), after: figure.captionGap, breakAfter: FORBIDDEN },
    ...withEnds(
      below.map((each) => ({ ...each, breakBefore: FORBIDDEN })),
      { before: figure.captionGap },
      { after },
    ),
  ];
}

/** Captions are as wide as a figure of some width, and as the column under a narrow one. */
const captionColumn = (column: Column, width: number): Column =>
  width > column.width * 0.45 ? { x: column.x, width } : column;

/** Two half figures in a row stand side by side; pictures share the width so that they are level. */
export function pairSlabs(
  first: Figure,
  second: Figure,
  area: Area,
  parent: number,
  setting: Setting,
): Slab[] {
  const { side, figure } = setting.style;
  const gap = side.gutter > 0 ? side.gutter : figure.around;
  const { x } = area.wide;
  const [left, right] = pairWidths(first, second, area.wide.width - gap);
  const inHalf = (block: Figure, column: Column): Slab[] => {
    const scale = scaleIn(block, column.width, setting);
    return standingSlabs(block, { column, scale, side: undefined }, parent, setting);
  };
  const columns = [
    inHalf(first, { x, width: left }),
    inHalf(second, { x: x + left + gap, width: right }),
  ];
  return [
    slab(Math.max(...columns.map(stackHeight)), columns.flatMap(stacked), {
      before: figure.around,
      after: figure.around,
      anchors: [{ id: first.id }, { id: second.id }],
    }),
  ];
}

/** Widths in proportion to the shapes of two pictures, as far as neither becomes a strip. */
function pairWidths(first: Figure, second: Figure, width: number): [number, number] {
  const shape = (block: Figure): number => {
    const { width: wide, height: high } = naturalSize(block.content);
    return block.content.kind === 'picture' && wide > 0 && high > 0 ? wide / high : 1;
  };
  const share = shape(first) / (shape(first) + shape(second));
  const left = width * Math.min(1 - NARROWEST_OF_PAIR, Math.max(NARROWEST_OF_PAIR, share));
  return [left, width - left];
}
