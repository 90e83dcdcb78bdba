/**
 * Cuts running text, as a designer pastes it from a notebook, into the lines that `readLine` reads. A
 * line is a stretch of the source, so its offset carries every span back into the text; line breaks
 * inside a row are white space. Sizes, multiples and headings are told apart; nothing is read or
 * counted here, and nothing of the text is dropped without a place in the result.
 */
import type { NotationProblem } from './problem.ts';
import { NOTATION_LIMITS } from '../../base/limits.ts';
import { CATALOGUE } from '../stitches/index.ts';
import { readLine } from './line.ts';

interface Stretch {
  /** The source from `offset` on, without white space around it. */
  readonly text: string;
  /** Where it begins in the source, in UTF-16 units. */
  readonly offset: number;
}

export type RunningLine = Stretch &
  (
    | { readonly kind: 'instruction' }
    /** `(Multiple of 8 sts + 3)`. */
    | { readonly kind: 'multiple'; readonly multiple: number; readonly plus: number }
    /** `Sizes: S (M, L)`. */
    | { readonly kind: 'sizes'; readonly names: readonly string[] }
    /** `Left Front`: words over the lines that follow. */
    | { readonly kind: 'heading' }
    /** A line that begins with `#`: the writer's own note. */
    | { readonly kind: 'note' }
  );

export interface RunningText {
  readonly lines: readonly RunningLine[];
  readonly problems: readonly NotationProblem[];
}

/** `Row 1`, `Rnds 3-6 (RS)`, `Next row`, `Dec rnd`, `1st row`, up to the colon. */
const LABEL =
  /^(?:(?:next|foll(?:owing)?|set-?up|foundation|dec(?:rease)?|inc(?:rease)?|short|joining|eyelet|dividing|buttonhole|ridge)(?: \d+)? )?(?:(?:rows?|rnds?|rounds?)\b[^:.;*]{0,60}|\d+(?:st|nd|rd|th)\b[^:.;*]{0,40}\b(?:rows?|rnds?|rounds?)\b[^:.;*]{0,30}):/i;
/** Sentences that no row goes on with: they stand on their own after a labelled row. */
const STEP =
  /^(?:rep(?:eat)?|cont(?:inue)?|cast on|co|join|change|break|cut|fasten|work (?:even|in|back|\d+|rows?|rnds?)|(?:knit|purl|k|p) \d+ (?:more )?(?:rows?|rnds?|rounds?)|place (?:marker|rem)|at the same time|with|bind off all|cast off all|graft|return|mark|see)\b/i;
const MULTIPLE =
  /^\(?\s*mult(?:iple)? of (\d{1,4})(?: sts?)?(?:\s*(?:\+|plus)\s*(\d{1,4})(?: sts?)?)?\s*\)?\.?$/i;
const SIZES = /^sizes?(?::\s*|\s+(?=\S+\s*\())(.+?)\.?$/i;
const COUNT_ONLY = /^[-–—]?\s*[([]?\d[\d\s,()[\]{}–-]*sts?\b[^.:*]{0,30}\.?$/i;
/** A line that ends like this goes on in the next. */
const GOES_ON = /(?:[,;*([–]|\b(?:to|and|from|rep|of|in|next|last|then|over|until|every|with))$/i;

/** All lines of a text, in order. Offsets are into `text`. */
export function readRunningText(text: string): RunningText {
  const { textLength } = NOTATION_LIMITS;
  if (text.length > textLength) {
    const span = { start: textLength, end: text.length };
    const facts = { length: text.length, most: textLength };
    return { lines: [], problems: [{ code: 'notation/too-long', span, facts }] };
  }
  const stretches = paragraphs(text).flatMap(splitRows).flatMap(splitSentences);
  const most = NOTATION_LIMITS.lines;
  if (stretches.length > most) {
    const span = { start: stretches[most]?.offset ?? 0, end: text.length };
    const facts = { lines: stretches.length, most };
    return { lines: [], problems: [{ code: 'notation/too-many-lines', span, facts }] };
  }
  return { lines: stretches.map(classify), problems: [] };
}

/** Written lines, with those joined that belong to one row. */
function paragraphs(text: string): readonly Stretch[] {
  const found: Stretch[] = [];
  for (const match of text.matchAll(/[^\r\n]+/g)) {
    const piece = trimmed(match[0], match.index);
    if (piece.text === '') continue;
    const before = found.at(-1);
    if (before && joins(before, piece, text)) {
      found[found.length - 1] = {
        text: text.slice(before.offset, piece.offset + piece.text.length),
        offset: before.offset,
      };
    } else found.push(piece);
  }
  return found;
}

/** White space and a list mark before the text fall away. */
function trimmed(text: string, offset: number): Stretch {
  const lead = /^\s*(?:[•·▪]\s*|[-–—]\s+(?!\d|\())?/.exec(text)?.[0].length ?? 0;
  return { text: text.slice(lead).trimEnd(), offset: offset + lead };
}

/** Whether a written line carries on the one before it: no blank line between, and it hangs over. */
function joins(before: Stretch, next: Stretch, source: string): boolean {
  const between = source.slice(before.offset + before.text.length, next.offset);
  if (/\n[^\S\n]*\n/.test(between.replaceAll('\r', '')) || before.text.startsWith('#'))
    return false;
  if (LABEL.test(next.text) || before.text.length > NOTATION_LIMITS.lineLength) return false;
  if (COUNT_ONLY.test(next.text)) return true;
  return GOES_ON.test(before.text) || isOpen(before.text);
}

/** A bracket or a star that the text has not closed. */
function isOpen(text: string): boolean {
  const opened = text.match(/[([{]/g)?.length ?? 0;
  const closed = text.match(/[)\]}]/g)?.length ?? 0;
  return opened > closed || (/\*/.test(text) && !/\*.*\brep/is.test(text));
}

/** `Row 1: k2. Row 2: p2.` is two lines; `Heel turn: Row 1: …` has a heading before them. */
function splitRows(stretch: Stretch): readonly Stretch[] {
  const heading = /^\p{Lu}[\p{L} ’'-]{1,40}:\s+/u.exec(stretch.text)?.[0] ?? '';
  const rest = stretch.text.slice(heading.length);
  const over = heading !== '' && !LABEL.test(heading) && LABEL.test(rest);
  if (!over) return cut(stretch, (after) => LABEL.test(after));
  const { offset } = stretch;
  const title = { text: heading.trim(), offset };
  return [
    title,
    ...cut({ text: rest, offset: offset + heading.length }, (after) => LABEL.test(after)),
  ];
}

/**
 * Sentences of a stretch without a label are lines of their own; after a labelled row only those are
 * that no row goes on with. A stated count stays with what it follows.
 */
function splitSentences(stretch: Stretch): readonly Stretch[] {
  const labelled = LABEL.test(stretch.text) || /^[^:.;*[(]{1,60}:\s*\S/.test(stretch.text);
  const starts = (rest: string): boolean =>
    STEP.test(rest) || (!labelled && /^[\p{Lu}*[]/u.test(rest));
  return cut(stretch, (rest) => !COUNT_ONLY.test(rest) && starts(rest));
}

/** Cuts after full stops where `begins` says that the rest begins something new; never in brackets. */
function cut(stretch: Stretch, begins: (rest: string) => boolean): readonly Stretch[] {
  const { text, offset } = stretch;
  if (text.length > NOTATION_LIMITS.lineLength) return [stretch];
  const found: Stretch[] = [];
  let start = 0;
  let open = 0;
  for (const mark of text.matchAll(/[([{]|[)\]}]|[.!]["”]?\s+/g)) {
    if (/^[([{]/.test(mark[0])) open += 1;
    else if (/^[)\]}]/.test(mark[0])) open = Math.max(0, open - 1);
    const after = mark.index + mark[0].length;
    if (!/\s$/.test(mark[0]) || open > 0 || !begins(text.slice(after))) continue;
    found.push(trimmed(text.slice(start, after), offset + start));
    start = after;
  }
  found.push(trimmed(text.slice(start), offset + start));
  return found;
}

function classify(stretch: Stretch): RunningLine {
  const { text } = stretch;
  if (text.startsWith('#')) return { ...stretch, kind: 'note' };
  const multiple = MULTIPLE.exec(text);
  if (multiple) {
    return {
      ...stretch,
      kind: 'multiple',
      multiple: Number(multiple[1]),
      plus: Number(multiple[2] ?? 0),
    };
  }
  const sizes = /\bonly\b/i.test(text) ? null : SIZES.exec(text);
  const names = sizes && sizeNames(sizes[1] ?? '');
  if (names && names.length > 0) return { ...stretch, kind: 'sizes', names };
  return { ...stretch, kind: isHeading(text) ? 'heading' : 'instruction' };
}

/** `S (M, L, XL)`, `S, M and L`, `ladies S (M, L) mens S (M, L)`. */
const sizeNames = (list: string): readonly string[] =>
  list.split(/\s*[,()[\]{}]\s*|\s+and\s+/).filter((name) => name !== '');

/** A few words with a capital and no number that are no instruction. */
function isHeading(text: string): boolean {
  if (!/^\p{Lu}[\p{L}\s’'&/-]{1,40}:?$/u.test(text)) return false;
  return (
    text.endsWith(':') ||
    readLine(text, { sizes: undefined, catalogue: CATALOGUE }).line === undefined
  );
}
