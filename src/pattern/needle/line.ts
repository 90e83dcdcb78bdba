/**
 * Works one line of the instructions in one size: its sentences in order, under its label, up to the
 * count it states. Takes the state before, gives the state after with every problem found; the next
 * line may then be worked from what was counted or from what is stated.
 */
import type { Stated } from '../notation/ast.ts';
import type { Line, RowLabel } from '../notation/ast.ts';
import type { Sized } from '../bundle/size-list.ts';
import type { Span } from '../../base/span.ts';
import { type Env, readerOf, sizesOfLine } from './env.ts';
import type { Job } from './job.ts';
import { beginNumbers, catchUp, checkOrder, numbersOf, rowsOfLabel } from './labels.ts';
import { type Problem, problem } from './problem.ts';
import { workSentences } from './sentences.ts';
import { lastRows, type State, stitchesOn } from './state.ts';

export interface LineResult {
  readonly state: State;
  readonly before: number;
  readonly rows: number;
  readonly skipped: boolean;
  readonly problems: readonly Problem[];
  /** The rows could not be worked to the end. */
  readonly failed: boolean;
  /** Worked over rows that could not be worked before. */
  readonly usedFaulty: boolean;
  /** What the line states is on the needle after it, where it states a count of all stitches. */
  readonly stated?: number;
}

/** `together`: following lines that say AT THE SAME TIME and are worked with this one. */
export function workLine(
  state: State,
  line: Line,
  lineIndex: number,
  env: Env,
  size: number,
  together: readonly Line[] = [],
): LineResult {
  const before = stitchesOn(state);
  if (isForOthers(line, env, size)) {
    return {
      state,
      before,
      rows: 0,
      skipped: true,
      problems: [],
      failed: false,
      usedFaulty: false,
    };
  }
  const job: Job = {
    env,
    size,
    line,
    lineIndex,
    read: readerOf(env, lineIndex, size),
    state,
    rows: 0,
    problems: [],
    failed: false,
    fabric: undefined,
    exactInches: undefined,
    usedFaulty: false,
  };
  const others = together.filter((each) => !isForOthers(each, env, size));
  const sentences = [...line.sentences, ...others.flatMap((each) => each.sentences)];
  const finish = beginLabel(job, line.label, line);
  workSentences(job, sentences, rowsOfLabel(line.label, job.read));
  finish();
  const stated = statedTotal(job, line.stated ?? others.at(-1)?.stated);
  return {
    state: job.state,
    before,
    rows: job.rows,
    skipped: applies(job, state),
    problems: [...job.problems, ...(job.failed ? [] : checkStated(job, before, line, others))],
    failed: job.failed,
    usedFaulty: job.usedFaulty,
    ...(stated !== undefined && { stated }),
  };
}

function isForOthers(line: Line, env: Env, size: number): boolean {
  const only = sizesOfLine(line, env.sizes);
  return only !== undefined && !only.includes(size);
}

/** A line that did nothing in this size was not for it: "Bind off – (–, 4) sts". */
const applies = (job: Job, before: State): boolean =>
  job.state === before && job.problems.length === 0 && hasRows(job.line);

const hasRows = (line: Line): boolean =>
  line.sentences.some(({ kind }) => !['needle', 'yarn', 'prose', 'mark'].includes(kind));

/** Numbered labels of lines that are not written row by row keep their numbers as well. */
function beginLabel(job: Job, label: RowLabel | undefined, line: Line): () => void {
  const written = line.sentences.some((sentence) => sentence.kind === 'actions');
  if (label?.kind !== 'numbered' || written) return () => undefined;
  const numbers = numbersOf(label.ranges, job.read) ?? [];
  checkOrder(job, label, numbers);
  beginNumbers(job, numbers);
  const first = numbers[0];
  if (first !== undefined) catchUp(job, label, first);
  return () => {
    const last = numbers.at(-1);
    if (last === undefined || job.failed) return;
    const rows = lastRows(job.state, numbers.length);
    const kept = new Map(job.state.written);
    numbers.forEach((number, at) => {
      const row = rows[at];
      const inStep = first === 1 ? { ofLabel: numbers.length } : {};
      if (row) kept.set(number, { ...row, number, ...inStep });
    });
    job.state = { ...job.state, number: last, written: kept };
  };
}

// ---------------------------------------------------------------- the stated count

function statedTotal(job: Job, stated: Stated | undefined): number | undefined {
  if (!stated || stated.part !== undefined) return undefined;
  const total = stated.total ?? (stated.change ? undefined : stated.count);
  const value = total && job.read(total);
  return value ?? undefined;
}

function checkStated(
  job: Job,
  before: number,
  line: Line,
  others: readonly Line[],
): readonly Problem[] {
  const stated = line.stated ?? others.at(-1)?.stated;
  if (!stated) return [];
  const worked = stitchesOn(job.state);
  const found: Problem[] = [];
  const count = job.read(stated.count);
  const spanOf = (sized: Sized): Span => spanIn(sized, job) ?? stated.span;
  if (stated.change !== undefined && count !== null) {
    const changed = stated.change === 'increased' ? worked - before : before - worked;
    if (changed !== count) {
      const numbers = { before, worked, changed, stated: count };
      const words = { change: stated.change };
      found.push(problem('count/stated-change', spanOf(stated.count), numbers, words));
    }
  }
  const total = stated.total ?? (stated.change ? undefined : stated.count);
  const value = total ? job.read(total) : null;
  if (!total || value === null) return found;
  if (stated.part !== undefined) return [...found, ...checkPart(stated, worked, value, before)];
  if (value !== worked) {
    found.push(problem('count/stated', spanOf(total), { before, worked, stated: value }, {}));
  }
  return found;
}

/** `14 sts each shoulder`: two parts of the needle, or the one that is being worked. */
function checkPart(
  stated: Stated,
  worked: number,
  value: number,
  before: number,
): readonly Problem[] {
  if (!/each/i.test(stated.part ?? '') || value === worked || value * 2 === worked) return [];
  return [problem('count/stated', stated.span, { before, worked, stated: value }, {})];
}

/** Where the value of this size stands in its list. */
function spanIn(sized: Sized, job: Job): Span | undefined {
  if (sized.spans.length === 1) return sized.spans[0];
  const only = sizesOfLine(job.line, job.env.sizes);
  const short = only && sized.values.length === only.length && only.length !== job.env.sizes.length;
  return sized.spans[short ? only.indexOf(job.size) : job.size];
}
