/**
 * Compares the texts a document must say with the text a reader found in the file, in reading order.
 * White space, hyphens at line ends and compatibility forms are no difference; a digit, a letter or a
 * line that is missing, changed or in another place is. Pure; knows neither PDF nor knitting.
 */
import type { ExpectedText } from './expected.ts';

export interface Difference {
  readonly place: string;
  readonly expected: string;
  /** What stands where the text should be; empty at the end of the file. */
  readonly found: string;
}

const MOST_DIFFERENCES = 20;
const SHOWN_CHARACTERS = 80;

/**
 * Characters that carry no count: white space, soft and line-end hyphens, controls of direction. The
 * ordinary hyphen goes too, because a reader cannot tell it from one set at a line's end, and so do
 * the bullets of lists.
 */
const SILENT = /[\s\u00ad\u2010\u2011\u002d\u200b-\u200f\u202a-\u202e\u2060\u2066-\u2069\u2022]/gu;

export const essence = (text: string): string => text.normalize('NFKC').replace(SILENT, '');

/** Walks both texts together; after a difference it looks for the next expected text further on. */
export function compareTexts(
  expected: readonly ExpectedText[],
  found: string,
): readonly Difference[] {
  const differences: Difference[] = [];
  const page = essence(found);
  let at = 0;
  for (const { place, text } of expected) {
    const wanted = essence(text);
    if (page.startsWith(wanted, at)) {
      at += wanted.length;
      continue;
    }
    const next = page.indexOf(wanted, at);
    const skipped = next < 0 ? page.slice(at, at + wanted.length) : page.slice(at, next);
    // Furniture is not in the reading order, so anything skipped is text nobody asked for.
    differences.push({
      place,
      expected: text.slice(0, SHOWN_CHARACTERS),
      found: skipped.slice(0, SHOWN_CHARACTERS),
    });
    if (next >= 0) at = next + wanted.length;
    if (differences.length >= MOST_DIFFERENCES) break;
  }
  if (differences.length === 0 && at < page.length)
    differences.push({ place: 'end', expected: '', found: page.slice(at, at + SHOWN_CHARACTERS) });
  return differences;
}
