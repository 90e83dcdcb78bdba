/**
 * Stitches whose name depends on what stands beside them: a British yarn over is a `yfwd`, `yfrn`, `yon`
 * or `yrn` by the stitches before and after it. A glossary that makes this difference has entries like
 * `yo between k p`; where there are none, the plain name is said.
 */
import type { Action, StitchName } from '../pattern/notation/ast.ts';
import { CATALOGUE } from '../pattern/stitches/index.ts';
import type { Language } from './language.ts';

type Face = 'k' | 'p';

/** The stitches an action begins or ends with, by the face they show to the knitter. */
function faceOf(action: Action | undefined, end: 'first' | 'last'): Face | undefined {
  if (!action) return undefined;
  if (action.kind === 'group' || action.kind === 'repeat' || action.kind === 'into') {
    return faceOf(end === 'first' ? action.actions[0] : action.actions.at(-1), end);
  }
  if (action.kind !== 'work' && action.kind !== 'workTo') return undefined;
  return CATALOGUE.lookup(action.stitch)?.face === 'purl' ? 'p' : 'k';
}

/**
 * The name to say for the stitch at `index`. At the ends of a list that is worked `again` and again, the
 * neighbour is the other end of the list; with nothing beside it, a knit stitch is taken.
 */
export function nameBetween(
  language: Language,
  actions: readonly Action[],
  index: number,
  stitch: StitchName,
  again: boolean,
): StitchName {
  const { stitches } = language.glossary;
  if (!Object.hasOwn(stitches, `${stitch} between k k`)) return stitch;
  const before = faceOf(actions[index - 1] ?? (again ? actions.at(-1) : undefined), 'last') ?? 'k';
  const after = faceOf(actions[index + 1] ?? (again ? actions[0] : undefined), 'first') ?? 'k';
  const name = `${stitch} between ${before} ${after}`;
  return Object.hasOwn(stitches, name) ? name : stitch;
}
