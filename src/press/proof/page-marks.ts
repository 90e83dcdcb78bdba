/**
 * What a page paints, from the reader's list of operators: for each piece of marked content its text,
 * glyph by glyph as the file maps it, and the box it covers. Coordinates are the page's own, y up. Text
 * is taken in the order of painting, never guessed from gaps, so that a lost space is a difference.
 */
import { type Matrix, multiply, transformBox, UNIT } from './matrix.ts';

/** Left, bottom, right, top. */
export type Box = readonly [number, number, number, number];

export interface Painted {
  text: string;
  box: Box | undefined;
  picture: { readonly width: number; readonly height: number } | undefined;
  /** Size of the smallest type, in points. */
  smallestType: number;
}

const nothing = (): Painted => ({
  text: '',
  box: undefined,
  picture: undefined,
  smallestType: Infinity,
});

export interface PageMarks {
  /** By marked-content number. */
  readonly tagged: ReadonlyMap<number, Painted>;
  readonly furniture: readonly Painted[];
  /** Text outside of any marked content. */
  readonly stray: string;
}

interface OperatorList {
  readonly fnArray: readonly number[];
  readonly argsArray: readonly unknown[];
}

/** Above and below the baseline, in sizes of the type: enough for capitals, marks and tails. */
const ASCENT = 0.8;
const DESCENT = 0.22;

export function joinBoxes(a: Box | undefined, b: Box | undefined): Box | undefined {
  if (a === undefined || b === undefined) return a ?? b;
  return [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.max(a[2], b[2]), Math.max(a[3], b[3])];
}

/** Signs of Japanese and Chinese that fill one half of their square; the blank half may stand outside. */
const INK_FIRST = /[、。，．）」』】〕］｝〉》]$/u;
const INK_LAST = /^[（「『【〔［｛〈《]/u;

/** From where to where a glyph has ink, about; nothing for spaces. */
function inkOf(text: string, start: number, end: number): readonly [number, number] | undefined {
  if (text.trim() === '') return undefined;
  const middle = (start + end) / 2;
  if (INK_FIRST.test(text)) return [start, middle];
  return INK_LAST.test(text) ? [middle, end] : [start, end];
}

/** A glyph as the reader gives it; a number in its place moves the pen, in thousandths. */
type Shown = number | { readonly unicode: string; readonly width: number };

/** Graphics and text state (ISO 32000-1, 8.4 and 9.3); what our own pages use, and the usual rest. */
interface State {
  readonly matrix: Matrix;
  readonly fontSize: number;
  readonly rise: number;
}

class PageReader {
  readonly tagged = new Map<number, Painted>();
  readonly furniture: Painted[] = [];
  readonly stray = nothing();
  #state: State = { matrix: UNIT, fontSize: 0, rise: 0 };
  readonly #saved: State[] = [];
  readonly #open: Painted[] = [];
  #text: Matrix = UNIT;
  #line: Matrix = UNIT;
  /** A picture that was left out shows as a state that is moved and returns with nothing painted. */
  #moved = false;

  readonly operators: Readonly<Record<string, (values: readonly unknown[]) => void>> = {
    save: () => this.#save(),
    restore: () => this.#restore(),
    transform: (values) => this.#transform(values as Matrix),
    paintFormXObjectBegin: ([matrix]) => {
      this.#save();
      if (matrix) this.#transform(Array.from(matrix as Iterable<number>) as unknown as Matrix);
    },
    paintFormXObjectEnd: () => this.#restore(),
    setFont: ([, size]) => (this.#state = { ...this.#state, fontSize: size as number }),
    setTextRise: ([rise]) => (this.#state = { ...this.#state, rise: rise as number }),
    beginText: () => (this.#text = this.#line = UNIT),
    setTextMatrix: ([matrix]) =>
      (this.#text = this.#line = Array.from(matrix as Iterable<number>) as unknown as Matrix),
    moveText: ([x, y]) =>
      (this.#text = this.#line = multiply([1, 0, 0, 1, x as number, y as number], this.#line)),
    showText: ([glyphs]) => this.#show(glyphs as readonly Shown[]),
    constructPath: ([, , extent]) => this.#path(extent),
    beginMarkedContent: () => this.#open.push(this.#current()),
    beginMarkedContentProps: ([role, number]) => this.#begin(role, number),
    endMarkedContent: () => void this.#open.pop(),
  };

  #current(): Painted {
    return this.#open.at(-1) ?? this.stray;
  }

  #begin(role: unknown, number: unknown): void {
    if (typeof number === 'number') {
      const known = this.tagged.get(number);
      const piece = known ?? nothing();
      this.tagged.set(number, piece);
      this.#open.push(piece);
    } else if (role === 'Artifact') {
      const piece = nothing();
      this.furniture.push(piece);
      this.#open.push(piece);
    } else this.#open.push(this.#current());
  }

  #save(): void {
    this.#saved.push(this.#state);
    this.#moved = false;
  }

  #restore(): void {
    if (this.#moved) {
      const box = transformBox([0, 0, 1, 1], this.#state.matrix);
      this.#cover(box);
      this.#current().picture = { width: box[2] - box[0], height: box[3] - box[1] };
    }
    this.#moved = false;
    this.#state = this.#saved.pop() ?? this.#state;
  }

  #transform(matrix: Matrix): void {
    this.#state = { ...this.#state, matrix: multiply(matrix, this.#state.matrix) };
    this.#moved = true;
  }

  #cover(box: Box): void {
    const piece = this.#current();
    piece.box = joinBoxes(piece.box, box);
  }

  #path(extent: unknown): void {
    this.#moved = false;
    if (!extent) return;
    const [left = 0, bottom = 0, right = 0, top = 0] = Array.from(extent as Iterable<number>);
    if (left <= right) this.#cover(transformBox([left, bottom, right, top], this.#state.matrix));
  }

  #show(glyphs: readonly Shown[]): void {
    const { matrix, fontSize, rise } = this.#state;
    const piece = this.#current();
    this.#moved = false;
    let pen = 0;
    let [inkStart, inkEnd] = [Infinity, -Infinity];
    for (const glyph of glyphs) {
      if (typeof glyph === 'number') {
        pen -= (glyph * fontSize) / 1000;
        continue;
      }
      const end = pen + (glyph.width * fontSize) / 1000;
      const ink = inkOf(glyph.unicode, pen, end);
      if (ink) [inkStart, inkEnd] = [Math.min(inkStart, ...ink), Math.max(inkEnd, ...ink)];
      piece.text += glyph.unicode;
      pen = end;
    }
    if (inkStart <= inkEnd) {
      const ink: Box = [inkStart, rise - fontSize * DESCENT, inkEnd, rise + fontSize * ASCENT];
      const placed = multiply(this.#text, matrix);
      this.#cover(transformBox(ink, placed));
      // How high an upright letter of one point comes out.
      const type = fontSize * Math.hypot(placed[2], placed[3]);
      piece.smallestType = Math.min(piece.smallestType, type);
    }
    this.#text = multiply([1, 0, 0, 1, pen, 0], this.#text);
  }
}

/** `codes` names the reader's operators. */
export function readMarks(list: OperatorList, codes: Readonly<Record<string, number>>): PageMarks {
  const reader = new PageReader();
  const byCode = new Map(
    Object.entries(reader.operators).map(([name, operator]) => [codes[name], operator]),
  );
  list.fnArray.forEach((code, index) => {
    byCode.get(code)?.((list.argsArray[index] ?? []) as readonly unknown[]);
  });
  return { tagged: reader.tagged, furniture: reader.furniture, stray: reader.stray.text };
}
