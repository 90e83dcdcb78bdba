/**
 * What the breaker chooses between: atoms, the stretches of a paragraph between two places where a
 * line may end. An atom knows its width, the space after it that is lost at a line's end, and the cost
 * of ending a line there. Words wider than the measure are cut between characters, so that lines of
 * any measure exist for any text.
 */
import type { Setting } from '../setting.ts';
import type { Hyphenation } from '../style.ts';
import type { Stretch } from './flat-text.ts';
import type { Shaped } from './measuring.ts';
import { hyphenPositions } from './hyphens.ts';
import { blankAtEnd, blankAtStart, hasSquareSigns } from './square-signs.ts';
import { isSpace, type Piece, type Prepared, widthUpTo } from './pieces.ts';

export interface Atom {
  readonly start: number;
  /** End of what is seen; the space after it is not part of the atom. */
  readonly end: number;
  readonly width: number;
  /** How much the spaces inside may grow and shrink. */
  readonly stretch: number;
  readonly shrink: number;
  /** Space between this atom and the next on the same line. */
  readonly space: number;
  readonly spaceStretch: number;
  readonly spaceShrink: number;
  /** Width of the hyphen that ending a line here adds. */
  readonly hyphenWidth: number;
  /** Blank halves of signs that stand outside where a line begins or ends here. */
  readonly startBlank: number;
  readonly endBlank: number;
  readonly hyphen: 'none' | 'added' | 'present';
  readonly cost: number;
  readonly forced: boolean;
  /** One character of a word that was too wide for the measure. */
  readonly cut: boolean;
}

export interface AtomOptions {
  /** The narrowest line: wider atoms are cut. */
  readonly measure: number;
  readonly hyphenation: Hyphenation;
}

const PLAIN_HYPHEN = '-';

/** Costs as in TeX: 50 for a hyphen in prose, more where it is meant to be rare. */
const HYPHEN_COST: Readonly<Record<Hyphenation, number>> = { none: 0, sparing: 250, usual: 50 };
const PRESENT_HYPHEN_COST = 25;
const SPARE_COST = 300;
const CUT_COST = 2000;

/** Spaces grow by a half and shrink by a sixth; squares part by a twentieth. */
const SPACE_STRETCH = 0.5;
const SPACE_SHRINK = 0.18;
const SQUARE_STRETCH = 0.05;
const SQUARE = /[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\u3000-\u303f\uff00-\uffef]/u;
/** A hyphened edge may come out wider than its parts by the kerning they lost. */
const KERNING_ROOM = 0.25;

interface Cut {
  readonly position: number;
  readonly cost: number;
  readonly hyphen: Atom['hyphen'];
  readonly forced: boolean;
}

interface Extent {
  readonly width: number;
  readonly space: number;
  readonly startBlank: number;
  readonly endBlank: number;
}

/** Measures parts of a prepared paragraph; positions must be asked for in order. */
class Measurer {
  #at = 0;
  readonly #pieces: readonly Piece[];
  readonly #signs: boolean;

  constructor({ pieces, flat }: Prepared) {
    this.#pieces = pieces;
    this.#signs = hasSquareSigns(flat.text);
  }

  /** Width of everything from `start` to `end`, how much of it is space, and blanks at its ends. */
  measure(start: number, end: number): Extent {
    let width = 0;
    let space = 0;
    let startBlank = 0;
    let endBlank = 0;
    while (this.#at > 0 && (this.#pieces[this.#at]?.start ?? Infinity) > start) this.#at--;
    while ((this.#pieces[this.#at]?.end ?? Infinity) <= start) this.#at++;
    for (let index = this.#at; index < this.#pieces.length; index++) {
      const piece = this.#pieces[index] as Piece;
      if (piece.start >= end) break;
      const part = widthUpTo(piece, end - piece.start) - widthUpTo(piece, start - piece.start);
      width += part;
      if (piece.kind === 'space') space += part;
      if (this.#signs && piece.start === start) startBlank = blankAtStart(piece);
      if (this.#signs && piece.end === end) endBlank = blankAtEnd(piece);
    }
    return { width, space, startBlank, endBlank };
  }
}

export function stretchAt(stretches: readonly Stretch[], position: number): Stretch | undefined {
  return stretches.find(({ start, end }) => start <= position && position < end);
}

export function hyphenShape(stretch: Stretch, setting: Setting, level: number): Shaped {
  return setting.measuring.shape(PLAIN_HYPHEN, stretch.style, level);
}

const HAN = /\p{Script=Han}/u;
const HIRAGANA = /\p{Script=Hiragana}/u;
const KATAKANA = /[\p{Script=Katakana}ー]/u;

/**
 * Japanese may break anywhere and reads better between words: a new one begins most often where kana
 * gives way to Han. Endings in hiragana and words in katakana are better left whole.
 */
function squareCost(before: string, after: string): number {
  if (before < '\u3040') return 0;
  if (KATAKANA.test(before) && KATAKANA.test(after)) return 80;
  if (HIRAGANA.test(after) && (HIRAGANA.test(before) || HAN.test(before))) return 40;
  return HAN.test(before) && HAN.test(after) ? 30 : 0;
}

/** All cuts of a paragraph in order: opportunities, and hyphens inside words. */
function cutsOf(prepared: Prepared, hyphenation: Hyphenation): Cut[] {
  const { flat, pieces, opportunities } = prepared;
  const found: Cut[] = opportunities.usual.map(({ position, forced }) => {
    const before = flat.text[position - 1] ?? '';
    const soft = before === '\u00ad';
    const dash = /[-‐–—]/u.test(before) && position < flat.text.length;
    const hyphen = soft ? 'added' : dash ? 'present' : 'none';
    const inWord = squareCost(before, flat.text[position] ?? '');
    const cost = soft ? HYPHEN_COST.usual : dash ? PRESENT_HYPHEN_COST : inWord;
    return { position, cost, hyphen, forced };
  });
  if (hyphenation === 'none') return found;
  for (const piece of pieces) {
    if (piece.kind !== 'word' || !piece.stretch.hyphenates) continue;
    if (flat.unbroken.some(({ start, end }) => start <= piece.start && piece.end <= end)) continue;
    const text = flat.text.slice(piece.start, piece.end);
    for (const offset of hyphenPositions(text, piece.stretch.style.language)) {
      const position = piece.start + offset;
      found.push({ position, cost: HYPHEN_COST[hyphenation], hyphen: 'added', forced: false });
    }
  }
  return found.sort((a, b) => a.position - b.position);
}

/** Sums of the same widths in another order differ by less than this. */
export const HAIR = 0.001;

const fits = (atom: Atom, measure: number): boolean =>
  atom.width + atom.hyphenWidth <= measure + HAIR;

/** Atoms of a prepared paragraph for lines no narrower than the measure. */
export function atomsOf(prepared: Prepared, options: AtomOptions, setting: Setting): Atom[] {
  const measurer = new Measurer(prepared);
  const atoms: Atom[] = [];
  let start = 0;
  for (const cut of cutsOf(prepared, options.hyphenation)) {
    if (cut.position === start && !cut.forced) continue;
    const atom = atomBetween(prepared, start, cut, measurer, setting);
    start = cut.position;
    if (fits(atom, options.measure)) atoms.push(atom);
    else atoms.push(...cutApart(prepared, atom, options.measure, measurer));
  }
  return atoms;
}

function atomBetween(
  { flat }: Prepared,
  start: number,
  cut: Cut,
  measurer: Measurer,
  setting: Setting,
): Atom {
  let end = cut.position;
  while (end > start && /[\s\u2028]/u.test(flat.text[end - 1] as string)) end--;
  const seen = measurer.measure(start, end);
  const after = measurer.measure(end, cut.position);
  const touching = end === cut.position && SQUARE.test(flat.text[end - 1] ?? '');
  const size = stretchAt(flat.stretches, Math.max(start, end - 1))?.size ?? 0;
  return {
    start,
    end,
    ...boxOf(seen),
    space: after.width,
    spaceStretch: touching ? size * SQUARE_STRETCH : after.space * SPACE_STRETCH,
    spaceShrink: after.space * SPACE_SHRINK,
    hyphenWidth: cut.hyphen === 'added' ? hyphenWidth(flat.stretches, end, setting) : 0,
    hyphen: cut.hyphen,
    cost: cut.cost,
    forced: cut.forced,
    cut: false,
  };
}

const boxOf = ({ width, space, startBlank, endBlank }: Extent) => ({
  width,
  stretch: space * SPACE_STRETCH,
  shrink: space * SPACE_SHRINK,
  startBlank,
  endBlank,
});

function hyphenWidth(stretches: readonly Stretch[], end: number, setting: Setting): number {
  const stretch = stretchAt(stretches, end - 1);
  if (stretch === undefined) return 0;
  const { width } = hyphenShape(stretch, setting, 0);
  return (width * stretch.size) / 1000 + KERNING_ROOM;
}

/** Cuts an atom where our own rules kept it together, and where that is not enough, anywhere. */
function cutApart(prepared: Prepared, atom: Atom, measure: number, measurer: Measurer): Atom[] {
  const { flat, opportunities } = prepared;
  const inside = opportunities.spare.filter((place) => atom.start < place && place < atom.end);
  return partsOf(flat.text, atom, inside, { cut: false, cost: SPARE_COST }, measurer).flatMap(
    (part) => {
      if (fits(part, measure)) return [part];
      const places = characterPlaces(flat.text, part);
      const characters = partsOf(flat.text, part, places, { cut: true, cost: CUT_COST }, measurer);
      return characters.map((each) => (fits(each, measure) ? each : { ...each, ...NO_HYPHEN }));
    },
  );
}

const NO_HYPHEN = { hyphen: 'none', hyphenWidth: 0 } as const;

/** Places between characters; marks and joined signs stay with what they stand on. */
function characterPlaces(text: string, { start, end }: Atom): number[] {
  const characters = text.slice(start, end).matchAll(/\P{M}(?:[\p{M}\ufe0f]|\u200d\P{M})*/gsu);
  return [...characters].map((match) => start + match.index).filter((place) => place > start);
}

/** The parts of an atom between places inside it; the last keeps what the atom ended with. */
function partsOf(
  text: string,
  atom: Atom,
  places: readonly number[],
  ending: { readonly cut: boolean; readonly cost: number },
  measurer: Measurer,
): Atom[] {
  const starts = [atom.start, ...places];
  return starts.map((start, index) => {
    const next = starts[index + 1];
    let end = next ?? atom.end;
    if (next !== undefined) while (end > start + 1 && isSpace(text[end - 1] as string)) end--;
    const seen = measurer.measure(start, end);
    const inner = {
      start,
      end,
      ...boxOf(seen),
      cut: ending.cut,
    };
    if (next === undefined) return { ...atom, ...inner };
    const space = measurer.measure(end, next).width;
    return {
      ...atom,
      ...inner,
      ...NO_HYPHEN,
      space,
      spaceStretch: space * SPACE_STRETCH,
      spaceShrink: space * SPACE_SHRINK,
      cost: ending.cost,
      forced: false,
    };
  });
}
