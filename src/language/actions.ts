/**
 * What a row does, in words: every action of the notation said with the language's own message. Takes
 * the tree and the context, gives spoken parts; exhaustive over the union, so that a new action does
 * not compile until every language can be asked for it.
 */
import { assertNever, present } from '../base/assert.ts';
import { isAll, type Sized } from '../pattern/bundle/size-list.ts';
import type { Action, RepeatUntil } from '../pattern/notation/ast.ts';
import { sayChange, sayEvenly, sayWorkedIn } from './changes.ts';
import { agree, number, unitOf, type SayContext } from './context.ts';
import { sayGoal } from './goals.ts';
import { sayForm, type Spoken } from './language.ts';
import { joinParts } from './message.ts';
import {
  howOf,
  sayBindOff,
  sayCastOn,
  sayHold,
  sayMarker,
  sayPickUp,
  sayResume,
  sayTurn,
} from './needlework.ts';
import { nameBetween } from './neighbours.ts';
import { choose, exactly, groupOver } from './numbers.ts';
import { sayStitch, sayStitchRun } from './stitch.ts';
import { sayInFabric, sayYarn, spokenChart } from './words.ts';

export function sayActions(actions: readonly Action[], context: SayContext): Spoken {
  const [only] = actions;
  const whole = only?.kind === 'workTo' && only.goal.kind === 'end' && only.fabric === undefined;
  if (actions.length === 1 && whole) {
    const verb = sayStitchRun(context.language, only.stitch, 'verb');
    return sayForm(context.language, 'workAll', { verb });
  }
  return sayList(actions, context);
}

export function sayAction(action: Action, context: SayContext): Spoken {
  const { language } = context;
  switch (action.kind) {
    case 'work':
      return sayWork(action, context);
    case 'workTo':
      if (action.fabric !== undefined) {
        const fabric = sayInFabric(language, context.names, action.fabric);
        const slots = { fabric, goal: sayGoal(action.goal, context) };
        return sayForm(language, 'workInTo', slots, { context: action.goal.kind });
      }
      return sayForm(
        language,
        'workTo',
        { run: sayStitchRun(language, action.stitch), goal: sayGoal(action.goal, context) },
        { context: action.goal.kind },
      );
    case 'group':
      return saySeveral('group', action.actions, action.times, context);
    case 'into':
      return sayInto(action, context);
    case 'bySize':
      return sayBySize(action, context);
    case 'repeat':
      return sayRepeat(action, context);
    case 'marker':
      return sayMarker(action, context);
    case 'bindOff':
      return sayBindOff(action, context);
    case 'castOn':
      return sayCastOn(action.count, howOf(action, context), context);
    case 'pickUp':
      return sayPickUp(action, context);
    case 'hold':
      return sayHold(action, context);
    case 'resume':
      return sayResume([action.holder], action.count, context);
    case 'turn':
      return sayTurn(action, context);
    case 'slide':
      return sayForm(language, 'slide', {});
    case 'chart':
      return sayChartRow(action, context);
    case 'evenly':
      return sayWorkedIn(action.fabric, sayEvenly(action, context), context);
    case 'change':
      return sayWorkedIn(action.fabric, sayChange(action, context), context);
    case 'yarn': {
      const yarn = sayYarn(language, context.names, action.yarn);
      if (action.act === undefined) return sayForm(language, 'yarn.with', { yarn });
      return sayForm(language, action.act === 'join' ? 'yarn.joinNamed' : 'yarn.breakNamed', {
        yarn,
      });
    }
    default:
      return assertNever(action);
  }
}

type Of<Kind extends Action['kind']> = Extract<Action, { kind: Kind }>;

function sayWork(action: Of<'work'>, context: SayContext): Spoken {
  const { language, names } = context;
  if (action.fabric === undefined) {
    return sayStitch(language, action.stitch, choose(action.times, context.size));
  }
  const slots = {
    n: number(context, action.times),
    fabric: sayInFabric(language, names, action.fabric),
  };
  return sayForm(language, 'workIn', slots, agree(context, action.times));
}

function sayInto(action: Of<'into'>, context: SayContext): Spoken {
  const { language } = context;
  const { actions, times, together } = action;
  if (!together || isAll(together, 1)) return saySeveral('into', actions, times, context);
  const slots = {
    actions: sayList(actions, context),
    n: number(context, times),
    together: number(context, together),
  };
  const exact = exactly(choose(times, context.size));
  return sayForm(language, 'into.together', slots, agree(context, together, exact));
}

/** `k1 (k2tog, –)`: one thing for each size, in the order of the sizes. */
function sayBySize(action: Of<'bySize'>, context: SayContext): Spoken {
  const { language, size } = context;
  const said = action.alternatives.map((each) =>
    each.length === 0 ? sayForm(language, 'nothing', {}) : sayList(each, context),
  );
  return size === undefined ? groupOver(language, said) : (said[size] ?? []);
}

/** The action at an index, its stitch by the name it has between its neighbours. */
function renamed(
  actions: readonly Action[],
  index: number,
  again: boolean,
  { language }: SayContext,
): Action {
  const action = present(actions[index], 'action');
  if (action.kind !== 'work') return action;
  const stitch = nameBetween(language, actions, index, action.stitch, again);
  return stitch === action.stitch ? action : { ...action, stitch };
}

/** Actions one after another; `again` where the list is worked more than once. */
const sayList = (actions: readonly Action[], context: SayContext, again = false): Spoken =>
  joinParts(
    actions.map((each, index) => sayAction(renamed(actions, index, again, context), context)),
    context.language.settings.separators.actions,
  );

function saySeveral(
  key: 'group' | 'into',
  actions: readonly Action[],
  times: Sized,
  context: SayContext,
): Spoken {
  return sayForm(
    context.language,
    key,
    { actions: sayList(actions, context, key === 'group'), n: number(context, times) },
    agree(context, times, exactly(choose(times, context.size))),
  );
}

function sayRepeat(action: Of<'repeat'>, context: SayContext): Spoken {
  const { language } = context;
  const repeat = sayUntil(sayList(action.actions, context, true), action.until, context);
  if (!action.endingWith) return repeat;
  const ending = sayList(action.endingWith, context);
  return sayForm(language, 'repeat.ending', { repeat, ending });
}

function sayUntil(actions: Spoken, until: RepeatUntil, context: SayContext): Spoken {
  const { language } = context;
  if (until.kind === 'goal') {
    const goal = sayGoal(until.goal, context);
    return sayForm(language, 'repeat.goal', { actions, goal }, { context: until.goal.kind });
  }
  const exact = exactly(choose(until.times, context.size));
  return sayForm(
    language,
    until.kind === 'more' ? 'repeat.more' : 'repeat.total',
    { actions, n: number(context, until.times) },
    agree(context, until.times, exact),
  );
}

export const chartName = (context: SayContext, id: string): Spoken =>
  spokenChart(context.language, context.names, id);

function sayChartRow(action: Of<'chart'>, context: SayContext): Spoken {
  const { language } = context;
  const chart = chartName(context, action.chart);
  const { row, over } = action;
  if (row && over) {
    const slots = { chart, row: number(context, row), n: number(context, over) };
    return sayForm(language, 'chart.rowOver', slots, agree(context, over, unitOf(context)));
  }
  if (row) {
    const slots = { chart, row: number(context, row) };
    return sayForm(language, 'chart.row', slots, { context: unitOf(context) });
  }
  if (over) {
    const slots = { chart, n: number(context, over) };
    return sayForm(language, 'chart.over', slots, agree(context, over));
  }
  if (action.goal) {
    const slots = { chart, goal: sayGoal(action.goal, context) };
    return sayForm(language, 'chart.goal', slots, { context: action.goal.kind });
  }
  if (action.times) {
    const exact = exactly(choose(action.times, context.size));
    const slots = { chart, n: number(context, action.times) };
    return sayForm(language, 'chart.times', slots, agree(context, action.times, exact));
  }
  return sayForm(language, 'chart.whole', { chart });
}
