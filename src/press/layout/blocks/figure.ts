/**
 * Pictures and drawings at the size their role gives, always whole: scaled to the column, no higher
 * than the page leaves, drawings hardly above their own size. A figure may become somewhat smaller to
 * stay on the page of its text. The caption stays below it.
 */
import { assertNever } from '../../../base/assert.ts';
import type { Block, FigureContent } from '../../document.ts';
import type { Mark } from '../frames.ts';
import type { Area, Column, Setting } from '../setting.ts';
import { FORBIDDEN, slab, type Slab, stacked, stackHeight, withEnds } from '../slab.ts';
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

/** Scale that makes a figure as large as its role wants and its place allows. */
function wantedScale(block: Figure, column: Column, setting: Setting): number {
  const { figure } = setting.style;
  const natural = naturalSize(block.content);
  if (natural.width <= 0 || natural.height <= 0) return 1;
  const wanted: Record<Figure['size'], number> = {
    cover: column.width,
    full: column.width,
    half: column.width,
    natural: Math.min(natural.width, column.width),
  };
  const share = block.size === 'cover' ? figure.coverHeightShare : HIGHEST_SHARE;
  const scale = Math.min(
    wanted[block.size] / natural.width,
    (setting.pageHeight * share) / natural.height,
  );
  return block.content.kind === 'drawing' ? Math.min(scale, figure.largestDrawingScale) : scale;
}

/** The column a figure stands in: half of the width, the text's, or all of it. */
function columnOf(block: Figure, area: Area): Column {
  if (block.size === 'half') {
    return { x: area.text.x, width: area.text.width * 0.62 };
  }
  if (block.size !== 'natural') return area.wide;
  return naturalSize(block.content).width <= area.text.width ? area.text : area.wide;
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

/** Pictures with too few pixels for their size on paper are told of, and set all the same. */
function checkResolution(block: Figure, scale: number, setting: Setting): void {
  if (block.content.kind !== 'picture') return;
  const dots = Math.round(PRINT_DOTS_PER_INCH / scale);
  if (dots >= setting.style.figure.smallestDotsPerInch) return;
  setting.trouble.push({ kind: 'picture-resolution', text: `${block.id}: ${dots}` });
}

export function figureSlabs(block: Figure, area: Area, parent: number, setting: Setting): Slab[] {
  return figureInColumn(block, columnOf(block, area), parent, setting);
}

function figureInColumn(block: Figure, column: Column, parent: number, setting: Setting): Slab[] {
  const { figure, paragraphs } = setting.style;
  const tag = setting.tags.add('Figure', parent, { alternative: block.alternative });
  const scale = wantedScale(block, column, setting);
  checkResolution(block, scale, setting);
  const { height } = naturalSize(block.content);
  const share = block.size === 'cover' ? figure.coverShrink : figure.shrink;
  const at = (given: number): Mark[] => [
    contentMark(block, column.x, given / Math.max(height, 1e-6), tag, setting),
  ];
  const main = slab(height * scale, at(height * scale), {
    before: figure.around,
    after: figure.around,
    shrink: { by: height * scale * (1 - share), at },
    anchors: [{ id: block.id }],
  });
  if (block.caption.length === 0) return [main];
  const caption = roleSlabs(
    block.caption, 'caption', captionColumn(column, block, scale), setting.tags.add('Caption', tag), setting,
  ).map((each) => ({ ...each, breakBefore: FORBIDDEN })); // prettier-ignore
  return [
    { ...main, after: figure.captionGap, breakAfter: FORBIDDEN },
    ...withEnds(
      caption,
      { before: figure.captionGap },
      { after: Math.max(figure.around, paragraphs.caption.after) },
    ),
  ];
}

/** Captions are as wide as a figure of some width, and as the column under a narrow one. */
function captionColumn(column: Column, block: Figure, scale: number): Column {
  const width = naturalSize(block.content).width * scale;
  return width > column.width * 0.45 ? { x: column.x, width } : column;
}

/** Two half figures in a row stand side by side, tops in line. */
export function pairSlabs(
  first: Figure,
  second: Figure,
  area: Area,
  parent: number,
  setting: Setting,
): Slab[] {
  const gap =
    setting.style.side.gutter > 0 ? setting.style.side.gutter : setting.style.figure.around;
  const width = (area.wide.width - gap) / 2;
  const columns = [
    figureInColumn(first, { x: area.wide.x, width }, parent, setting),
    figureInColumn(second, { x: area.wide.x + width + gap, width }, parent, setting),
  ];
  const marks = columns.flatMap(stacked);
  const { around } = setting.style.figure;
  return [
    slab(Math.max(...columns.map(stackHeight)), marks, {
      before: around,
      after: around,
      anchors: [{ id: first.id }, { id: second.id }],
    }),
  ];
}
