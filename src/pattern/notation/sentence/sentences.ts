/**
 * The sentences of one line, one after another. Decides by the first words what a sentence is; what is
 * none of the fixed forms is a row. Whether a line has a row's label decides the few cases in which the
 * same words may stand for a row or for a step of its own.
 */
import type { Action, Extent, RowLabel, Sentence } from '../ast.ts';
import type { Reader } from '../text/reader.ts';
import { isChart } from '../row/chart.ts';
import { readActions, sentenceEnds } from '../row/actions.ts';
import { readTimes } from '../text/times.ts';
import { readEdgeRows } from './edge-rows.ts';
import { readExtent } from './extent.ts';
import { isRepeatRows, readRepeatRows } from './repeat-rows.ts';
import { isShape, readShape } from './shape.ts';
import { readCastOnSentence, readDrawThrough, readHoldSentence, readJoin, readJoinStitches, readMark, readNeedle, readProse, readResumeSentence, readYarnSentence } from './set-up.ts'; // prettier-ignore
import { readWorkEven } from './work-even.ts';

type Result = readonly Sentence[] | undefined;

const AT_ONCE = ['at same times', 'and at same times', ', at same times', 'while at same times'];
const CONNECTS = ['and then', 'and', 'then'];

/** sentences = sentence, { ( "." | "," | ";" | "and" | "then" ), sentence }; */
export function readSentences(reader: Reader, label: RowLabel | undefined): Result {
  const sentences: Sentence[] = [];
  while (!reader.done && !sentenceEnds(reader)) {
    const read = readSentence(reader, label);
    if (!read) return undefined;
    sentences.push(...read);
    if (!takeSeparator(reader)) return trailing(reader);
  }
  return sentences;
}

/** A full stop, a comma or a word that connects; nothing where the line or its count ends. */
function takeSeparator(reader: Reader): boolean {
  const stop = reader.take('.');
  if (sentenceEnds(reader) && !reader.is('.')) return true;
  const comma = reader.take(',', ';');
  return reader.take(...CONNECTS) || comma || stop || reader.is(...AT_ONCE);
}

function trailing(reader: Reader): undefined {
  const token = reader.peek();
  const facts = { found: token.text, after: reader.last.text };
  return reader.problem('notation/trailing', token.span, facts);
}

/** A row's own label: what follows is worked inside it. */
const isRow = (label: RowLabel | undefined): boolean =>
  label !== undefined && label.kind !== 'named';

/**
 * sentence = at the same time | steps | shape | edge rows | repeat rows | cast on | join | draw through
 *          | join stitches | bind off all | hold | resume | needle | yarn | mark | prose | work even
 *          | actions;
 */
function readSentence(reader: Reader, label: RowLabel | undefined): Result {
  if (reader.take(...AT_ONCE)) return one(readAtTheSameTime(reader, label));
  if (isSteps(reader)) return one(readSteps(reader, label));
  const edge = readEdgeRows(reader);
  if (edge) return edge;
  if (isShape(reader)) return readShape(reader);
  const inChart = isRow(label) && isChart(reader);
  if (!inChart && isRepeatRows(reader)) return one(readRepeatRows(reader));
  const fixed = readFixed(reader, label);
  if (fixed) return [fixed];
  const position = reader.position;
  const actions = readActions(
    reader,
    (at) => sentenceEnds(at) || at.is(...AT_ONCE, ', and at same times'),
  );
  if (!actions) return undefined;
  if (actions.length === 0) return reader.missing('a stitch');
  return [alone(actions) ?? { kind: 'actions', actions, span: reader.spanFrom(position) }];
}

const one = (sentence: Sentence | undefined): Result => sentence && [sentence];

/** Forms that are a sentence only where they are the whole of it; inside a row some are actions. */
function readFixed(reader: Reader, label: RowLabel | undefined): Sentence | undefined {
  const whole = <T extends Sentence>(read: (reader: Reader) => T | undefined): T | undefined =>
    reader.attempt(() => {
      const sentence = read(reader);
      return sentence && endsSentence(reader) ? sentence : undefined;
    });
  const step = isRow(label)
    ? undefined
    : (whole(readCastOnSentence) ??
      whole(readHoldSentence) ??
      whole(readResumeSentence) ??
      whole(readMark));
  return step ?? whole(readJoin) ?? whole(readDrawThrough) ?? whole(readJoinStitches) ?? whole(readWorkEven) ??
    readNeedle(reader) ?? whole(readYarnSentence) ?? whole(readProse); // prettier-ignore
}

/** Whether a sentence may end here: at its count, a full stop, or where another one is joined on. */
const endsSentence = (reader: Reader): boolean =>
  sentenceEnds(reader) || reader.is(',', ';', ...CONNECTS);

/** `Bind off all sts.`: binding off everything, and nothing else, ends a piece. */
function alone(actions: readonly Action[]): Sentence | undefined {
  const [action] = actions;
  if (actions.length !== 1 || action?.kind !== 'bindOff' || action.count !== 'all')
    return undefined;
  const { manner, method, span } = action;
  return { kind: 'bindOffAll', manner, ...(method !== undefined && { method }), span };
}

/** at the same time = "AT THE SAME TIME", [ "," ], [ start, "," ], sentences; */
function readAtTheSameTime(reader: Reader, label: RowLabel | undefined): Sentence | undefined {
  return reader.nested(() => {
    const position = reader.position;
    reader.take(',', ':', ';');
    const start = reader.attempt(() => readStart(reader));
    const sentences = readSentences(reader, label);
    if (!sentences) return undefined;
    if (sentences.length === 0) return reader.missing('what is worked at the same time');
    const span = reader.spanFrom(position);
    return { kind: 'atTheSameTime', ...(start && { start }), sentences, span };
  });
}

/** start = "when", ( measure | sized, "sts remain" ) | "after", ( length | sized, "rows" ); */
function readStart(reader: Reader): Extent | undefined {
  if (!reader.is('when', 'once', 'after')) return undefined;
  const until = reader.take('when', 'once');
  if (!until) reader.take('after');
  const extent = until ? readStarted(reader, 'until') : readStarted(reader, 'for');
  if (!extent || !reader.take(',')) return undefined;
  reader.take('beg to', 'beg');
  return extent;
}

function readStarted(reader: Reader, how: 'until' | 'for'): Extent | undefined {
  return readExtent(reader, 'total', how);
}

/** Whether a bracket holds sentences over rows and not stitches: its first one tells. */
function isSteps(reader: Reader): boolean {
  if (!reader.is('[', '(')) return false;
  const position = reader.position;
  reader.next();
  const rows = isRepeatRows(reader) && !isChart(reader);
  const found = rows || isShape(reader) || startsEven(reader) || readEdgeRows(reader) !== undefined;
  reader.back(position);
  return found;
}

/** `Work 5 rows even`, `Knit 3 rows`: rows, where stitches would have no row to count. */
function startsEven(reader: Reader): boolean {
  const position = reader.position;
  const found = readWorkEven(reader);
  const rows = found !== undefined && found.extent.kind !== 'once' && endsSentence(reader);
  reader.back(position);
  return rows;
}

/** steps = "[", sentences, "]", ( times | extent ); */
function readSteps(reader: Reader, label: RowLabel | undefined): Sentence | undefined {
  return reader.nested(() => {
    const position = reader.position;
    const open = reader.next();
    const sentences = readSentences(reader, label);
    if (!sentences) return undefined;
    if (!reader.take(open.term === '[' ? ']' : ')')) {
      const closing = open.term === '[' ? ']' : ')';
      return reader.problem('notation/open-bracket', open.span, { bracket: open.text, closing });
    }
    const times = readTimes(reader);
    const extent: Extent | undefined = times
      ? { kind: times.counts === 'more' ? 'more' : 'total', times: times.times }
      : readExtent(reader, 'total');
    return extent && { kind: 'steps', sentences, extent, span: reader.spanFrom(position) };
  });
}
