/**
 * Compares the texts a document must say with what a reader found in the file, piece by piece and in
 * reading order. A digit, a letter, a hyphen, a space or a line that is missing, changed or in another
 * place is a difference; how lines were broken is none. Pure; knows neither PDF nor knitting.
 */
import type { Expected } from './expected.ts';

export interface Difference {
  readonly place: string;
  readonly expected: string;
  /** What stands where the text should be; empty at the end of the file. */
  readonly found: string;
}

const MOST_DIFFERENCES = 20;
const SHOWN_CHARACTERS = 80;
/** Pieces looked through for a text that is not where it should be. */
const FARTHEST = 400;

/** Soft and line-end hyphens, controls of joining and direction: none of them is seen. */
const UNSEEN = /[\u00ad\u200b-\u200f\u202a-\u202e\u2060-\u2069\ufeff]/gu;

/** The text as it is seen: white space of any kind is one space. */
export const seen = (text: string): string =>
  text.normalize('NFC').replace(UNSEEN, '').replace(/\s+/gu, ' ').trim();

/** `pages` holds the pieces of each page in reading order. */
export function compareTexts(
  expected: readonly Expected[],
  pages: readonly (readonly string[])[],
): readonly Difference[] {
  const reading = new Reading(pages);
  const differences: Difference[] = [];
  let lost = false;
  for (const item of expected) {
    if (differences.length >= MOST_DIFFERENCES) return differences;
    const lacking = item.kind === 'text' ? takeText(reading, item.text) : takeTable(reading, item.cells); // prettier-ignore
    if (lacking === undefined) {
      lost = false;
      continue;
    }
    const there = reading.next() ?? '';
    const further = item.kind === 'text' && reading.skipTo(() => takeText(reading, item.text) === undefined); // prettier-ignore
    // Behind a text that is missing or changed, the next one only shows where to go on.
    if (!(further && lost)) differences.push(difference(item.place, lacking, there));
    lost = !further;
  }
  const rest = reading.next();
  if (differences.length === 0 && rest !== undefined) differences.push(difference('end', '', rest));
  return differences;
}

const difference = (place: string, expected: string, found: string): Difference => ({
  place,
  expected: expected.slice(0, SHOWN_CHARACTERS),
  found: found.slice(0, SHOWN_CHARACTERS),
});

/** Pieces of text that say something, and a place among them. */
class Reading {
  readonly pieces: readonly string[];
  /** Number of the page of each piece. */
  readonly #pages: readonly number[];
  at = 0;

  constructor(pages: readonly (readonly string[])[]) {
    const pieces: string[] = [];
    const numbers: number[] = [];
    pages.forEach((texts, page) => {
      for (const text of texts) {
        if (seen(text) !== '') {
          pieces.push(text);
          numbers.push(page);
        } else if (pieces.length > 0) {
          // White space alone belongs to what stands before it.
          pieces.push(`${pieces.pop()}${text}`);
        }
      }
    });
    this.pieces = pieces;
    this.#pages = numbers;
  }

  next(): string | undefined {
    const piece = this.pieces[this.at];
    return piece === undefined ? undefined : seen(piece);
  }

  /** Number of the first piece of the next page. */
  endOfPage(): number {
    let end = this.at;
    while (end < this.pieces.length && this.#pages[end] === this.#pages[this.at]) end += 1;
    return end;
  }

  /** Goes to the first of the following pieces at which something succeeds, or stays. */
  skipTo(succeeds: () => boolean): boolean {
    const start = this.at;
    const end = Math.min(this.pieces.length, start + FARTHEST);
    for (let at = start + 1; at < end; at += 1) {
      this.at = at;
      if (succeeds()) return true;
    }
    this.at = start;
    return false;
  }

  /**
   * Takes pieces up to `end` that together say a text. Gives what is still to be said where the pieces
   * end first, and undefined, without taking any, where they say something else.
   */
  take(text: string, end = this.pieces.length): string | undefined {
    let said = '';
    for (let at = this.at; at < end; at += 1) {
      said += this.pieces[at];
      const sofar = seen(said);
      if (sofar === text) {
        this.at = at + 1;
        return '';
      }
      if (!text.startsWith(sofar)) return undefined;
    }
    this.at = end;
    return text.slice(seen(said).length).trim();
  }
}

/** Undefined where the text stands next, else the text. */
function takeText(reading: Reading, text: string): string | undefined {
  const start = reading.at;
  if (reading.take(seen(text)) === '') return undefined;
  reading.at = start;
  return text;
}

/**
 * Undefined where all cells stand next, else the first that is missing. A table too wide for the page
 * is shared out to several: on each page its cells stand in order of rows, and each cell stands once.
 */
function takeTable(reading: Reading, cells: readonly string[]): string | undefined {
  let open = cells.map(seen).filter((cell) => cell !== '');
  while (open.length > 0) {
    const start = reading.at;
    const end = reading.endOfPage();
    open = open.flatMap((cell) => {
      const rest = reading.at < end ? reading.take(cell, end) : undefined;
      if (rest === undefined) return [cell];
      return rest === '' ? [] : [rest];
    });
    const stuck = reading.at === start || (open.length > 0 && reading.at < end);
    if (stuck) return open[0];
  }
  return undefined;
}
