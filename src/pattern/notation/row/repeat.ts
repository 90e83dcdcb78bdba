/**
 * Groups and repeats: `[k2, p2] 4 times`, `(k1, yo, k1) in next st`, `*k8, k2tog; rep from * to last 3
 * sts`, `ending with k2`. A bare number after "rep from *" counts what comes on top of the first
 * working ("rep from * 6 times" is seven in all); after a bracket it counts all.
 */
import type { Action, Goal, RepeatUntil } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from '../text/reader.ts';
import type { Token } from '../text/token.ts';
import { CLOSING, isSized, readSized, sizedAt } from '../text/size-values.ts';
import { readTimes } from '../text/times.ts';
import { readActions, sentenceEnds, type Stops } from './actions.ts';
import { isGoal, readGoal } from './goal.ts';

/** @rule group = "[", actions, "]", group end | "(", actions, ")", group end; */
export function readGroup(reader: Reader): Action | undefined {
  return reader.nested(() => {
    const position = reader.position;
    const open = reader.next();
    const close = CLOSING[open.term] ?? ')';
    const stops: Stops = (at) => at.done || at.is('.', ')', ']', '}');
    const actions = readActions(reader, stops);
    if (!actions) return undefined;
    if (!reader.take(close)) {
      const facts = { bracket: open.text, closing: close };
      return reader.problem('notation/open-bracket', open.span, facts);
    }
    if (actions.length === 0) {
      const found = reader.textFrom(position);
      return reader.problem('notation/empty-repeat', reader.spanFrom(position), { found });
    }
    return readGroupEnd(reader, actions, position);
  });
}

/** `rep [k2, p2] 4 times`: the word adds nothing. */
export function readRepeatedGroup(reader: Reader): Action | undefined {
  reader.next();
  return readGroup(reader);
}

/** @rule group end = times | into | goal, [ ending ]; */
function readGroupEnd(
  reader: Reader,
  actions: readonly Action[],
  position: number,
): Action | undefined {
  const span = () => reader.spanFrom(position);
  const into = reader.attempt(() => readInto(reader));
  if (into) return { kind: 'into', actions, ...into, span: span() };
  reader.take('rep', ', rep', 'all');
  const times = readTimes(reader);
  if (times) return { kind: 'group', actions, times: times.times, span: span() };
  const goal = isGoal(reader) ? readGoal(reader) : undefined;
  if (goal) {
    const ending = readEnding(reader, sentenceEnds);
    return {
      kind: 'repeat', actions, until: { kind: 'goal', goal }, ...ending, span: span(),
    }; // prettier-ignore
  }
  const group = reader.textFrom(position);
  return reader.problem('notation/times-missing', span(), { group });
}

/**
 * @rule into = "in", ( "next st" | "same st" | "each of next", sized, "sts" | "next", sized,
 *   "sts tog", [ times ] );
 */
function readInto(reader: Reader): { times: Sized; together?: Sized } | undefined {
  if (reader.take('all in', 'all into')) reader.take('same sts');
  else if (!reader.take('in', 'all in')) return undefined;
  const one = sizedAt(1, reader.peek().span);
  if (reader.take('same sts', 'sts', 'one sts', 'front and back of next sts'))
    return { times: one };
  const each = reader.take('each of', 'each');
  if (!reader.take('next', 'foll', 'same', 'first', 'last') && !each) return undefined;
  const count = isSized(reader) ? readSized(reader, '“next”') : one;
  if (!count || !reader.take('sts')) return undefined;
  if (reader.take('tog')) return { times: readTimes(reader)?.times ?? one, together: count };
  return { times: count };
}

/** @rule repeat = star, actions, rep from, [ until ], [ ending ] | star, actions, star, times; */
export function readRepeat(reader: Reader): Action | undefined {
  return reader.nested(() => {
    const position = reader.position;
    const star = reader.next();
    reader.take(',', ';');
    const stops: Stops = (at) =>
      sentenceEnds(at) || isRepeatOf(at, star) || at.peek().text === star.text;
    const actions = readActions(reader, stops);
    if (!actions) return undefined;
    const closed = reader.peek().text === star.text && reader.next() !== undefined;
    if (actions.length === 0) {
      return reader.problem('notation/empty-repeat', star.span, { found: star.text });
    }
    if (closed) reader.take(',', ';');
    if (!takeRepeatFrom(reader, star)) return readClosed(reader, star, actions, position, closed);
    return readUntil(reader, actions, position);
  });
}

/** Whether "rep from" this star stands here. */
function isRepeatOf(reader: Reader, star: Token): boolean {
  const position = reader.position;
  const found = takeRepeatFrom(reader, star);
  if (found) reader.back(position);
  return found;
}

/** @rule rep from = [ ";" ], "rep", [ "from" ], star, [ "to", star ] | [ ";" ], "rep", goal; */
function takeRepeatFrom(reader: Reader, star: Token): boolean {
  const took = reader.attempt(() => {
    if (!reader.take('rep', 'work from', 'rep instructions')) return undefined;
    const bare = isGoal(reader) && !reader.is('until');
    if (bare) return true;
    reader.take('from', 'between', 'instructions from', 'instructions between');
    if (reader.is('last') || reader.peek().text !== star.text) return undefined;
    reader.next();
    if (reader.peek(1).text === star.text && reader.take('to', 'and')) reader.next();
    return true;
  });
  return took === true;
}

/** `*k2, p2* 4 times`: closed by a second star, counted like a bracket. */
function readClosed(
  reader: Reader,
  star: Token,
  actions: readonly Action[],
  position: number,
  closed: boolean,
): Action | undefined {
  const times = closed ? readTimes(reader) : undefined;
  if (times) return { kind: 'group', actions, times: times.times, span: reader.spanFrom(position) };
  if (closed && isGoal(reader)) return readUntil(reader, actions, position);
  return reader.problem('notation/open-repeat', star.span, { star: star.text });
}

/** @rule until = times | goal; */
function readUntil(
  reader: Reader,
  actions: readonly Action[],
  position: number,
): Action | undefined {
  const start = reader.position;
  const times = readTimes(reader);
  const until: RepeatUntil | undefined = times
    ? { kind: times.counts === 'in all' ? 'total' : 'more', times: times.times }
    : readRepeatGoal(reader, start);
  if (!until) return undefined;
  const ending = readEnding(reader, sentenceEnds);
  return { kind: 'repeat', actions, until, ...ending, span: reader.spanFrom(position) };
}

function readRepeatGoal(reader: Reader, start: number): RepeatUntil | undefined {
  const end: Goal = { kind: 'end', span: reader.spanFrom(start) };
  const goal = isGoal(reader) ? readGoal(reader) : end;
  return goal && { kind: 'goal', goal };
}

/**
 * A semicolon closes the ending, where more follows.
 * @rule ending = [ "," ], "ending", [ "last rep" ], [ "with" ], actions, [ ";" ];
 */
function readEnding(reader: Reader, stops: Stops): { endingWith?: readonly Action[] } {
  const found = reader.attempt(() => {
    reader.take(',', ';');
    reader.take('and');
    if (!reader.take('ending', 'end')) return undefined;
    reader.take('last rep', 'last rep of round', 'last rep of row');
    reader.take('with');
    if (reader.is('RS', 'WS')) return undefined;
    const actions = readActions(reader, (at) => stops(at) || at.is(';'));
    return actions && actions.length > 0 ? actions : undefined;
  });
  return found ? { endingWith: found } : {};
}
