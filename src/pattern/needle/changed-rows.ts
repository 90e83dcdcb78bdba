/**
 * A written row worked again with a change: "as Row 4, but k9 instead of k10", "having 1 st less
 * between decs". Gives new actions; the row they came from stays as it was.
 */
import type { Action } from '../notation/ast.ts';
import { sizedOf } from '../bundle/size-list.ts';
import type { Env, NumberReader } from './env.ts';
import { flowOf } from './flow.ts';

interface Replacement {
  readonly old: readonly Action[];
  readonly now: readonly Action[];
}

/** Every run of actions that reads like `old` becomes `now`, inside brackets and repeats as well. */
export function replaceActions(
  actions: readonly Action[],
  replacements: readonly Replacement[],
  read: NumberReader,
): readonly Action[] {
  const result: Action[] = [];
  for (let at = 0; at < actions.length;) {
    const found = replacements.find(
      ({ old }) => old.length > 0 && startsWith(actions, at, old, read),
    );
    const action = actions[at];
    if (found) {
      result.push(...found.now);
      at += found.old.length;
    } else {
      if (action) result.push(within(action, (inner) => replaceActions(inner, replacements, read)));
      at += 1;
    }
  }
  return result;
}

const startsWith = (
  actions: readonly Action[],
  at: number,
  wanted: readonly Action[],
  read: NumberReader,
): boolean => wanted.every((each, index) => alike(actions[at + index], each, read));

/** The same stitch, so many times, for this size. Other forms are compared by what they say. */
function alike(one: Action | undefined, other: Action, read: NumberReader): boolean {
  if (!one || one.kind !== other.kind) return false;
  if (one.kind === 'work' && other.kind === 'work') {
    return one.stitch === other.stitch && read(one.times) === read(other.times);
  }
  return wordless(one) === wordless(other);
}

const wordless = (value: unknown): string =>
  JSON.stringify(value, (key, inner: unknown) =>
    key === 'span' || key === 'spans' ? undefined : inner,
  );

function within(action: Action, change: (actions: readonly Action[]) => readonly Action[]): Action {
  if (action.kind === 'group') return { ...action, actions: change(action.actions) };
  if (action.kind === 'repeat') {
    const { endingWith } = action;
    return {
      ...action,
      actions: change(action.actions),
      ...(endingWith && { endingWith: change(endingWith) }),
    };
  }
  return action;
}

/** The plain stretch between shapings becomes longer or shorter: the longest run of each repeat. */
export function changePlain(
  actions: readonly Action[],
  by: number,
  env: Env,
  read: NumberReader,
): readonly Action[] {
  const shapes = actions.some((action) => {
    const flow = action.kind === 'work' ? flowOf(action, read, env) : undefined;
    return flow !== undefined && flow.takes !== flow.makes;
  });
  if (!shapes)
    return actions.map((action) => within(action, (inner) => changePlain(inner, by, env, read)));
  const longest = actions.reduce<number>((best, _, at) => {
    const here = plainTimes(actions[at], env, read);
    return here > plainTimes(actions[best], env, read) ? at : best;
  }, -1);
  return actions.map((action, at) =>
    at === longest && action.kind === 'work'
      ? { ...action, times: sizedOf(Math.max(0, (read(action.times) ?? 0) + by)) }
      : action,
  );
}

/** Times of a stitch that keeps the count; -1 for everything else. */
function plainTimes(action: Action | undefined, env: Env, read: NumberReader): number {
  if (action?.kind !== 'work') return -1;
  const flow = env.stitch(action.stitch);
  return flow && flow.takes === flow.makes && flow.takes > 0 ? (read(action.times) ?? 0) : -1;
}
