/**
 * The sentences of one line, one after another. Decides by the first words what a sentence is; what is
 * none of the fixed forms is a row. Whether a line has a row's label decides the few cases in which the
 * same words may stand for a row or for a step of its own.
 */
import type { Action, Extent, RowLabel, Sentence, Side } from '../ast.ts';
import type { Reader } from '../text/reader.ts';
import { isChange } from '../row/change.ts';
import { isChart } from '../row/chart.ts';
import { readActions, sentenceEnds } from '../row/actions.ts';
import { isShortYarn, readYarnTaken } from '../row/yarn.ts';
import { readName } from '../text/name.ts';
import { readEdgeRows } from './edge-rows.ts';
import { readExtent } from './extent.ts';
import { isRepeatRows, readRepeatRows } from './repeat-rows.ts';
import { isShape, readShape } from './shape.ts';
import { readDrawThrough, readHoldSentence, readJoinStitches, readMark, readProse, readResumeSentence } from './ending.ts'; // prettier-ignore
import { isJoin, readCastOnSentence, readFacing, readJoin, readNeedle, readYarnSentence } from './set-up.ts'; // prettier-ignore
import { readWorkEven } from './work-even.ts';

type Result = readonly Sentence[] | undefined;

const AT_ONCE = ['at same times', 'and at same times', ', at same times', 'while at same times'];
const CONNECTS = ['and then', 'and', 'then'];

/**
 * Shaping joined by a comma to a stretch that has an end of its own (`work until piece measures 17 in,
 * inc 1 st each end every 6th row 8 times`) runs together with it, unless it is worked even.
 * @rule sentences = sentence, { ( "." | "," | ";" | "and" | "then" ), sentence };
 */
export function readSentences(reader: Reader, label: RowLabel | undefined): Result {
  const sentences: Sentence[] = [];
  let separator: Separator = 'stop';
  while (!reader.done && !sentenceEnds(reader)) {
    const position = reader.position;
    const within = separator === 'comma' && isOpenEnded(reader, sentences.at(-1));
    const shaping = within && reader.is('inc', 'dec') && isShape(reader);
    const read = readSentence(reader, label);
    if (!read) return undefined;
    if (shaping) {
      sentences.push({ kind: 'atTheSameTime', sentences: read, span: reader.spanFrom(position) });
    } else sentences.push(...read);
    const next = takeSeparator(reader);
    if (!next) return trailing(reader);
    separator = next;
  }
  return sentences;
}

/** A stretch up to a length or a count, in which shaping can run along. */
function isOpenEnded(reader: Reader, sentence: Sentence | undefined): boolean {
  if (sentence?.kind !== 'workEven' && sentence?.kind !== 'repeatRows') return false;
  const { start, end } = sentence.span;
  const even = /\b(?:even|straight)\b/i.test(reader.text.slice(start, end));
  return !even && (sentence.extent.kind === 'length' || sentence.extent.kind === 'count');
}

type Separator = 'stop' | 'comma';

/** A full stop, a comma or a word that connects; nothing where the line or its count ends. */
function takeSeparator(reader: Reader): Separator | undefined {
  const stop = reader.take('.', '!');
  if (sentenceEnds(reader) && !reader.is('.')) return 'stop';
  const comma = reader.take(',');
  const semicolon = !comma && reader.take(';');
  if (reader.take('and then', 'then')) return 'stop';
  if (reader.take('and', 'while') || comma) return 'comma';
  return stop || semicolon || reader.is(...AT_ONCE) || isJoin(reader) ? 'stop' : undefined;
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
 * @rule sentence = at the same time | steps | edge rows | shape | repeat rows | [ faced ], (
 *   fixed sentence | actions );
 */
function readSentence(reader: Reader, label: RowLabel | undefined): Result {
  if (reader.take(...AT_ONCE)) return one(readAtTheSameTime(reader, label));
  if (isSteps(reader)) return one(readSteps(reader, label));
  const edge = readEdgeRows(reader);
  if (edge) return edge;
  if (isShape(reader)) return readShape(reader);
  const charted = isChart(reader) && !reader.is('work chart');
  if (!charted && isRepeatRows(reader)) return one(readRepeatRows(reader));
  const yarned = reader.attempt(() => readYarned(reader));
  if (yarned) return yarned;
  const faced = readFaced(reader);
  const fixed = faced.facing ? readFacedYarn(reader, label) : readFixed(reader, label);
  if (fixed) return [...faced.needle, withFacing(fixed, faced.facing)];
  const position = reader.position;
  const actions = readActions(
    reader,
    (at) => sentenceEnds(at) || at.is(...AT_ONCE, ', and at same times') || isJoin(at),
  );
  if (!actions) return undefined;
  if (actions.length === 0) return reader.missing('a stitch');
  const span = reader.spanFrom(position);
  const row = bindOffAll(actions) ?? { kind: 'actions', actions, span };
  return [...faced.needle, withFacing(row, faced.facing)];
}

interface Faced {
  readonly facing?: Side;
  readonly needle: readonly Sentence[];
}

/** @rule faced = facing, [ "and", name, "needles" ], ","; */
function readFaced(reader: Reader): Faced {
  const position = reader.position;
  const bracket = reader.attempt(() => readSideAlone(reader));
  if (bracket) return { facing: bracket, needle: [] };
  const facing = readFacing(reader);
  if (!facing) return { needle: [] };
  const needle = reader.attempt(() => {
    if (!reader.take(', and', 'and') && !reader.is(', using', ', with', 'using')) return undefined;
    reader.take(',');
    reader.take('using', 'with');
    const name = readName(reader, 'needle', 'and');
    return name !== undefined && reader.take('needle') ? name : undefined;
  });
  reader.take(',');
  const span = reader.spanFrom(position);
  return { facing, needle: needle === undefined ? [] : [{ kind: 'needle', needle, span }] };
}

/** `(RS) K to end.` */
function readSideAlone(reader: Reader): Side | undefined {
  if (!reader.is('( RS )', '( WS )')) return undefined;
  reader.next();
  const side = reader.next().term === 'RS' ? 'RS' : 'WS';
  reader.next();
  reader.take(':', ',');
  return side;
}

/** `With RS facing, join yarn.` and nothing more; in a row it is a part of it. */
const readFacedYarn = (reader: Reader, label: RowLabel | undefined): Sentence | undefined =>
  reader.attempt(() => {
    const yarn = isRow(label) ? undefined : readYarnSentence(reader);
    return yarn && sentenceEnds(reader) ? yarn : undefined;
  });

function withFacing(sentence: Sentence, facing: Side | undefined): Sentence {
  if (!facing) return sentence;
  return sentence.kind === 'actions' || sentence.kind === 'yarn'
    ? { ...sentence, facing }
    : sentence;
}

/** `With MC, knit 2 rnds`, `Knit 1 rnd in MC`: the yarn changes and is worked for whole rows. */
function readYarned(reader: Reader): readonly Sentence[] | undefined {
  const before = reader.attempt(() => readYarnTaken(reader));
  reader.take(',');
  const even = readWorkEven(reader);
  if (!even || even.extent.kind === 'once') return undefined;
  const yarn = before ?? (isShortYarn(reader) ? readYarnTaken(reader) : undefined);
  if (!yarn || !endsSentence(reader)) return undefined;
  return [{ kind: 'yarn', act: 'change', yarn: yarn.yarn, span: yarn.span }, even];
}

const one = (sentence: Sentence | undefined): Result => sentence && [sentence];

/**
 * Forms that are a sentence only where they are the whole of it; inside a row some are actions.
 * @rule fixed sentence = cast on line | hold | resume line | mark | join | draw through | join
 *   stitches | work even | needle | yarn line | prose;
 */
function readFixed(reader: Reader, label: RowLabel | undefined): Sentence | undefined {
  if (isChange(reader)) return undefined;
  const whole = <T extends Sentence>(read: (reader: Reader) => T | undefined): T | undefined =>
    reader.attempt(() => {
      const sentence = read(reader);
      return sentence && endsSentence(reader) ? sentence : undefined;
    });
  const alone = <T extends Sentence>(read: (reader: Reader) => T | undefined): T | undefined =>
    reader.attempt(() => {
      const sentence = read(reader);
      const ends = sentenceEnds(reader) || reader.is('and join', ', join');
      return sentence && ends ? sentence : undefined;
    });
  const step = isRow(label)
    ? undefined
    : (whole(readCastOnSentence) ??
      alone(readHoldSentence) ??
      alone(readResumeSentence) ??
      alone(readMark));
  return step ?? whole(readJoin) ?? whole(readDrawThrough) ?? whole(readJoinStitches) ?? whole(readWorkEven) ??
    readNeedle(reader) ?? (isRow(label) && !reader.is('fasten off') ? undefined : whole(readYarnSentence)) ?? whole(readProse); // prettier-ignore
}

/** Whether a sentence may end here: at its count, a full stop, or where another one is joined on. */
const endsSentence = (reader: Reader): boolean =>
  sentenceEnds(reader) || reader.is(',', ';', ...CONNECTS);

/** `Bind off all sts.`: binding off everything, and nothing else, ends a piece. */
function bindOffAll(actions: readonly Action[]): Sentence | undefined {
  const [action] = actions;
  if (actions.length !== 1 || action?.kind !== 'bindOff' || action.count !== 'all')
    return undefined;
  const { manner, method, span } = action;
  return { kind: 'bindOffAll', manner, ...(method !== undefined && { method }), span };
}

/** @rule at the same time = "AT THE SAME TIME", [ "," ], [ start, "," ], sentences; */
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

/** @rule start = "when", ( measured | sized, "sts remain" ) | "after", ( length | sized, unit ); */
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

/** @rule steps = "[", sentences, "]", extent; */
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
    const extent = readExtent(reader, 'total');
    return extent && { kind: 'steps', sentences, extent, span: reader.spanFrom(position) };
  });
}
