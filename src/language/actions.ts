/**
 * What a row does, in words: every action of the notation said with the language's own message. Takes
 * the tree and the context, gives spoken parts; exhaustive over the union, so that a new action does
 * not compile until every language can be asked for it.
 */
import { assertNever } from '../base/assert.ts';
import type { Sized } from '../pattern/bundle/size-list.ts';
import { isAll } from '../pattern/bundle/size-list.ts';
import type { Action, Goal, RepeatUntil, ShapingPlace } from '../pattern/notation/ast.ts';
import type { FormKey } from './forms.ts';
import { hasText, sayForm, sayText, type Language, type Spoken } from './language.ts';
import { joinParts, spoken, type Choice } from './message.ts';
import { agreement, choose, exactly, groupOver, sayNumber } from './numbers.ts';
import { sayStitch, sayStitchRun } from './stitch.ts';
import { sayChartName, sayInFabric, sayName, sayYarn, slugOf, type Names } from './words.ts';

export interface SayContext {
  readonly language: Language;
  /** Whether the piece is worked in rows or rounds, where a line does not say it itself. */
  readonly form: 'flat' | 'round';
  /** Set for a one-size edition: only this size's numbers are said. */
  readonly size?: number;
  readonly names: Names;
}

/** The unit of the line: rounds are called rounds where a language has a word for them. */
export const unitOf = (context: SayContext): 'row' | 'round' =>
  context.form === 'round' ? 'round' : 'row';

export const number = (context: SayContext, sized: Sized): Spoken =>
  sayNumber(context.language, choose(sized, context.size));

/** The choice of words that a number asks for. */
export function agree(context: SayContext, sized: Sized, more?: string): Choice {
  const chosen = choose(sized, context.size);
  return {
    count: agreement(context.language, chosen),
    ...(more !== undefined && { context: more }),
  };
}

const named = (context: SayContext, name: string): Spoken =>
  spoken(sayName(context.language, context.names, 'word', name));

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
        return sayForm(language, 'workInTo', { fabric, goal: sayGoal(action.goal, context) });
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
      return sayEvenly(action, context);
    case 'change':
      return sayChange(action, context);
    case 'yarn': {
      const yarn = sayYarn(language, context.names, action.yarn);
      return sayForm(language, 'yarn.with', { yarn });
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

const sayList = (actions: readonly Action[], context: SayContext): Spoken =>
  joinParts(
    actions.map((each) => sayAction(each, context)),
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
    { actions: sayList(actions, context), n: number(context, times) },
    agree(context, times, exactly(choose(times, context.size))),
  );
}

export function sayGoal(goal: Goal, context: SayContext): Spoken {
  const { language } = context;
  const unit = { context: unitOf(context) };
  switch (goal.kind) {
    case 'end':
      return sayForm(language, 'goal.end', {}, unit);
    case 'last':
      return counted('goal.last', goal.count, context);
    case 'remaining':
      return counted('goal.remaining', goal.count, context);
    case 'past': {
      if (goal.of === 'gap') return counted('goal.pastGap', goal.count, context);
      if (goal.marker === undefined) return counted('goal.pastMarker', goal.count, context);
      const slots = { n: number(context, goal.count), marker: named(context, goal.marker) };
      return sayForm(language, 'goal.pastNamedMarker', slots, agree(context, goal.count));
    }
    case 'gap':
      return isAll(goal.before, 0)
        ? sayForm(language, 'goal.gap', {})
        : counted('goal.beforeGap', goal.before, context);
    case 'marker': {
      const n = number(context, goal.before);
      const choice = agree(context, goal.before);
      const at = isAll(goal.before, 0);
      if (goal.marker === undefined) {
        return at
          ? sayForm(language, 'goal.marker', {})
          : sayForm(language, 'goal.beforeMarker', { n }, choice);
      }
      const marker = named(context, goal.marker);
      return at
        ? sayForm(language, 'goal.namedMarker', { marker })
        : sayForm(language, 'goal.beforeNamedMarker', { n, marker }, choice);
    }
    default:
      return assertNever(goal);
  }
}

/** A form whose only slot is a number. */
function counted(
  key: Extract<
    FormKey,
    'goal.last' | 'goal.remaining' | 'goal.beforeGap' | 'goal.pastGap' | 'goal.pastMarker'
  >,
  sized: Sized,
  context: SayContext,
): Spoken {
  return sayForm(context.language, key, { n: number(context, sized) }, agree(context, sized));
}

function sayRepeat(action: Of<'repeat'>, context: SayContext): Spoken {
  const { language } = context;
  const repeat = sayUntil(sayList(action.actions, context), action.until, context);
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

function sayMarker(action: Of<'marker'>, context: SayContext): Spoken {
  if (action.name === undefined) return sayForm(context.language, `marker.${action.act}`, {});
  const marker = named(context, action.name);
  return sayForm(context.language, `marker.${action.act}Named`, { marker });
}

export const MANNERS = {
  plain: 'plain',
  'in pattern': 'inPattern',
  knitwise: 'knitwise',
  purlwise: 'purlwise',
} as const;

function sayBindOff(action: Of<'bindOff'>, context: SayContext): Spoken {
  const { language } = context;
  const manner = MANNERS[action.manner];
  const bindOff =
    action.count === 'all'
      ? sayForm(language, 'bindOff.all', {}, { context: manner })
      : sayForm(
          language,
          'bindOff.count',
          { n: number(context, action.count) },
          agree(context, action.count, manner),
        );
  const how = sayBindOffHow(bindOff, action.method, context);
  return action.lastStitch === 'apart' ? sayForm(language, 'bindOff.apart', { bindOff: how }) : how;
}

/** `bind off 8 sts loosely`. */
export function sayBindOffHow(
  bindOff: Spoken,
  method: string | undefined,
  context: SayContext,
): Spoken {
  if (method === undefined) return bindOff;
  const how = spoken(sayName(context.language, context.names, 'manner', method));
  return sayForm(context.language, 'bindOff.how', { bindOff, how });
}

/** How a cast-on is made: method, yarn, needle, each a phrase of its own. */
export function howOf(
  what: { readonly method?: string; readonly yarn?: string; readonly needle?: string },
  context: SayContext,
): Spoken {
  const { language, names } = context;
  const phrases: Spoken[] = [];
  if (what.yarn !== undefined) {
    phrases.push(sayForm(language, 'how.yarn', { yarn: sayYarn(language, names, what.yarn) }));
  }
  if (what.needle !== undefined) {
    const known = `withNeedle.${slugOf(what.needle)}`;
    phrases.push(
      hasText(language, known)
        ? sayText(language, known)
        : sayForm(language, 'how.needle', { needle: named(context, what.needle) }),
    );
  }
  if (what.method !== undefined) {
    const method = spoken(sayName(language, names, 'method', what.method));
    phrases.push(sayForm(language, 'how.method', { method }));
  }
  if (phrases.length === 0) return [];
  return phrases.reduce((first, next) => sayForm(language, 'how.and', { first, next }));
}

export function sayCastOn(count: Sized, how: Spoken, context: SayContext): Spoken {
  const n = number(context, count);
  const choice = agree(context, count);
  return how.length === 0
    ? sayForm(context.language, 'castOn', { n }, choice)
    : sayForm(context.language, 'castOn.how', { n, how }, choice);
}

function sayPickUp(action: Of<'pickUp'>, context: SayContext): Spoken {
  const { language } = context;
  const n = number(context, action.count);
  const choice = agree(context, action.count, action.stitch);
  const pickUp =
    action.from === undefined
      ? sayForm(language, 'pickUp', { n }, choice)
      : sayForm(language, 'pickUp.from', { n, along: sayAlong(action.from, context) }, choice);
  if (!action.rate) return pickUp;
  const stitches = sayStitchesOf(action.rate.stitches, context);
  const rows = number(context, action.rate.rows);
  return sayForm(
    language,
    'pickUp.rate',
    { pickUp, stitches, rows },
    agree(context, action.rate.rows),
  );
}

/** `along neck edge`: known edges have a phrase of their own, because languages bend the noun. */
function sayAlong(edge: string, context: SayContext): Spoken {
  const known = `along.${slugOf(edge)}`;
  if (hasText(context.language, known)) return sayText(context.language, known);
  return sayForm(context.language, 'along', { edge: named(context, edge) });
}

/** `3 sts` as a phrase. */
const sayStitchesOf = (sized: Sized, context: SayContext): Spoken =>
  sayForm(context.language, 'stitches', { n: number(context, sized) }, agree(context, sized));

/** What waits: `holder for back neck` → `back neck`. */
export const heldPart = (holder: string): string =>
  holder.replace(/^(?:stitch )?holder (?:for|of) /i, '');

/** `holder`, `waste yarn`; else `holder for left shoulder`: named after what waits on it. */
function sayHolder(name: string, context: SayContext): Spoken {
  const { language } = context;
  const plain = `holder.${slugOf(name)}`;
  if (hasText(language, plain)) return sayText(language, plain);
  return sayForm(language, 'hold.for', { name: named(context, heldPart(name)) });
}

/** `place next 40 sts on holder`; a holder may be named after what waits on it. */
export function sayHold(
  what: { readonly count: Sized | 'all'; readonly holder: string },
  context: SayContext,
): Spoken {
  const holder = sayHolder(what.holder, context);
  if (what.count === 'all') return sayForm(context.language, 'hold.all', { holder });
  const n = number(context, what.count);
  return sayForm(context.language, 'hold.count', { n, holder }, agree(context, what.count));
}

export function sayResume(
  holders: readonly string[],
  count: Sized | undefined,
  context: SayContext,
): Spoken {
  const { language } = context;
  const own = holders.filter((holder) => !hasText(language, `holder.${slugOf(holder)}`));
  const names = own.map((holder) => named(context, heldPart(holder)));
  const holder = joinParts(names, language.settings.separators.list);
  if (!count) {
    return own.length === 0
      ? sayForm(language, 'resume.held', {})
      : sayForm(language, 'resume.heldOf', { holder });
  }
  const n = number(context, count);
  return own.length === 0
    ? sayForm(language, 'resume.count', { n }, agree(context, count))
    : sayForm(language, 'resume.countOf', { n, holder }, agree(context, count));
}

function sayTurn(action: Of<'turn'>, context: SayContext): Spoken {
  const turn = sayForm(context.language, `turn.${action.wrap}`, {});
  if (!action.leaving) return turn;
  const n = number(context, action.leaving);
  return sayForm(context.language, 'turn.leaving', { turn, n }, agree(context, action.leaving));
}

export const chartName = (context: SayContext, id: string): Spoken =>
  spoken(sayChartName(context.language, context.names, id));

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
    return sayForm(language, 'chart.goal', { chart, goal: sayGoal(action.goal, context) });
  }
  if (action.times) {
    const exact = exactly(choose(action.times, context.size));
    const slots = { chart, n: number(context, action.times) };
    return sayForm(language, 'chart.times', slots, agree(context, action.times, exact));
  }
  return sayForm(language, 'chart.whole', { chart });
}

function sayEvenly(action: Of<'evenly'>, context: SayContext): Spoken {
  const n = number(context, action.count);
  const choice = agree(context, action.count, unitOf(context));
  if (!action.over) return sayForm(context.language, `evenly.${action.act}`, { n }, choice);
  const over = number(context, action.over);
  return sayForm(context.language, `evenly.${action.act}Over`, { n, over }, choice);
}

type PlainPlace = Exclude<
  Extract<FormKey, `place.${string}`>,
  'place.eachNamedMarker' | 'place.eachSideOfNamedMarker'
>;

/** The plain forms; a named marker has forms of its own. */
const PLACES = {
  'each end': 'place.eachEnd',
  beginning: 'place.beginning',
  end: 'place.end',
  'neck edge': 'place.neckEdge',
  'armhole edge': 'place.armholeEdge',
  'front edge': 'place.frontEdge',
  'side edge': 'place.sideEdge',
  'each marker': 'place.eachMarker',
  'each side of marker': 'place.eachSideOfMarker',
} as const satisfies Readonly<Record<ShapingPlace, PlainPlace>>;

function sayPlace(place: ShapingPlace, marker: string | undefined, context: SayContext): Spoken {
  const { language } = context;
  if (marker !== undefined && (place === 'each marker' || place === 'each side of marker')) {
    const key = place === 'each marker' ? 'place.eachNamedMarker' : 'place.eachSideOfNamedMarker';
    return sayForm(language, key, { marker: named(context, marker) });
  }
  return sayForm(language, PLACES[place], {}, { context: unitOf(context) });
}

/** `dec 1 st each end`. */
export function sayChange(
  change: {
    readonly act: 'increase' | 'decrease' | 'bindOff';
    readonly count: Sized;
    readonly place: ShapingPlace;
    readonly marker?: string;
  },
  context: SayContext,
): Spoken {
  const slots = {
    n: number(context, change.count),
    place: sayPlace(change.place, change.marker, context),
  };
  return sayForm(context.language, `change.${change.act}`, slots, agree(context, change.count));
}
