/**
 * Cables and travelling stitches by rule. A crossing is written by the stitches on top, those behind
 * and the side the top ones move to: `3/2 LPC` takes three over two to the left and purls the two.
 * British forms by total width (`C6F`, `T3B`) and crossings without a lean are read as the same
 * things; there is no table of cables anywhere.
 */
import type { Crossing, Stitch } from './stitch.ts';
import { STITCH_LIMITS } from '../../base/limits.ts';

export interface CableShape {
  /** Stitches that lie on top and travel towards the lean. */
  readonly top: number;
  readonly behind: number;
  readonly middle: number;
  readonly lean: 'left' | 'right';
  readonly purl: boolean;
  readonly twisted: boolean;
}

/** `3/3 LC`, `2/1 RPC`, `2/1/2 LPC`, `1/1 LC tbl`. */
const BY_GROUPS =
  /^(\d{1,2})\/(\d{1,2})(?:\/(\d{1,2}))? ?(?:(l|r)(p)?c|(left|right)( purl)? (?:cross|cable))( tbl)?$/;

/** `c6f`, `c6b`, `t3f`, `t3b`; F holds the first stitches in front, so they move to the left. */
const BY_WIDTH = /^(c|t)(?:able |ravel )?(\d{1,2}) ?(f|b|l|r|front|back|left|right)( tbl)?$/;

/** `cross 2`, `cross 3 over 3`: where no lean is said, the first stitches lie in front. */
const BY_WORD =
  /^cross (\d{1,2})(?: over (\d{1,2}))?(?: sts)?(?: to)?(?: (left|right|front|back))?$/;

const cable = (top: number, behind: number, lean: 'left' | 'right'): CableShape => ({
  top, behind, lean, middle: 0, purl: false, twisted: false,
}); // prettier-ignore

/** The shape a spelling describes (see `spell`), or undefined where it is no cable. */
export function readCable(spelling: string): CableShape | undefined {
  const shape = readByGroups(spelling) ?? readByWidth(spelling) ?? readByWord(spelling);
  if (!shape || shape.top < 1 || shape.behind < 1) return undefined;
  return shape.top + shape.middle + shape.behind <= STITCH_LIMITS.crossing ? shape : undefined;
}

function readByGroups(spelling: string): CableShape | undefined {
  const found = BY_GROUPS.exec(spelling);
  if (!found) return undefined;
  const [, first, second, third, letter, purl, word, purlWord, twisted] = found;
  const lean = letter === 'l' || word === 'left' ? 'left' : 'right';
  return {
    ...cable(Number(first), Number(third ?? second), lean),
    middle: third === undefined ? 0 : Number(second),
    purl: purl !== undefined || purlWord !== undefined,
    twisted: twisted !== undefined,
  };
}

/** The larger half of an odd width lies on top: `T3F` is two over one. */
function readByWidth(spelling: string): CableShape | undefined {
  const found = BY_WIDTH.exec(spelling);
  if (!found) return undefined;
  const [, kind, width, side, twisted] = found;
  const total = Number(width);
  const lean = /^[fl]/.test(side ?? '') ? 'left' : 'right';
  return {
    ...cable(Math.ceil(total / 2), Math.floor(total / 2), lean),
    purl: kind === 't',
    twisted: twisted !== undefined,
  };
}

function readByWord(spelling: string): CableShape | undefined {
  const found = BY_WORD.exec(spelling);
  if (!found) return undefined;
  const [, first, second, side] = found;
  const lean = side === 'right' || side === 'back' ? 'right' : 'left';
  const count = Number(first);
  if (second !== undefined) return cable(count, Number(second), lean);
  return cable(Math.ceil(count / 2), Math.floor(count / 2), lean);
}

/** The canonical name: `2/1/2 LPC tbl`. */
export function nameCable(shape: CableShape): string {
  const groups =
    shape.middle > 0 ? [shape.top, shape.middle, shape.behind] : [shape.top, shape.behind];
  const side = `${shape.lean === 'left' ? 'L' : 'R'}${shape.purl ? 'P' : ''}C`;
  return `${groups.join('/')} ${side}${shape.twisted ? ' tbl' : ''}`;
}

/** The entry of any crossing; it keeps the count. */
export function cableStitch(shape: CableShape): Stitch {
  const width = shape.top + shape.middle + shape.behind;
  const toLeft = shape.lean === 'left';
  const crossing: Crossing = {
    left: toLeft ? shape.top : shape.behind,
    right: toLeft ? shape.behind : shape.top,
    lean: shape.lean,
    purlBehind: shape.purl,
    twisted: shape.twisted,
    ...(shape.middle > 0 && { middle: shape.middle }),
  };
  return {
    name: nameCable(shape),
    family: 'cable',
    takes: width,
    makes: width,
    lean: shape.lean,
    face: shape.purl ? 'mixed' : 'knit',
    counted: false,
    symbol: 'crossing',
    crossing,
  };
}

const TWISTED_AND_THREE = [
  '1/1 lc tbl', '1/1 rc tbl', '1/1 lpc tbl', '1/1 rpc tbl',
  '1/1/1 lc', '1/1/1 rc', '2/1/2 lpc', '2/1/2 rpc', '2/2/2 lc', '2/2/2 rc',
]; // prettier-ignore

/** The cables that aran and lace patterns use most, for glossaries, keys and tests. */
export function usualCables(): readonly Stitch[] {
  const knit = ['1/1', '1/2', '2/1', '2/2', '2/3', '3/2', '3/3', '3/4', '4/3', '4/4', '5/5', '6/6'];
  const purled = ['1/1', '1/2', '2/1', '2/2', '2/3', '3/1', '3/2', '3/3', '4/1'];
  const names = [
    ...knit.flatMap((width) => [`${width} lc`, `${width} rc`]),
    ...purled.flatMap((width) => [`${width} lpc`, `${width} rpc`]),
    ...TWISTED_AND_THREE,
  ];
  return names.flatMap((name) => {
    const shape = readCable(name);
    return shape ? [cableStitch(shape)] : [];
  });
}
