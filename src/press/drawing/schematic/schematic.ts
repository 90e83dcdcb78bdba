/**
 * The schematic of one piece: its outline to scale from the measurements of one size, borders shaded,
 * a dimension line with its letter for each measurement. An outline worked out elsewhere (from the
 * rows as simulated) may take the place of the one from measurements.
 */
import { assertNever } from '../../../base/assert.ts';
import type { Drawing, PathStep, Shape } from '../drawing.ts';
import { fillPath, movePath, moveShape, openPath, strokePath, type Point } from '../path.ts';
import { hat, mitten, polygonSteps, sock } from './accessory.ts';
import { drawDimension, sagOf, type Measured } from './dimension.ts';
import { body, bodyRound } from './body.ts';
import { sleeve, yoke } from './garment.ts';
import type { Border, Dimension, Lengths, Outline } from './outline.ts';
import { rectangle, trapezoid, triangle } from './plain.ts';
import type { OutlineKind } from './roles.ts';

export interface SchematicInput {
  readonly outline: OutlineKind;
  /** Inches by role, in the size that is drawn. */
  readonly lengths: Lengths;
  /** The letter of each role that is to be shown. */
  readonly letters: Readonly<Record<string, string>>;
  /**
   * The fabric's own outline in inches, y down, in the same place as the outline from measurements
   * (top left corner at 0, 0); drawn instead of it.
   */
  readonly polygon?: readonly Point[];
  /** The whole outline as it was worked out elsewhere, with its own places for the dimensions. */
  readonly drawn?: Outline;
}

export interface SchematicOptions {
  readonly maxWidthPoints: number;
  readonly maxHeightPoints: number;
  /** Points to the inch of fabric; give the same to all pieces of a pattern (`commonScale`). */
  readonly pointsPerInch?: number;
  readonly letterSizePoints?: number;
  readonly style?: Partial<SchematicStyle>;
}

export interface SchematicStyle {
  readonly ink: string;
  readonly fabric: string;
  readonly shade: string;
}

export const SCHEMATIC_STYLE: SchematicStyle = {
  ink: '#1d252b',
  fabric: '#f2f0ea',
  shade: '#a9aca8',
};

const LETTER = 9;
const EDGE = 3;
const OUTLINE_WIDTH = 1.3;
const MOST_POINTS_PER_INCH = 30;

/** The outline of a piece: as worked out elsewhere, else from its measurements. */
export function outlineOf({
  outline,
  lengths,
  drawn,
}: Pick<SchematicInput, 'outline' | 'lengths' | 'drawn'>): Outline {
  if (drawn) return drawn;
  switch (outline) {
    case 'rectangle': return rectangle(lengths); // prettier-ignore
    case 'trapezoid': return trapezoid(lengths); // prettier-ignore
    case 'triangle': return triangle(lengths); // prettier-ignore
    case 'body': return body(lengths); // prettier-ignore
    case 'bodyRound': return bodyRound(lengths); // prettier-ignore
    case 'sleeve': return sleeve(lengths); // prettier-ignore
    case 'hat': return hat(lengths); // prettier-ignore
    case 'mitten': return mitten(lengths); // prettier-ignore
    case 'sock': return sock(lengths); // prettier-ignore
    case 'yoke': return yoke(lengths); // prettier-ignore
    default: return assertNever(outline); // prettier-ignore
  }
}

type Side = Exclude<Dimension['side'], 'inside'>;

interface Levelled {
  readonly dimension: Dimension;
  readonly level: number;
}

/** Along the side: from where to where a dimension reaches. */
const reachOf = ({ from, to, side }: Dimension): readonly [number, number] => {
  const axis = side === 'left' || side === 'right' ? 1 : 0;
  return [Math.min(from[axis], to[axis]), Math.max(from[axis], to[axis])];
};

/** Short dimensions stand near the piece, longer ones further out, none on top of another. */
function levelSide(dimensions: readonly Dimension[]): Levelled[] {
  const length = (dimension: Dimension) => reachOf(dimension)[1] - reachOf(dimension)[0];
  const taken: (readonly [number, number])[][] = [];
  return dimensions
    .toSorted((a, b) => length(a) - length(b))
    .map((dimension) => {
      const [start, end] = reachOf(dimension);
      const isFree = (level: number) =>
        taken.slice(level).every((reaches) => reaches.every(([a, b]) => end <= a + 1e-6 || start >= b - 1e-6)); // prettier-ignore
      let level = 0;
      while (!isFree(level)) level += 1;
      (taken[level] ??= []).push([start, end]);
      return { dimension, level };
    });
}

interface Layout {
  readonly levelled: Readonly<Record<Side, readonly Levelled[]>>;
  readonly margins: Readonly<Record<Side, number>>;
  readonly step: number;
}

function layOut(outline: Outline, letters: SchematicInput['letters'], letterSize: number): Layout {
  const shown = outline.dimensions.filter(({ role }) => letters[role] !== undefined);
  const on = (side: Side) => levelSide(shown.filter((dimension) => dimension.side === side));
  const levelled = { above: on('above'), below: on('below'), left: on('left'), right: on('right') };
  const step = letterSize * 1.6;
  const margin = (side: Side) => {
    const levels = Math.max(-1, ...levelled[side].map(({ level }) => level)) + 1;
    const around = levelled[side].some(({ dimension }) => dimension.around) ? sagOf(Infinity) : 0;
    return EDGE + OUTLINE_WIDTH + (levels === 0 ? 0 : levels * step + letterSize * 1.2 + around);
  };
  const margins = { above: margin('above'), below: margin('below'), left: margin('left'), right: margin('right') }; // prettier-ignore
  return { levelled, margins, step };
}

/** Upright lines over a border: ribbing, as one sees it. */
function borderLines({ corners }: Border, scale: number, style: SchematicStyle): Shape {
  const [lowLeft, highLeft, highRight, lowRight] = corners;
  const width = Math.abs(highRight[0] - highLeft[0]) * scale;
  const count = Math.max(2, Math.round(width / 4.2));
  const steps: PathStep[] = [];
  for (let index = 1; index < count; index += 1) {
    const at = (left: Point, right: Point): Point => [
      (left[0] + ((right[0] - left[0]) * index) / count) * scale,
      (left[1] + ((right[1] - left[1]) * index) / count) * scale,
    ];
    steps.push(...openPath(at(lowLeft, lowRight), at(highLeft, highRight)));
  }
  const top = openPath([highLeft[0] * scale, highLeft[1] * scale], [highRight[0] * scale, highRight[1] * scale]); // prettier-ignore
  return strokePath([...steps, ...top], { widthPoints: 0.5, colour: style.shade });
}

function pieceShapes(
  input: SchematicInput,
  outline: Outline,
  scale: number,
  style: SchematicStyle,
) {
  const scaled = (steps: readonly PathStep[]) =>
    movePath(steps, ([x, y]) => [x * scale, y * scale]);
  const edge = scaled(input.polygon ? polygonSteps(input.polygon) : outline.steps);
  const details = outline.details.map(({ kind, steps }) =>
    strokePath(scaled(steps), {
      widthPoints: kind === 'edge' ? 0.9 : 0.6,
      colour: kind === 'edge' ? style.ink : style.shade,
      ...(kind === 'fold' ? { dash: [3, 2] } : { dash: [4, 2] }),
    }),
  );
  return [
    fillPath(edge, style.fabric),
    ...outline.borders.map((border) => borderLines(border, scale, style)),
    ...details,
    strokePath(edge, { widthPoints: OUTLINE_WIDTH, colour: style.ink, join: 'round' }),
  ];
}

function measuredOf(
  { dimension, level }: Levelled,
  outline: Outline,
  scale: number,
  step: number,
  letter: string,
): Measured {
  const { from, to, side } = dimension;
  const offset = step * (level + 0.9);
  const place: Record<Dimension['side'], number> = {
    above: -offset,
    below: outline.heightInches * scale + offset,
    left: -offset,
    right: outline.widthInches * scale + offset,
    inside: 0,
  };
  return {
    from: [from[0] * scale, from[1] * scale],
    to: [to[0] * scale, to[1] * scale],
    side,
    around: dimension.around ?? false,
    letter,
    place: place[side],
  };
}

/** The scale at which the piece fits its room, in points to the inch. */
export function scaleOf(input: SchematicInput, options: SchematicOptions): number {
  const outline = outlineOf(input);
  const { margins } = layOut(outline, input.letters, options.letterSizePoints ?? LETTER);
  const across = (options.maxWidthPoints - margins.left - margins.right) / outline.widthInches;
  const along = (options.maxHeightPoints - margins.above - margins.below) / outline.heightInches;
  return Math.max(0.1, Math.min(across, along, MOST_POINTS_PER_INCH));
}

/** One scale at which every piece fits the same room, so that pieces can be compared by eye. */
export const commonScale = (inputs: readonly SchematicInput[], options: SchematicOptions): number =>
  Math.min(...inputs.map((input) => scaleOf(input, options)));

export function drawSchematic(input: SchematicInput, options: SchematicOptions): Drawing {
  const style = { ...SCHEMATIC_STYLE, ...options.style };
  const letterSizePoints = options.letterSizePoints ?? LETTER;
  const outline = outlineOf(input);
  const scale = options.pointsPerInch ?? scaleOf(input, options);
  const { levelled, margins, step } = layOut(outline, input.letters, letterSizePoints);
  const inside = outline.dimensions
    .filter(({ role, side }) => side === 'inside' && input.letters[role] !== undefined)
    .map((dimension) => ({ dimension, level: 0 }));
  const dimensions = [...inside, ...Object.values(levelled).flat()].flatMap((item) =>
    drawDimension(
      measuredOf(item, outline, scale, step, input.letters[item.dimension.role] ?? ''),
      { ink: style.ink, letterSizePoints },
    ),
  );
  const shapes = [...pieceShapes(input, outline, scale, style), ...dimensions];
  return {
    widthPoints: margins.left + outline.widthInches * scale + margins.right,
    heightPoints: margins.above + outline.heightInches * scale + margins.below,
    symbols: {},
    shapes: shapes.map((shape) => moveShape(shape, margins.left, margins.above)),
  };
}
