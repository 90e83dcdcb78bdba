/**
 * Reads one written line into its tree: sizes it is for, label, sentences, stated count. Takes the text
 * and what it is read against; gives the line, or the problems that keep it from being read. Never
 * throws, whatever the text.
 */
import type { Line } from './ast.ts';
import type { NotationProblem } from './problem.ts';
import { NOTATION_LIMITS } from '../../base/limits.ts';
import { readLabel } from './text/label.ts';
import { readOnlySizes } from './text/only-sizes.ts';
import { Reader, type ReadingOptions } from './text/reader.ts';
import { readStated } from './text/stated.ts';
import { readSentences } from './sentence/sentences.ts';

export interface LineRead {
  /** Undefined where there are problems. */
  readonly line: Line | undefined;
  readonly problems: readonly NotationProblem[];
}

/**
 * `sizes`: the names in order, so that lists can be checked; undefined where they are not known.
 * `names`: what the bundle calls its charts and stitch patterns, by written name.
 */
export function readLine(text: string, options: ReadingOptions): LineRead {
  if (text.length > NOTATION_LIMITS.lineLength) {
    const most = NOTATION_LIMITS.lineLength;
    const span = { start: most, end: text.length };
    const facts = { length: text.length, most };
    return { line: undefined, problems: [{ code: 'notation/too-long', span, facts }] };
  }
  const reader = new Reader(text, options);
  const line = readWholeLine(reader);
  return { line: reader.problems.length === 0 ? line : undefined, problems: reader.problems };
}

/** @rule line = [ only sizes ], [ label ], sentences, [ stated ]; */
function readWholeLine(reader: Reader): Line | undefined {
  const only = readOnlySizes(reader);
  const span = reader.spanFrom(0);
  const onlySizes = only === undefined || only === 'all' ? undefined : { sizes: only.sizes, span };
  reader.onlySizes = onlySizes?.sizes;
  const label = readLabel(reader);
  const sentences = readSentences(reader, label);
  if (!sentences) return undefined;
  const stated = reader.done ? undefined : readStated(reader);
  if (!reader.done) {
    const { span: place, text, term } = reader.peek();
    if ([')', ']', '}'].includes(term)) {
      return reader.problem('notation/stray-bracket', place, { bracket: text });
    }
    return reader.problem('notation/trailing', place, { found: text, after: reader.last.text });
  }
  if (sentences.length === 0 && !stated) {
    return reader.problem('notation/empty', reader.spanFrom(0), { what: 'the line' });
  }
  return {
    ...(onlySizes && { onlySizes }),
    ...(label && { label }),
    sentences,
    ...(stated && { stated }),
    text: reader.text,
    span: { start: 0, end: reader.text.length },
  };
}
