/**
 * One stitch with its count, in any written form: `k5`, `k 5 (6, 7) tbl`, `K 2 tog`, `yo twice`,
 * `sl 1 wyif`, `2/2 LC`. Tries the longest run of words the catalogue knows. Gives the entry and how
 * many; what follows (a goal, "in next st") is for the caller.
 */
import type { Stitch } from '../../stitches/index.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from '../text/reader.ts';
import type { Token } from '../text/token.ts';
import { isTimes } from '../text/times.ts';
import { isSized, readSized, readSizedAfter, sizedAt } from '../text/size-values.ts';

export interface StitchRead {
  readonly stitch: Stitch;
  /** Undefined where no number was written: `k to end`. */
  readonly count?: Sized;
}

/** Words of the longest written forms: `k into st in row below`. */
const LONGEST = 8;
/** `k5`, `sl1`, `k1tbl`, `k1b`. */
const GLUED = /^(\p{L}+?)(\d{1,9})(\p{L}*)$/u;

/** @rule stitch = stitch name | stitch name, sized, [ rest of stitch name ]; */
export function readStitch(reader: Reader): StitchRead | undefined {
  return readGlued(reader, true) ?? readSpaced(reader, true) ?? readNext(reader) ?? readNamed(reader) ??
    readGlued(reader, false) ?? readSpaced(reader, false); // prettier-ignore
}

/** Whether a stitch stands here. */
export function isStitch(reader: Reader): boolean {
  const position = reader.position;
  const found = reader.attempt(() => readStitch(reader)) !== undefined;
  if (found) reader.back(position);
  return found;
}

/** Runs of words from here, longest first, as the catalogue may know them. */
function* runs(reader: Reader): Generator<{ words: string; width: number }> {
  const found: { words: string; width: number }[] = [];
  let words = '';
  for (let ahead = 0; ahead < LONGEST; ahead += 1) {
    const token = reader.peek(ahead);
    if (!joins(token)) break;
    words += glue(words, token) + token.text;
    found.push({ words, width: ahead + 1 });
  }
  yield* found.reverse();
}

const joins = (token: Token): boolean =>
  token.kind === 'word' || token.kind === 'number' || GLUE.has(token.text);

/** Marks that belong to a name: `2/2 LC`, `3-st bobble`. */
const GLUE: ReadonlySet<string> = new Set(['/', '-']);

function glue(words: string, token: Token): string {
  return words === '' || GLUE.has(token.text) || GLUE.has(words.at(-1) ?? '') ? '' : ' ';
}

function step(reader: Reader, width: number): void {
  for (let taken = 0; taken < width; taken += 1) reader.next();
}

/** A whole name, its number after it where it has one: `k2tog`, `K 2 tog`, `knit 5`, `2/2 LC`, `yfwd`. */
function readNamed(reader: Reader): StitchRead | undefined {
  for (const { words, width } of runs(reader)) {
    const stitch = reader.options.catalogue.lookup(words);
    if (!stitch) continue;
    step(reader, width);
    const numbered = (stitch.counted || stitch.takes === 0) && isSized(reader);
    // `yo 3 times`: the number is how often.
    if (!numbered || isTimes(reader)) return { stitch };
    const count = readSized(reader, words);
    return count && { stitch, count };
  }
  return undefined;
}

/** `k5`, `k8 (9, 10) tbl`: the number is part of the first word. */
function readGlued(reader: Reader, withSuffix: boolean): StitchRead | undefined {
  const token = reader.peek();
  const parts = GLUED.exec(token.text);
  if (!parts || reader.options.catalogue.lookup(token.text)) return undefined;
  const [, name = '', digits = '', rest = ''] = parts;
  return reader.attempt(() => {
    const position = reader.position;
    reader.next();
    const start = token.span.start + name.length;
    const span = { start, end: start + digits.length };
    const list = { values: [Number(digits) as number | null], spans: [span] };
    const count = readSizedAfter(reader, list, position);
    return count && readRest(reader, rest === '' ? name : `${name} ${rest}`, count, withSuffix);
  });
}

/** `sl next st`, `k first st`, `k next 5 sts`. */
function readNext(reader: Reader): StitchRead | undefined {
  const { kind, text } = reader.peek();
  if (kind !== 'word' || !['next', 'first'].includes(reader.peek(1).term)) return undefined;
  return reader.attempt(() => {
    reader.next();
    const next = reader.next();
    if (reader.is('sts')) return readRest(reader, text, sizedAt(1, next.span), false);
    const count = isSized(reader) ? readSized(reader, text) : undefined;
    return count && readRest(reader, text, count, false);
  });
}

/** `k 5 tbl`, `work 18`, `yo 2`. */
function readSpaced(reader: Reader, withSuffix: boolean): StitchRead | undefined {
  const token = reader.peek();
  if (token.kind !== 'word') return undefined;
  return reader.attempt(() => {
    reader.next();
    reader.take('next', 'first');
    if (!isSized(reader)) return undefined;
    const count = readSized(reader, token.text);
    return count && readRest(reader, token.text, count, withSuffix);
  });
}

/** The words after the number that belong to the name: `tbl`, `in st below`. */
function readRest(
  reader: Reader,
  name: string,
  count: Sized,
  withSuffix: boolean,
): StitchRead | undefined {
  const { catalogue } = reader.options;
  if (withSuffix) {
    for (const { words, width } of runs(reader)) {
      const stitch = catalogue.lookup(`${name} ${words}`);
      if (!stitch?.counted || words === 'st' || words === 'sts') continue;
      step(reader, width);
      return { stitch, count };
    }
    return reader.take('sts') ? readRest(reader, name, count, true) : undefined;
  }
  const stitch = catalogue.lookup(name);
  const taken = stitch && (stitch.counted || stitch.takes === 0);
  return taken ? { stitch, count } : undefined;
}
