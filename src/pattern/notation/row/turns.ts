/**
 * Turns in mid-row with their three ways of closing the gap, and stitches slid back to be worked from
 * the same side.
 */
import type { Action } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from '../text/reader.ts';
import { isSized, readSized } from '../text/size-values.ts';

type Of<Kind extends Action['kind']> = Extract<Action, { kind: Kind }>;

const WRAP_AND_TURN = [
  'w&t', 'wrap and turn', 'wrap next sts and turn', 'w and t', 'wt', 'w + t', 'w+t', 'wrap turn',
  'wrap next sts , turn', 'wrap sts and turn',
]; // prettier-ignore
const GERMAN = [
  'turn and make ds', 'turn , make ds', 'turn and make double sts', 'turn , make double sts', 'turn , mds',
  'turn and mds', 'turn with ds', 'german turn', 'gsr turn', 'turn ds', 'turn , ds', 'turn , gsr',
]; // prettier-ignore

const ON_THESE = [
  'and work on these sts only', 'and work on these sts', 'and work on this set of sts', 'and work on this set of sts only',
  'and cont on these sts', 'and cont on these sts only', 'and work each side separately', 'and complete this side first',
]; // prettier-ignore

export const isTurn = (reader: Reader): boolean => reader.is('turn', ...WRAP_AND_TURN, ...GERMAN);

/** @rule turn = ( "turn" | "w&t" | "turn and make ds" ), [ leaving ]; */
export function readTurn(reader: Reader): Of<'turn'> | undefined {
  const position = reader.position;
  const wrap = reader.take(...WRAP_AND_TURN) ? 'wrap' : reader.take(...GERMAN) ? 'german' : 'none';
  if (wrap === 'none' && !reader.take('turn')) return undefined;
  if (wrap === 'none') reader.take('work', 'and work back');
  reader.take(...ON_THESE);
  const leaving = reader.attempt(() => readLeaving(reader));
  return { kind: 'turn', wrap, ...(leaving && { leaving }), span: reader.spanFrom(position) };
}

/**
 * Not "leaving … on a holder".
 * @rule leaving = [ "," ], "leaving", sized, "sts unworked";
 */
function readLeaving(reader: Reader): Sized | undefined {
  reader.take(',');
  reader.take('and');
  if (!reader.take('leaving', 'leave')) return undefined;
  reader.take('rem', 'last');
  const count = isSized(reader) ? readSized(reader, '“leaving”') : undefined;
  if (!count) return undefined;
  reader.take('sts');
  reader.take('unworked', 'rem');
  reader.take('on needle', 'at end of row');
  return reader.is('on') ? undefined : count;
}

const SLID = [
  'to other end of needle', 'to other end', 'to right end of needle', 'to opposite end of needle',
  'back to beg of needle', 'to right-hand end of needle', 'back to other end of needle',
]; // prettier-ignore

export const isSlide = (reader: Reader): boolean => reader.is('slide', 'do not turn', "don't turn");

/** @rule slide = "slide", [ "sts to other end of needle" ] | "do not turn"; */
export function readSlide(reader: Reader): Of<'slide'> {
  const position = reader.position;
  if (reader.take('do not turn', "don't turn", 'do not turn work')) {
    reader.attempt(() =>
      reader.take(', and', ',', ';', 'and') && reader.is('slide') ? true : undefined,
    );
  }
  if (reader.take('slide')) {
    reader.take('all sts', 'sts', 'work');
    reader.take(...SLID);
  }
  return { kind: 'slide', span: reader.spanFrom(position) };
}
