/**
 * Why nothing notices a change: because every count and length stays as it was, or because the rows it
 * adds are lost in the rounding of measurements. Gives the reason in words, or nothing where a count
 * does change and only nobody looks.
 */
import { present } from '../../base/assert.ts';
import { workPattern } from '../needle/index.ts';
import { rerun } from '../needle/rerun.ts';
import { withValues } from '../needle/vary.ts';
import type { BundleNumber, Variant } from './pin-numbers.ts';
import { type LineHome, sizesTouched, type Trial, withData } from './pin-trials.ts';

/** Rows that are lost in the rounding of measurements: half a step on either side. */
const ROUNDED_INCHES = 1 / 4;

/**
 * A change that leaves every count, or only works a row or two more than measurements can tell, is
 * beyond any check of numbers. Undefined where a count or a length does change.
 */
export function effectReason(
  trial: Trial,
  number: BundleNumber,
  missed: readonly Variant[],
): string | undefined {
  const { home } = number;
  if (home.kind === 'pattern') return SAME_COUNT;
  if (home.kind === 'data' && home.inText) return SAME_NUMBERS;
  if (home.kind === 'data')
    return onlyRowsChange(trial, home.steps, missed) ? LENGTHS_STATED : undefined;
  const effects = missed.map((variant) => effectOf(trial, number, home, variant));
  if (effects.includes('counts')) return undefined;
  return effects.includes('rows') ? SAME_LENGTH : SAME_COUNT;
}

const SAME_COUNT = 'every count and length stays: only where or how stitches are worked is changed';
const SAME_LENGTH = 'every count stays, and the rows are fewer than measurements are rounded to';

/** A rule whose counts were others would be told by the number that states them. */
const SAME_NUMBERS = 'the rule gives the same counts: the change is lost in their rounding';

const LENGTHS_STATED =
  'lengths are stated in inches or centimetres, and only the rows that reach them change';

/** A row gauge that only says how many rows a stated length takes. */
function onlyRowsChange(
  { context, pieces }: Trial,
  steps: readonly (string | number)[],
  missed: readonly Variant[],
): boolean {
  if (steps[0] !== 'gauges' || steps[2] !== 'rows') return false;
  const { pattern } = context;
  return missed.every((variant) => {
    const bundle = {
      ...pattern.bundle,
      data: withData(context.data, steps, variant.list[0] ?? null),
    };
    const worked = workPattern({ ...pattern, bundle });
    return worked.pieces.every((piece, at) =>
      piece.lines.every(({ outcomes }, line) =>
        outcomes.every((outcome, size) => {
          const before = pieces[at]?.lines[line]?.outcomes[size];
          return (
            before?.after === outcome.after &&
            Math.abs(before.lengthInches - outcome.lengthInches) < ROUNDED_INCHES
          );
        }),
      ),
    );
  });
}

function effectOf(
  trial: Trial,
  number: BundleNumber,
  home: LineHome,
  variant: Variant,
): 'none' | 'rows' | 'counts' {
  const { baseline, context } = trial;
  const line = present(baseline.envs[home.piece]?.lines[home.line]?.line, 'a line that was read');
  const changed = withValues(line, home.number, variant.list);
  let rows = false;
  for (const size of sizesTouched(trial, line, number, variant)) {
    const run = rerun(baseline, home.piece, home.line, changed, size);
    let inches = 0;
    const lines = baseline.envs[home.piece]?.lines ?? [];
    for (const index of lines.keys()) {
      const now = run.outcome(home.piece, index);
      const then = context.outcome(home.piece, index, size);
      if (!now || !then) continue;
      if (now.after !== then.after) return 'counts';
      inches += now.lengthInches - then.lengthInches;
      if (now.rows !== then.rows) rows = true;
    }
    if (Math.abs(inches) > ROUNDED_INCHES + 1e-9) return 'counts';
  }
  return rows ? 'rows' : 'none';
}
