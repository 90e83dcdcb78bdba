/**
 * Shaping that mirrors itself (`k1, ssk, … k2tog, k1`) stands as far from one edge as from the other.
 * Looks at each stretch between markers whose first and last shaping lean against each other, and
 * compares what is worked outside of them.
 */
import type { Action } from '../notation/ast.ts';
import type { LineLook, LineRemark } from './line-checks.ts';

/** A stretch of a row between its ends and its markers. */
type Stretch = readonly Action[];

export function mirrorFaults(look: LineLook): readonly LineRemark[] {
  return look.line.sentences.flatMap((sentence) =>
    sentence.kind === 'actions' ? inActions(look, sentence.actions) : [],
  );
}

function inActions(look: LineLook, actions: readonly Action[]): readonly LineRemark[] {
  const inside = actions.flatMap((action) =>
    action.kind === 'repeat' || action.kind === 'group' ? inActions(look, action.actions) : [],
  );
  return [...stretchesOf(actions).flatMap((stretch) => inStretch(look, stretch)), ...inside];
}

function stretchesOf(actions: readonly Action[]): readonly Stretch[] {
  const stretches: Action[][] = [[]];
  for (const action of actions) {
    if (action.kind === 'marker') stretches.push([]);
    else stretches.at(-1)?.push(action);
  }
  return stretches;
}

function inStretch(look: LineLook, stretch: Stretch): readonly LineRemark[] {
  const shapings = stretch.flatMap((action, at) => (isShaping(look, action) ? [at] : []));
  const [from] = shapings;
  const to = shapings.at(-1);
  if (from === undefined || to === undefined || from === to || shapings.length !== 2) return [];
  const one = stretch[from];
  const other = stretch[to];
  if (one?.kind !== 'work' || other?.kind !== 'work' || !areMirrored(look, one, other)) return [];
  // Only a stretch that reaches over the whole width has two edges to be mirrored about.
  if (!stretch.slice(from, to).some((action) => action.kind === 'workTo')) return [];
  const outside = (actions: Stretch, size: number) => takesOf(look, actions, size);
  const sizes = Array.from({ length: look.sizes }, (_, size) => size);
  const before = sizes.map((size) => outside(stretch.slice(0, from), size));
  const after = sizes.map((size) => outside(stretch.slice(to + 1), size));
  const affected = sizes.filter((size) => {
    const left = before[size];
    const right = after[size];
    return typeof left === 'number' && typeof right === 'number' && left !== right;
  });
  if (affected.length === 0) return [];
  const { span } = one;
  return [{ kind: 'mirror', span, first: one.stitch, last: other.stitch, before, after, affected }];
}

function isShaping(look: LineLook, action: Action): boolean {
  if (action.kind !== 'work') return false;
  const stitch = look.stitch(action.stitch);
  return stitch !== undefined && stitch.takes !== stitch.makes;
}

type Work = Extract<Action, { kind: 'work' }>;

/** Both increase or both decrease by the same, and lean against each other. */
function areMirrored(look: LineLook, one: Work, other: Work): boolean {
  const first = look.stitch(one.stitch);
  const last = look.stitch(other.stitch);
  if (!first || !last) return false;
  const against =
    (first.lean === 'left' && last.lean === 'right') ||
    (first.lean === 'right' && last.lean === 'left');
  return against && first.takes - first.makes === last.takes - last.makes;
}

/** Stitches a stretch takes, or null where that depends on the needle. */
function takesOf(look: LineLook, actions: Stretch, size: number): number | null {
  let sum = 0;
  for (const action of actions) {
    if (action.kind === 'yarn') continue;
    if (action.kind !== 'work') return null;
    const stitch = look.stitch(action.stitch);
    const times = look.read(action.times, size);
    if (!stitch || times === null) return null;
    sum += stitch.takes * times;
  }
  return sum;
}
