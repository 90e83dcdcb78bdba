/**
 * What the needle did, as other rooms read it: for every line and size the count before and after, rows
 * and length, and whether a later problem calls the count in question.
 */
import type { LineTrace, Outcome, Piece } from '../pattern.ts';
import { type Group, isHard, type LineRun } from './piece.ts';
import { stitchesOn } from './state.ts';

type Runs = readonly (readonly LineRun[])[];

export function tracesOf(piece: Piece, groups: readonly Group[], runs: Runs): readonly LineTrace[] {
  const lines = piece.sections.flatMap((section) => section.lines);
  const groupOf = new Map(
    groups.flatMap(({ first, followers }, at) => [first, ...followers].map((line) => [line, at])),
  );
  const doubts = runs.map(doubtsOf);
  return lines.map((line, index) => {
    const at = groupOf.get(index) ?? 0;
    const leads = groups[at]?.first === index;
    const outcomes = runs.map((each, size) => {
      const run = each[at];
      if (!run) return NOTHING;
      const outcome = outcomeOf(run, leads, each[at - 1]?.after.inches ?? 0);
      return doubts[size]?.[at] ? { ...outcome, doubtful: true } : outcome;
    });
    return { line, outcomes };
  });
}

/**
 * Lines whose count a later problem calls in question: back to the last count that was stated and
 * agreed. Where the stated number itself is the slip, the lines before it stand.
 */
function doubtsOf(runs: readonly LineRun[]): readonly boolean[] {
  const doubts = runs.map(() => false);
  let doubt = false;
  for (let at = runs.length - 1; at >= 0; at -= 1) {
    const run = runs[at];
    if (!run) continue;
    const hard = run.problems.some(isHard) && run.corrected !== true;
    if (run.culprit === true) doubts[at] = true;
    else if (hard) {
      const onlyStated = run.verdict?.from === 'worked' && !run.result.failed;
      doubt = !(onlyStated && run.verdict?.otherFailsAt !== undefined);
      doubts[at] = doubt;
    } else {
      if (agrees(run)) doubt = false;
      doubts[at] = doubt;
    }
  }
  return doubtsAfter(runs, doubts);
}

/** What is worked from a count that nothing decided is in doubt as well, up to the next one stated. */
function doubtsAfter(runs: readonly LineRun[], before: readonly boolean[]): readonly boolean[] {
  let doubt = false;
  return runs.map((run, at) => {
    if (run.problems.some(isHard) && run.corrected !== true) doubt = before[at] === true;
    else if (run.unsure) doubt = true;
    else if (agrees(run)) doubt = false;
    return doubt || before[at] === true;
  });
}

const agrees = ({ result, unsure }: LineRun): boolean =>
  result.stated !== undefined && !result.skipped && !unsure;

const NOTHING: Outcome = {
  before: 0,
  after: 0,
  rows: 0,
  lengthInches: 0,
  rowAfter: 0,
  skipped: true,
  failed: true,
};

/** A line worked together with the one before it has no rows of its own. */
export function outcomeOf(
  { result, after }: LineRun,
  leads: boolean,
  inchesBefore: number,
): Outcome {
  const { state } = result;
  const followed = [...state.fabricRows].filter(([, each]) => each.row === state.row);
  // A cast-on begins a new length; what was worked before it is not undone.
  const grown = state.inches - (state.row < result.rows ? 0 : inchesBefore);
  return {
    before: leads ? result.before : stitchesOn(after),
    after: stitchesOn(after),
    rows: leads ? result.rows : 0,
    lengthInches: leads && result.rows > 0 ? Math.max(0, grown) : 0,
    rowAfter: state.row,
    ...(followed.length > 0 && {
      patternRows: Object.fromEntries(followed.map(([id, { patternRow }]) => [id, patternRow])),
    }),
    skipped: result.skipped,
    failed: result.failed,
  };
}
