/**
 * Paints glyph runs exactly where layout put them: kerning, marks and the gaps between words become
 * the numbers of one `TJ` operator (ISO 32000-1, 9.4.3). Right-to-left runs are painted in the order of
 * the text, each glyph moved to its place, because readers of tagged PDF take text in painting order.
 */
import { BrokenInvariant } from '../../base/assert.ts';
import type { Run } from '../fonts/face.ts';
import type { Canvas } from './canvas.ts';
import { number, numbers } from './operators.ts';
import type { FontInUse } from './resources.ts';

/** A run at its place; `upright` is -1 where the canvas is drawn upside down. */
export interface PlacedRun {
  readonly run: Run;
  readonly x: number;
  readonly y: number;
  readonly sizePoints: number;
  readonly colour: string;
}

/** Gaps wider than this many ems start a new line of text. */
const WIDEST_GAP = 3;

const CODES: string[] = [];
const codeText = (code: number): string => (CODES[code] ??= code.toString(16).padStart(4, '0'));

/** A text object with all runs; neighbours on one baseline share an operator. */
export function paintRuns(
  canvas: Canvas,
  runs: readonly PlacedRun[],
  fontOf: (face: string) => FontInUse,
  upright: 1 | -1 = 1,
): void {
  canvas.add('BT');
  let line: TextLine | undefined;
  for (const placed of runs) {
    if (!line?.takes(placed)) {
      line?.close();
      line = new TextLine(canvas, placed, fontOf(placed.run.face), upright);
    }
    line.paint(placed);
  }
  line?.close();
  canvas.add('ET');
}

/** Layout tells of such text before anything is painted, and the press does not go on. */
const missingGlyph = (run: Run): BrokenInvariant =>
  new BrokenInvariant(`no face has a character of “${run.text}”`);

class TextLine {
  readonly #canvas: Canvas;
  readonly #first: PlacedRun;
  readonly #font: FontInUse;
  /** Items of the array: codes in brackets, and moves. */
  #items = '';
  #codes = '';
  /** Where the next glyph would land, in thousandths of an em from the start. */
  #pen = 0;
  #rise = 0;

  constructor(canvas: Canvas, first: PlacedRun, font: FontInUse, upright: 1 | -1) {
    this.#canvas = canvas;
    this.#first = first;
    this.#font = font;
    canvas.fill(first.colour);
    canvas.font(font.name, first.sizePoints);
    canvas.add(`${numbers(1, 0, 0, upright, first.x, first.y)} Tm`);
  }

  takes({ run, x, y, sizePoints, colour }: PlacedRun): boolean {
    const first = this.#first;
    const same = run.face === first.run.face && sizePoints === first.sizePoints;
    if (!same || y !== first.y || colour !== first.colour) return false;
    const gap = this.#offset(x) - this.#pen;
    return Math.abs(gap) < WIDEST_GAP * 1000;
  }

  #offset(x: number): number {
    return ((x - this.#first.x) * 1000) / this.#first.sizePoints;
  }

  paint({ run, x }: PlacedRun): void {
    const start = this.#offset(x);
    let pen = start + (run.direction === 'rtl' ? run.width : 0);
    for (const glyph of run.glyphs) {
      if (glyph.id === 0) throw missingGlyph(run);
      if (run.direction === 'rtl') pen -= glyph.advance;
      this.#raise(glyph.yOffset);
      this.#moveTo(pen + glyph.xOffset);
      const code = this.#font.subset.code(glyph);
      this.#codes += codeText(code);
      this.#pen += this.#font.subset.advances[code] ?? 0;
      if (run.direction === 'ltr') pen += glyph.advance;
    }
  }

  /** Moves by whole thousandths; what is left over is kept in the pen and never adds up. */
  #moveTo(place: number): void {
    const move = Math.round(place - this.#pen);
    if (move === 0) return;
    this.#flushCodes();
    this.#items += -move;
    this.#pen += move;
  }

  #raise(yOffset: number): void {
    if (yOffset === this.#rise) return;
    this.#show();
    this.#rise = yOffset;
    this.#canvas.add(`${number((yOffset * this.#first.sizePoints) / 1000)} Ts`);
  }

  #flushCodes(): void {
    if (this.#codes !== '') this.#items += `<${this.#codes}>`;
    this.#codes = '';
  }

  #show(): void {
    this.#flushCodes();
    if (this.#items !== '') this.#canvas.add(`[${this.#items}]TJ`);
    this.#items = '';
  }

  close(): void {
    this.#show();
    if (this.#rise !== 0) this.#canvas.add('0 Ts');
  }
}
