/**
 * Direction of text: which language runs which way, embedding levels by the Unicode Bidirectional
 * Algorithm (UAX #9, package `bidi-js`), and the order of one line's parts from those levels.
 */
import bidiFactory, { type Bidi } from 'bidi-js';
import type { FlatText } from './flat-text.ts';

const RIGHT_TO_LEFT_LANGUAGES = new Set(['ar', 'fa', 'he', 'ur', 'yi']);

export function directionOf(language: string): 'ltr' | 'rtl' {
  return RIGHT_TO_LEFT_LANGUAGES.has(language.split('-')[0] ?? '') ? 'rtl' : 'ltr';
}

/** Characters with the classes R, AL, or AN, and the formatting characters of UAX #9. */
const NEEDS_ALGORITHM =
  /[\u0590-\u08ff\u200e\u200f\u202a-\u202e\u2066-\u2069\ufb1d-\ufdff\ufe70-\ufeff]|[\u{10800}-\u{10fff}]|[\u{1e800}-\u{1efff}]/u;

const LEFT_TO_RIGHT_ISOLATE = '\u2066';
const RIGHT_TO_LEFT_ISOLATE = '\u2067';
const POP_ISOLATE = '\u2069';

/** The types of the package describe a default export; under Node it is the function itself. */
let algorithm: Bidi | undefined;
const bidi = (): Bidi => (algorithm ??= (bidiFactory as unknown as () => Bidi)());

/** One embedding level for each UTF-16 unit; odd runs from right to left. */
export function embeddingLevels(flat: FlatText): Uint8Array {
  const { text, direction } = flat;
  if (direction === 'ltr' && !NEEDS_ALGORITHM.test(text)) return new Uint8Array(text.length);
  const { marked, places } = withIsolates(flat);
  const { levels } = bidi().getEmbeddingLevels(marked, direction);
  return Uint8Array.from(places, (place) => levels[place] ?? 0);
}

/** The text with isolate characters put in, and where each unit of it went. */
function withIsolates({ text, isolates }: FlatText): { marked: string; places: number[] } {
  const opened = new Map<number, string>();
  const closed = new Map<number, string>();
  for (const { start, end, direction } of isolates) {
    const sign = direction === 'ltr' ? LEFT_TO_RIGHT_ISOLATE : RIGHT_TO_LEFT_ISOLATE;
    opened.set(start, (opened.get(start) ?? '') + sign);
    closed.set(end, (closed.get(end) ?? '') + POP_ISOLATE);
  }
  let marked = '';
  const places: number[] = [];
  for (let index = 0; index < text.length; index++) {
    marked += (closed.get(index) ?? '') + (opened.get(index) ?? '');
    places.push(marked.length);
    marked += text[index];
  }
  return { marked, places };
}

/**
 * Order of a line's parts from left to right (UAX #9, rule L2): from the highest level down to the
 * lowest odd one, every sequence at that level or above is reversed.
 */
export function visualOrder(levels: readonly number[]): number[] {
  const order = levels.map((_, index) => index);
  const highest = Math.max(0, ...levels);
  for (let level = highest; level > 0; level--) {
    for (let start = 0; start < order.length; start++) {
      let end = start;
      while (end < order.length && (levels[order[end] as number] as number) >= level) end++;
      if (end > start + 1) reverse(order, start, end);
      start = Math.max(start, end - 1);
    }
  }
  return order;
}

function reverse(order: number[], start: number, end: number): void {
  const part = order.slice(start, end).reverse();
  part.forEach((value, offset) => (order[start + offset] = value));
}
