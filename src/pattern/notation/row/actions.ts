/**
 * What one row does: a list of actions separated by commas. Decides by the first words which action
 * stands at a place and leaves the details to its own function; a word that begins none of them is
 * reported with the nearest known words.
 */
import type { Action } from '../ast.ts';
import type { Reader } from '../text/reader.ts';
import { CLOSING } from '../text/size-values.ts';
import { KNOWN_WORDS } from '../text/terms.ts';
import { STITCH_LIMITS } from '../../../base/limits.ts';
import { nearestWords } from '../../../base/nearest.ts';
import { isStatedNext } from '../text/stated.ts';
import { readBySize, readBySizeInFull } from './by-size.ts';
import { isChart, readChart } from './chart.ts';
import { readGroup, readRepeat, readRepeatedGroup } from './repeat.ts';
import { isChange, readChange } from './change.ts';
import { BIND_OFF, CAST_ON, PICK_UP, readBindOff, readCastOn, readPickUp } from './edges.ts';
import { readHold, readResume } from './holders.ts';
import { readMarker } from './marker.ts';
import { isSlide, isTurn, readSlide, readTurn } from './turns.ts';
import { isWorkStretch, readAcross, readStitchWork, readWorkStretch } from './work.ts';
import { readYarn } from './yarn.ts';

export type Stops = (reader: Reader) => boolean;

/** Ends of a sentence, and brackets that close what is around it. */
export const sentenceEnds: Stops = (reader) =>
  reader.done || reader.is('.', ')', ']', '}') || isStatedNext(reader);

/** @rule actions = action, { ( "," | ";" | "then" | "and" ), action }; */
export function readActions(reader: Reader, stops: Stops): Action[] | undefined {
  const actions: Action[] = [];
  while (!stops(reader)) {
    const read = readAction(reader, stops);
    if (!read) return undefined;
    actions.push(...read);
    const bySize = readBySize(reader, actions, stops);
    if (bySize) actions.splice(-1, 1, bySize);
    skipSeparators(reader, stops);
  }
  return actions;
}

function skipSeparators(reader: Reader, stops: Stops): void {
  while (!stops(reader) && reader.take(',', ';', 'then', 'and')) continue;
}

/**
 * @rule action = stitch work | stretch | across | group | repeat | by size | by size in full |
 *   marker | bind off | cast on | pick up | hold | resume | turn | slide | chart |
 *   change | yarn;
 */
export function readAction(reader: Reader, stops: Stops): readonly Action[] | undefined {
  reader.forget();
  const many = readManyActions(reader, stops);
  if (many !== 'none') return many;
  const one = readOneAction(reader);
  if (one !== 'none') return one && [one];
  return unknown(reader);
}

type Found<T> = T | undefined | 'none';

/** Constructs that hold other actions, or give more than one. */
function readManyActions(reader: Reader, stops: Stops): Found<readonly Action[]> {
  const token = reader.peek();
  if (token.kind === 'star') return list(readRepeat(reader));
  if (CLOSING[token.term] !== undefined) return list(readGroup(reader));
  if (reader.is('rep [', 'rep (')) return list(readRepeatedGroup(reader));
  if (isChart(reader)) return list(readChart(reader));
  if (reader.is('by size (')) return list(readBySizeInFull(reader, stops));
  if (isChange(reader)) return list(readChange(reader));
  const moved = readMarker(reader) ?? readResume(reader) ?? readHold(reader);
  if (moved) return [moved];
  const across = readAcross(reader);
  if (across) return across;
  if (isWorkStretch(reader)) return list(readWorkStretch(reader, stops));
  return readStitchWork(reader, stops) ?? 'none';
}

const list = (action: Action | undefined): readonly Action[] | undefined => action && [action];

/** Constructs that begin with a word of their own. */
function readOneAction(reader: Reader): Found<Action> {
  if (reader.is(...BIND_OFF)) return readBindOff(reader);
  if (reader.is(...CAST_ON)) return readCastOn(reader);
  if (reader.is(...PICK_UP)) return readPickUp(reader);
  if (isTurn(reader)) return readTurn(reader);
  if (isSlide(reader)) return readSlide(reader);
  return readYarn(reader) ?? 'none';
}

/** Says what is wrong with a place where no action begins. */
function unknown(reader: Reader): undefined {
  const token = reader.peek();
  if (reader.done) return reader.missing('a stitch');
  if ([')', ']', '}'].includes(token.term)) {
    return reader.problem('notation/stray-bracket', token.span, { bracket: token.text });
  }
  if (reader.is('rep')) {
    const star = reader.is('rep from') ? reader.peek(2) : reader.peek(1);
    if (star.kind === 'star') {
      return reader.problem('notation/stray-repeat', token.span, { star: star.text });
    }
  }
  if (reader.complainFurthest(token.span.start)) return undefined;
  const known = isKnownWord(token.text) || reader.options.catalogue.lookup(token.text);
  if (token.kind === 'word' && !known) return unknownWord(reader);
  const after = reader.last.text;
  if (token.kind === 'word' && ['', '.', ':'].includes(after)) return unreadable(reader);
  if (after === '' || !/[\p{L}\d)\]}]$/u.test(after)) return reader.missing('a stitch');
  return reader.problem('notation/trailing', token.span, { found: token.text, after });
}

/** Known words that make no instruction: named up to the next mark. */
function unreadable(reader: Reader): undefined {
  const position = reader.position;
  do reader.next();
  while (!reader.done && /[\p{L}\d]/u.test(reader.peek().text));
  const words = reader.textFrom(position);
  return reader.problem('notation/unreadable', reader.spanFrom(position), { words });
}

const KNOWN = new Set(KNOWN_WORDS.map((word) => word.toLowerCase()));
const isKnownWord = (word: string): boolean => KNOWN.has(word.toLowerCase());

function unknownWord(reader: Reader): undefined {
  const { text, span } = reader.peek();
  const stitches = reader.options.catalogue.nearest(text);
  const words = text.length > STITCH_LIMITS.letters / 2 ? [] : nearestWords(text, KNOWN_WORDS);
  const nearest = [...new Set([...stitches, ...words])].slice(0, 3);
  return reader.problem('notation/unknown-word', span, { word: text, nearest });
}
