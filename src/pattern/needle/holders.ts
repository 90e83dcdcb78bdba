/**
 * Stitches on hold, by the names a pattern gives its holders. "Place 65 sts on holder for right sleeve"
 * and "return held sts of sleeve" mean the same stitches: a name that is not used as such is matched by
 * its words. Pieces made alike leave one set each.
 */
import { type Held, type State } from './state.ts';
import { countStitches, isMark, type Strand } from './strands.ts';

type Holders = State['holders'];

/** "holder for instep", "waste yarn for Instep" and "instep" are one name. */
function keyOf(name: string): string {
  const key = name.trim().toLowerCase().replaceAll(/\s+/g, ' ');
  const bare = key.replace(
    /^(the |a )?(stitch holder|st holder|holder|waste yarn|spare needle)( for( the)?)? ?/,
    '',
  );
  return bare === '' ? key : bare;
}

/** The key of the stitches meant; undefined where none are held under this or a similar name. */
function find(holders: Holders, name: string): string | undefined {
  const key = keyOf(name);
  if (holders.has(key)) return key;
  const words = key.split(' ');
  const has = (text: string, each: readonly string[]) => {
    const own = text.split(' ').map(singular);
    return each.every((word) => own.includes(singular(word)));
  };
  return [...holders.keys()].find((other) => has(other, words) || has(key, other.split(' ')));
}

const singular = (word: string): string => word.replace(/s$/, '');

/** Holders that a line which could not be read may have filled. */
const UNKNOWN = '?';

/** True where these stitches are held under this very name. */
export const isHeldAs = (holders: Holders, name: string): boolean => holders.has(keyOf(name));

export function heldAs(holders: Holders, name: string): Held | undefined {
  const key = find(holders, name);
  return holders.get(key ?? UNKNOWN);
}

/** After a line that could not be read, any holder may have something on it. */
export const withUnknown = (holders: Holders, piece: string): Holders =>
  withHeld(holders, UNKNOWN, emptyHeld(piece, 1));

/** Stitches put on hold by a row that could not be worked: there, but nobody knows how many. */
export const emptyHeld = (piece: string, sets: number): Held => ({
  strands: [],
  sets,
  piece,
  guessed: true,
  inches: 0,
  row: 0,
  heights: {},
});

/** Holders that were filled since `before`, as only guessed. */
export function guessedSince(holders: Holders, before: Holders): Holders {
  if (holders === before) return holders;
  return new Map(
    [...holders].map(([name, held]) =>
      before.get(name) === held ? [name, held] : [name, { ...held, guessed: true }],
    ),
  );
}

export const withHeld = (holders: Holders, name: string, held: Held): Holders =>
  new Map(holders).set(keyOf(name), held);

/**
 * Takes one set away. A piece that takes up its own stitches does so in each of its copies; stitches
 * left by pieces made alike are taken up one set after the other.
 */
export function withoutHeld(holders: Holders, name: string, piece: string | undefined): Holders {
  const key = find(holders, name);
  if (key === undefined) return holders;
  const held = holders.get(key);
  const copy = new Map(holders);
  if (held && held.sets > 1 && held.piece !== piece)
    copy.set(key, { ...held, sets: held.sets - 1 });
  else copy.delete(key);
  return copy;
}

/** Takes stitches with the marks between them off the left needle, ready to be put back. */
export function takeStrands(left: Strand[], count: number): Strand[] {
  const strands: Strand[] = [];
  for (let rest = count; rest > 0;) {
    const strand = left.pop();
    if (strand === undefined) break;
    if (isMark(strand)) strands.push(strand);
    else if (strand > rest) {
      left.push(strand - rest);
      strands.push(rest);
      rest = 0;
    } else {
      strands.push(strand);
      rest -= strand;
    }
  }
  return strands.reverse();
}

export const heldStitches = (held: Held): number => countStitches(held.strands);
