/**
 * Neutral drawings as PDF paths. Each symbol becomes a Form XObject that is drawn many times, so that
 * a chart of thousands of cells costs a few bytes each. Drawings count y downwards: the canvas is
 * turned over once, and text is turned back.
 */
import { assert, assertNever, present } from '../../base/assert.ts';
import { PRESS_LIMITS } from '../../base/limits.ts';
import type { Drawing, Shape } from '../drawing/drawing.ts';
import { Canvas } from './canvas.ts';
import { placeText, type TextShape } from './drawing-text.ts';
import { boundsOf } from './drawing-bounds.ts';
import { numbers, pathOperators } from './operators.ts';
import { packedStream, type PDFRef } from './objects.ts';
import { byName, type Named, type Resources } from './resources.ts';
import { paintRuns } from './text-lines.ts';

type UseShape = Extract<Shape, { kind: 'use' }>;

interface Brush {
  readonly canvas: Canvas;
  readonly resources: Resources;
  readonly symbols: Drawing['symbols'];
  readonly language: string;
  readonly depth: number;
  /** Fonts and forms named on this canvas, which a form must list as its own. */
  readonly named: { readonly fonts: Map<string, Named>; readonly forms: Map<string, Named> };
}

/** Paints a drawing on a canvas whose y already points down, with its corner at the origin. */
export function paintDrawing(
  canvas: Canvas,
  drawing: Drawing,
  language: string,
  resources: Resources,
): void {
  const brush = { canvas, resources, symbols: drawing.symbols, language, depth: 0, named: names() };
  paintShapes(brush, drawing.shapes);
}

const names = (): Brush['named'] => ({ fonts: new Map(), forms: new Map() });

function paintShapes(brush: Brush, shapes: readonly Shape[]): void {
  let uses: UseShape[] = [];
  for (const shape of shapes) {
    if (shape.kind === 'use') {
      uses.push(shape);
      continue;
    }
    if (uses.length > 0) paintUses(brush, uses);
    uses = [];
    paintMark(brush, shape);
  }
  if (uses.length > 0) paintUses(brush, uses);
}

function paintMark(brush: Brush, shape: Exclude<Shape, UseShape>): void {
  switch (shape.kind) {
    case 'path':
      return paintPath(brush.canvas, shape);
    case 'text':
      return paintText(brush, shape);
    default:
      return assertNever(shape);
  }
}

function paintPath(canvas: Canvas, path: Extract<Shape, { kind: 'path' }>): void {
  if (path.fill === undefined && path.stroke === undefined) return;
  if (path.fill !== undefined) canvas.fill(path.fill);
  if (path.stroke !== undefined) canvas.stroke(path.stroke);
  const paint = path.fill === undefined ? 'S' : path.stroke === undefined ? 'f' : 'B';
  canvas.add(`${pathOperators(path.steps)} ${paint}`);
}

function paintText(brush: Brush, shape: TextShape): void {
  const { canvas, resources, language, named } = brush;
  const runs = placeText(shape, language, resources.fonts);
  const font = (face: string) => {
    const found = resources.font(face);
    named.fonts.set(face, found);
    return found;
  };
  paintRuns(canvas, runs, font, -1);
}

/**
 * Neighbouring symbols, each moved from the one before: steps across a chart are all alike, so they
 * pack into next to nothing. Steps are taken between rounded places, so that roundings never add up.
 */
function paintUses(brush: Brush, uses: readonly UseShape[]): void {
  let operators = 'q';
  let [lastX, lastY] = [0, 0];
  for (const use of uses) {
    const [x, y] = [thousandths(use.x), thousandths(use.y)];
    const step = numbers((x - lastX) / 1000, (y - lastY) / 1000);
    operators += `\n1 0 0 1 ${step} cm/${formOf(brush, use.symbol).name} Do`;
    [lastX, lastY] = [x, y];
  }
  brush.canvas.add(`${operators}\nQ`);
}

const thousandths = (value: number): number => Math.round(value * 1000);

function formOf(brush: Brush, symbol: string): Named {
  const known = brush.named.forms.get(symbol);
  if (known) return known;
  const shapes = present(brush.symbols[symbol], `symbol ${symbol}`);
  assert(
    brush.depth < PRESS_LIMITS.symbolDepth,
    `symbol ${symbol} stands too deep in other symbols`,
  );
  const form = brush.resources.symbol(shapes, brush.language, () => symbolForm(brush, shapes));
  brush.named.forms.set(symbol, form);
  return form;
}

/** A symbol as a form of its own, in the drawing's coordinates (8.10). */
function symbolForm(outer: Brush, shapes: readonly Shape[]): PDFRef {
  const { resources, symbols, language, depth } = outer;
  const brush: Brush = { ...outer, canvas: new Canvas(), depth: depth + 1, named: names() };
  paintShapes(brush, shapes);
  const { fonts, forms } = brush.named;
  return packedStream(resources.context, brush.canvas.toString(), {
    Type: 'XObject',
    Subtype: 'Form',
    BBox: boundsOf(shapes, symbols, language, resources.fonts),
    Resources: { Font: byName(fonts), XObject: byName(forms) },
  });
}
