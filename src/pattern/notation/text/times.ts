/**
 * How often: `twice`, `5 (6, 7) times`, `seven more times`, `6 times in all`. Gives the number and
 * whether it counts what comes on top of the first working or all of them; who asks decides what a
 * bare number means.
 */
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from './reader.ts';
import { isSized, readSized, sizedAt } from './size-values.ts';

export interface Times {
  readonly times: Sized;
  /** `more`: besides the first; `in all`: the first included; undefined: not said. */
  readonly counts?: 'more' | 'in all';
}

const WORDS: Readonly<Record<string, number>> = { once: 1, twice: 2, thrice: 3 };

/**
 * @rule times = ( "once" | "twice" | "thrice" | sized, [ "more" ], "times" | "×", sized ), [
 *   "more" | "in all" ];
 */
export function readTimes(reader: Reader): Times | undefined {
  return reader.attempt(() => {
    const word = reader.peek();
    if (word.term in WORDS) {
      reader.next();
      return counted(reader, sizedAt(WORDS[word.term] ?? 1, word.span), false);
    }
    if (reader.is('times', '×')) {
      reader.next();
      if (!isSized(reader)) return undefined;
      const times = readSized(reader, 'times');
      return times && counted(reader, times, false);
    }
    const short = /^x(\d{1,4})$/.exec(word.term);
    if (short) {
      reader.next();
      return counted(reader, sizedAt(Number(short[1]), word.span), false);
    }
    if (!isSized(reader)) return undefined;
    const times = readSized(reader, 'times');
    const more = reader.take('more');
    if (!times || !(reader.take('times') || reader.take('×'))) return undefined;
    return counted(reader, times, more);
  });
}

/** Whether a number of times stands here. */
export function isTimes(reader: Reader): boolean {
  const position = reader.position;
  const times = readTimes(reader);
  if (times) reader.back(position);
  return times !== undefined;
}

function counted(reader: Reader, times: Sized, more: boolean): Times {
  if (reader.take('more', 'again') || more) return { times, counts: 'more' };
  if (reader.take('in all', 'in total', 'altogether', 'total')) return { times, counts: 'in all' };
  return { times };
}
