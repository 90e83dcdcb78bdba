/**
 * The arithmetic of actions whose count does not depend on what lies on the needle: how many stitches
 * they take and make together. Actions that look ahead (to a marker, to the end, turns, holders) have
 * no such sum and are worked one by one.
 */
import { assertNever } from '../../base/assert.ts';
import type { Action } from '../notation/ast.ts';
import { alternativeIn, type Env, type NumberReader, type StitchFlow } from './env.ts';

const NOTHING: StitchFlow = { takes: 0, makes: 0 };

/** The sum of a list of actions, or undefined where it depends on the needle. */
export function flowOfAll(
  actions: readonly Action[],
  read: NumberReader,
  env: Env,
): StitchFlow | undefined {
  let takes = 0;
  let makes = 0;
  for (const action of actions) {
    const flow = flowOf(action, read, env);
    if (!flow) return undefined;
    takes += flow.takes;
    makes += flow.makes;
  }
  return { takes, makes };
}

export function flowOf(action: Action, read: NumberReader, env: Env): StitchFlow | undefined {
  switch (action.kind) {
    case 'work': {
      const flow = env.stitch(action.stitch);
      return flow && times(flow, read(action.times));
    }
    case 'group': {
      const flow = flowOfAll(action.actions, read, env);
      return flow && times(flow, read(action.times));
    }
    case 'into': {
      const flow = flowOfAll(action.actions, read, env);
      const takes = action.together ? (read(action.together) ?? 1) : 1;
      return flow && times({ takes, makes: flow.makes }, read(action.times));
    }
    case 'repeat': {
      const flow = flowOfAll(action.actions, read, env);
      const { until } = action;
      if (!flow || until.kind === 'goal' || action.endingWith) return undefined;
      const count = read(until.times) ?? 0;
      return times(flow, until.kind === 'more' ? count + 1 : count);
    }
    case 'bySize':
      return flowOfAll(alternativeIn(action, read), read, env);
    case 'bindOff': {
      if (action.count === 'all') return undefined;
      const count = read(action.count) ?? 0;
      if (count === 0) return NOTHING;
      return action.lastStitch === 'apart'
        ? { takes: count + 1, makes: 1 }
        : { takes: count, makes: 0 };
    }
    case 'castOn':
    case 'pickUp':
      return { takes: 0, makes: read(action.count) ?? 0 };
    case 'yarn':
      return NOTHING;
    case 'workTo':
    case 'marker':
    case 'hold':
    case 'resume':
    case 'turn':
    case 'slide':
    case 'chart':
    case 'evenly':
    case 'change':
      return undefined;
    default:
      return assertNever(action);
  }
}

const times = ({ takes, makes }: StitchFlow, count: number | null): StitchFlow =>
  count === null || count <= 0 ? NOTHING : { takes: takes * count, makes: makes * count };
