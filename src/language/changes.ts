/**
 * Increases and decreases that a line states without naming stitches: evenly over a stretch, at an
 * edge, at markers, and shaping at a rate over rows.
 */
import type { Sized } from '../pattern/bundle/size-list.ts';
import type { Action, Rate, Schedule, ShapingPlace } from '../pattern/notation/ast.ts';
import { agree, number, unitOf, type SayContext, named } from './context.ts';
import { sayExtent } from './extents.ts';
import type { FormKey } from './forms.ts';
import { sayForm, type Spoken } from './language.ts';
import type { Choice } from './message.ts';
import { choose, exactly } from './numbers.ts';
import { isStitchFabric, sayStitchRun } from './stitch.ts';
import { sayLength } from './units.ts';
import { sayInFabric } from './words.ts';

type Of<Kind extends Action['kind']> = Extract<Action, { kind: Kind }>;

export function sayEvenly(action: Of<'evenly'>, context: SayContext): Spoken {
  const n = number(context, action.count);
  const choice = agree(context, action.count, unitOf(context));
  if (!action.over) return sayForm(context.language, `evenly.${action.act}`, { n }, choice);
  const over = number(context, action.over);
  return sayForm(context.language, `evenly.${action.act}Over`, { n, over }, choice);
}

/** `work in rib, dec 1 st each end`: what the rest of the row is worked in. */
export function sayWorkedIn(
  fabric: string | undefined,
  action: Spoken,
  context: SayContext,
): Spoken {
  const { language, names } = context;
  if (fabric === undefined) return action;
  if (isStitchFabric(language, fabric)) {
    const verb = sayStitchRun(language, fabric, 'verb');
    return sayForm(language, 'workedIn.stitch', { verb, action });
  }
  const inFabric = sayInFabric(language, names, fabric);
  return sayForm(language, 'workedIn.fabric', { fabric: inFabric, action });
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

export function saySchedule(schedule: Schedule, context: SayContext): Spoken {
  const here = schedule.unit === 'round' ? { ...context, form: 'round' as const } : context;
  return sayWorkedIn(schedule.fabric, sayPlainSchedule(schedule, here), here);
}

function sayPlainSchedule(schedule: Schedule, context: SayContext): Spoken {
  const { language } = context;
  const rates = sayRates(schedule, context);
  const unit = unitOf(context);
  const choice: Choice = { context: unit };
  if (schedule.act !== 'repeat') {
    const change = sayChange({ ...schedule, act: schedule.act }, context);
    const key = schedule.startsNow ? 'shape.changeNow' : 'shape.change';
    return sayForm(language, key, { change, rates }, choice);
  }
  if (schedule.row === undefined) {
    const key = schedule.startsNow ? 'shape.repeatNow' : 'shape.repeat';
    return sayForm(language, key, { rates }, choice);
  }
  const role = sayForm(language, `role.${schedule.row}`, {}, choice);
  const key = schedule.startsNow ? 'shape.repeatRoleNow' : 'shape.repeatRole';
  return sayForm(language, key, { role, rates }, choice);
}

/** `every 4th row 5 times, then every 6th row until 24 sts remain`. */
function sayRates({ rates, until }: Schedule, context: SayContext): Spoken {
  const { language } = context;
  const said = rates
    .map((rate) => sayRate(rate, context))
    .reduce((first, next) => sayForm(language, 'rate.then', { first, next }));
  if (!until) return said;
  return sayForm(language, 'rate.until', { rates: said, extent: sayExtent(until, context) });
}

function sayRate(rate: Rate, context: SayContext): Spoken {
  const interval = sayInterval(rate, context);
  if (!rate.times) return interval;
  const exact = exactly(choose(rate.times, context.size));
  const slots = { interval, n: number(context, rate.times) };
  return sayForm(context.language, 'rate.times', slots, agree(context, rate.times, exact));
}

/**
 * `every 4th row`, `every RS row`, `every 1 in`. Every row, every other row and intervals that differ by
 * size (context 0: `every 4 (6, 6) rows`) have words of their own.
 */
function sayInterval(rate: Rate, context: SayContext): Spoken {
  const { language } = context;
  if (rate.kind === 'length') {
    const length = sayLength(language, rate.every, context.size);
    return sayForm(language, 'rate.length', { length });
  }
  if (rate.side) return sayForm(language, 'rate.side', {}, { context: rate.side });
  const every = choose(rate.every, context.size);
  const exact = exactly(every);
  const unit = unitOf(context);
  const slots = { every: number(context, rate.every), ordinal: sayOrdinal(every, context) };
  const own = exact === undefined ? '0' : exact === '1' || exact === '2' ? exact : '';
  return sayForm(language, 'rate.rows', slots, agree(context, rate.every, unit + own));
}

/** `4th`, `6 (8, 8)th`: agrees with the last number, which stands beside the ending. */
function sayOrdinal(every: Sized, context: SayContext): Spoken {
  const count = every.values.findLast((value) => value !== null) ?? 0;
  const n = number(context, every);
  return sayForm(context.language, 'ordinal', { n }, { count, ordinal: true });
}
