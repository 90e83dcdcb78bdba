/**
 * Actions of a row in canonical US notation. Every form printed here is one the reader gives the same
 * tree for; where the trade has several ways, the shortest that no other reading can claim is taken.
 */
import type { Action, Fabric, Goal, RepeatUntil, ShapingPlace } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import { assertNever } from '../../../base/assert.ts';
import { printFabric } from '../text/fabric.ts';
import { isJust, printCount, printMore, printStitches, printTimes } from './numbers.ts';
import { printCountedStitch, printStitchName } from './stitch.ts';

type Of<Kind extends Action['kind']> = Extract<Action, { kind: Kind }>;

/** How many repeats stand around an action: an inner one takes another star. */
type Depth = number;

export const printActions = (actions: readonly Action[], depth: Depth = 0): string =>
  actions.map((action) => printAction(action, depth)).join(', ');

export function printAction(action: Action, depth: Depth = 0): string {
  switch (action.kind) {
    case 'work':
      return printWork(action);
    case 'workTo':
      return printWorkTo(action);
    case 'group':
      return `[${printActions(action.actions, depth)}] ${printTimes(action.times)}`;
    case 'repeat':
      return printRepeat(action, depth);
    case 'into':
      return `(${printActions(action.actions, depth)}) in ${printInto(action)}`;
    case 'bySize':
      return printBySize(action, depth);
    case 'marker':
      return `${{ place: 'pm', slip: 'sm', remove: 'rm' }[action.act]}${spaced(action.name)}`;
    case 'bindOff':
      return `bind off ${printBindOff(action)}${action.lastStitch === 'apart' ? ', 1 st on right needle' : ''}`;
    case 'castOn':
      return `cast on ${printStitches(action.count)}${printMethod(action.method)}`;
    case 'pickUp':
      return printPickUp(action);
    case 'hold':
      return printHold(action);
    case 'resume':
      return `return ${held(action.count)} from ${action.holder} to needle`;
    case 'turn':
      return printTurn(action);
    case 'slide':
      return 'slide sts to other end of needle';
    case 'chart':
      return printChart(action);
    case 'evenly':
      return `${printWorkedIn(action.fabric)}${verb(action.act)} ${printStitches(action.count)} evenly${action.over ? ` over next ${printStitches(action.over)}` : ''}`;
    case 'change':
      return `${printWorkedIn(action.fabric)}${verb(action.act)} ${printStitches(action.count)} ${printPlace(action.place, action.marker)}`;
    case 'yarn':
      return `${action.act ?? 'with'} ${action.yarn}`;
    default:
      return assertNever(action);
  }
}

/** `knit, `, `work in rib, `: before shaping. */
export function printWorkedIn(fabric: Fabric | undefined): string {
  if (fabric === undefined) return '';
  if (fabric === 'k' || fabric === 'p') return fabric === 'k' ? 'knit, ' : 'purl, ';
  return `work ${printIn(fabric)}, `;
}

/** `in rib`, `as they face`. */
export const printIn = (fabric: Fabric): string =>
  fabric === 'as-they-face' ? printFabric(fabric) : `in ${printFabric(fabric)}`;

const spaced = (word: string | undefined): string => (word === undefined ? '' : ` ${word}`);
const verb = (act: 'increase' | 'decrease'): string => (act === 'increase' ? 'inc' : 'dec');
const held = (count: Sized | undefined): string => (count ? printStitches(count) : 'sts');

function printWork({ stitch, times, fabric }: Of<'work'>): string {
  if (fabric !== undefined) return `work ${printStitches(times)} ${printIn(fabric)}`;
  return printCountedStitch(stitch, times);
}

function printWorkTo({ stitch, goal, fabric }: Of<'workTo'>): string {
  const goalText = printGoal(goal);
  if (fabric === 'as-they-face') return `k the knits and p the purls ${goalText}`;
  if (fabric !== undefined) return `work in ${printFabric(fabric)} ${goalText}`;
  return `${printStitchName(stitch)} ${goalText}`;
}

/** `to end`, `to last 4 sts`, `to 2 sts before raglan m`. */
export function printGoal(goal: Goal): string {
  switch (goal.kind) {
    case 'end':
      return 'to end';
    case 'last':
      return isJust(goal.count, 1) ? 'to last st' : `to last ${printStitches(goal.count)}`;
    case 'marker':
      return `to ${before(goal.before)}${printMarker(goal.marker)}`;
    case 'gap':
      return `to ${before(goal.before)}gap`;
    case 'past':
      return `to ${printStitches(goal.count)} past ${goal.of === 'gap' ? 'gap' : printMarker(goal.marker)}`;
    case 'remaining':
      return `until ${printStitches(goal.count)} remain unworked`;
    default:
      return assertNever(goal);
  }
}

const before = (count: Sized): string =>
  isJust(count, 0) ? '' : `${printStitches(count)} before `;

/** `m`, `raglan m`, `m A`, `BOR`. */
function printMarker(name: string | undefined): string {
  if (name === undefined) return 'm';
  if (name === 'BOR') return name;
  return /^[A-Z]{1,3}$/.test(name) ? `m ${name}` : `${name} m`;
}

function printRepeat({ actions, until, endingWith }: Of<'repeat'>, depth: Depth): string {
  const star = '*'.repeat(depth + 1);
  const body = printActions(actions, depth + 1);
  const gap = body.startsWith('*') ? ' ' : '';
  const ending = endingWith ? `, ending with ${printActions(endingWith, depth + 1)};` : '';
  return `${star}${gap}${body}; rep from ${star} ${printUntil(until)}${ending}`;
}

function printUntil(until: RepeatUntil): string {
  switch (until.kind) {
    case 'goal':
      return printGoal(until.goal);
    case 'more':
      return printMore(until.times);
    case 'total':
      return `${printTimes(until.times)} in all`;
    default:
      return assertNever(until);
  }
}

function printInto({ times, together }: Of<'into'>): string {
  const once = isJust(times, 1);
  if (together) return `next ${printStitches(together)} tog${once ? '' : ` ${printTimes(times)}`}`;
  return once ? 'next st' : `each of next ${printStitches(times)}`;
}

function printBySize({ alternatives }: Of<'bySize'>, depth: Depth): string {
  const choices = alternatives.map((actions) =>
    actions.length === 0 ? '–' : actions.map((action) => printAction(action, depth)).join(' and '),
  );
  const [first, ...others] = choices;
  const short = alternatives[0]?.length === 1 && others.some((choice) => choice !== '–');
  if (short) return `${first} (${others.join(', ')})`;
  return `by size (${choices.join(', ')})`;
}

/** `4 sts in patt`, `all sts loosely`: shared with the sentence. */
export function printBindOff(action: Pick<Of<'bindOff'>, 'count' | 'manner' | 'method'>): string {
  const count = action.count === 'all' ? 'all sts' : printStitches(action.count);
  const manner =
    action.manner === 'plain'
      ? ''
      : ` ${action.manner === 'in pattern' ? 'in patt' : action.manner}`;
  return `${count}${manner}${printMethod(action.method)}`;
}

/** ` loosely`, ` using the long-tail method`. */
export function printMethod(method: string | undefined): string {
  if (method === undefined) return '';
  return /(?:^| )(?:loosely|firmly)$/.test(method) ? ` ${method}` : ` using the ${method} method`;
}

function printPickUp({ count, stitch, from, rate }: Of<'pickUp'>): string {
  const along = from === undefined ? '' : ` along ${from}`;
  const every = rate
    ? ` (${printStitches(rate.stitches)} for every ${printCount(rate.rows)} rows)`
    : '';
  return `pick up and ${stitch} ${printStitches(count)}${along}${every}`;
}

export function printHold({ count, holder }: Pick<Of<'hold'>, 'count' | 'holder'>): string {
  const which = count === 'all' ? 'rem sts' : `next ${printStitches(count)}`;
  return `place ${which} on ${holder}`;
}

function printTurn({ wrap, leaving }: Of<'turn'>): string {
  const how = { none: 'turn', wrap: 'w&t', german: 'turn and make ds' }[wrap];
  return leaving ? `${how} leaving ${printStitches(leaving)} unworked` : how;
}

function printChart({ chart, row, over, times, goal }: Of<'chart'>): string {
  return [
    row ? `work row ${printCount(row)} of Chart ${chart}` : `work Chart ${chart}`,
    over && `over next ${printStitches(over)}`,
    times && printTimes(times),
    goal && printGoal(goal),
  ].filter((part) => part !== undefined).join(' '); // prettier-ignore
}

/** `each end`, `at neck edge`, `each side of raglan m`. */
export function printPlace(place: ShapingPlace, marker: string | undefined): string {
  switch (place) {
    case 'each end':
      return 'each end';
    case 'beginning':
      return 'at beg of row';
    case 'end':
      return 'at end of row';
    case 'neck edge':
    case 'armhole edge':
    case 'front edge':
    case 'side edge':
      return `at ${place}`;
    case 'each marker':
      return `at each ${spacedName(marker)}m`;
    case 'each side of marker':
      return `each side of ${spacedName(marker)}m`;
    default:
      return assertNever(place);
  }
}

const spacedName = (name: string | undefined): string => (name === undefined ? '' : `${name} `);
