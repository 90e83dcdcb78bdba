/**
 * The door to lines: inline content in, set lines out. Everything that holds text (paragraphs, labels,
 * cells, captions, footers) comes through here, once to be measured and once for each measure tried.
 */
import type { Inline } from '../../document.ts';
import type { TagRef } from '../frames.ts';
import type { Setting } from '../setting.ts';
import type { Hyphenation, TypeStyle } from '../style.ts';
import { type Atom, atomsOf, HAIR } from './atoms.ts';
import { flatten } from './flat-text.ts';
import { loosestLine, type Measure, optimalBreaks } from './optimal-breaks.ts';
import { prepare, type Prepared } from './pieces.ts';
import { type LinePlace, setLine, type SetLine } from './set-line.ts';
import { blankAtEnd, blankAtStart } from './square-signs.ts';
import { unitsOf } from './units.ts';

export interface LineOptions {
  readonly x: number;
  readonly width: number;
  readonly size: number;
  readonly align?: LinePlace['align'];
  readonly justified?: boolean;
  readonly hyphenation?: Hyphenation;
  readonly firstIndent?: number;
  readonly lastReserve?: number;
}

/** Looser lines than this call for hyphens, as the first pass of TeX does. */
const LOOSE_ENOUGH: Readonly<Record<'sparing' | 'usual', number>> = { sparing: 1.3, usual: 0.7 };
/** A line made smaller than this to stay inside is reported. */
const UNSEEN_SCALE = 0.98;

/** Flattens and shapes content once. */
export function prepareText(
  content: readonly Inline[],
  look: TypeStyle,
  tag: TagRef,
  setting: Setting,
): Prepared {
  return prepare(flatten(content, look, tag, setting), setting);
}

/** Sets prepared text in lines of one width; no lines where there is no text. */
export function setLines(prepared: Prepared, options: LineOptions, setting: Setting): SetLine[] {
  if (prepared.pieces.length === 0) return [];
  const { size, justified = false, firstIndent = 0, lastReserve = 0 } = options;
  const measure = Math.max(1, options.width);
  const { atoms, ends } = chooseLines(
    prepared,
    { width: measure, firstIndent, lastReserve, justified, size },
    options.hyphenation ?? 'none',
    setting,
  );
  reportCuts(prepared, atoms, setting);
  return ends.map((end, line) => {
    const from = ends[line - 1] ?? 0;
    const units = unitsOf(prepared, atoms, from, end, setting);
    const indent = line === 0 ? firstIndent : 0;
    const { startBlank } = atoms[from] as Atom;
    const last = atoms[end - 1] as Atom;
    const set = setLine(units, {
      x: options.x + indent,
      room: measure - indent,
      startBlank,
      endBlank: last.endBlank,
      align: options.align ?? 'start',
      fill: justified && !last.forced,
      direction: prepared.flat.direction,
      openings: openingsOf(atoms, from, end),
    });
    if (set.scale < UNSEEN_SCALE) {
      const text = prepared.flat.text.slice((atoms[from] as Atom).start, last.end);
      setting.trouble.push({ kind: 'overflow', text });
    }
    return set;
  });
}

interface ChosenLines {
  readonly atoms: readonly Atom[];
  readonly ends: readonly number[];
}

/** Lines without hyphens where they are good enough, as most are; else with them. */
function chooseLines(
  prepared: Prepared,
  measure: Measure,
  hyphenation: Hyphenation,
  setting: Setting,
): ChosenLines {
  const narrowest = Math.max(1, measure.width - measure.firstIndent);
  if (fitsOneLine(prepared, narrowest - measure.lastReserve)) {
    return { atoms: [wholeAtom(prepared)], ends: [1] };
  }
  const choose = (allowed: Hyphenation): ChosenLines => {
    const atoms = atomsOf(prepared, { measure: narrowest, hyphenation: allowed }, setting);
    return { atoms, ends: optimalBreaks(atoms, measure) };
  };
  const plain = choose('none');
  if (hyphenation === 'none') return plain;
  const cut = plain.atoms.some((atom) => atom.cut);
  const loosest = cut ? Infinity : loosestLine(plain.atoms, plain.ends, measure);
  return loosest <= LOOSE_ENOUGH[hyphenation] ? plain : choose(hyphenation);
}

/** Most cells and labels fit on one line, and then there is nothing to choose. */
function fitsOneLine({ pieces }: Prepared, room: number): boolean {
  let width = 0;
  for (const piece of pieces) {
    width += piece.width;
    if (width > room + HAIR || piece.kind === 'break') return false;
  }
  return true;
}

const wholeAtom = ({ flat, pieces }: Prepared): Atom => ({
  start: 0,
  end: flat.text.length,
  width: 0,
  stretch: 0,
  shrink: 0,
  space: 0,
  spaceStretch: 0,
  spaceShrink: 0,
  hyphenWidth: 0,
  startBlank: blankAtStart(pieces[0]),
  endBlank: blankAtEnd(pieces.at(-1)),
  hyphen: 'none',
  cost: 0,
  forced: true,
  cut: false,
});

const NO_OPENINGS: ReadonlySet<number> = new Set();

function openingsOf(atoms: readonly Atom[], from: number, to: number): ReadonlySet<number> {
  const open = atoms
    .slice(from, to)
    .filter(({ space, spaceStretch }) => space === 0 && spaceStretch > 0);
  return open.length === 0 ? NO_OPENINGS : new Set(open.map(({ end }) => end));
}

/** Words that no line could hold were cut: someone should look at them. */
function reportCuts(prepared: Prepared, atoms: readonly Atom[], setting: Setting): void {
  let start: number | undefined;
  let end = 0;
  for (const atom of [...atoms, undefined]) {
    if (atom?.cut === true) {
      start ??= atom.start;
      end = atom.end;
    } else if (start !== undefined) {
      setting.trouble.push({ kind: 'overflow', text: prepared.flat.text.slice(start, end) });
      start = undefined;
    }
  }
}

/** Width of the text set on as few lines as its forced breaks allow. */
export function widestWidth(prepared: Prepared): number {
  let widest = 0;
  let width = 0;
  for (const piece of prepared.pieces) {
    width = piece.kind === 'break' ? 0 : width + piece.width;
    widest = Math.max(widest, width);
  }
  return widest;
}

/** Width of the widest part that no line may break. */
export function narrowestWidth(prepared: Prepared, setting: Setting): number {
  const atoms = atomsOf(prepared, { measure: Infinity, hyphenation: 'none' }, setting);
  return Math.max(0, ...atoms.map(({ width, hyphenWidth }) => width + hyphenWidth));
}
