/**
 * Plain working: stitches with a count, stitches to a goal, `work 10 sts in rib`, `rib to end`,
 * `k across 40 held sts`, a stitch repeated "in each of next 6 sts". Gives one action, or two where a
 * yarn is named beside the stitch (`k2 MC`).
 */
import type { Action, StitchName } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from '../text/reader.ts';
import type { Stops } from './actions.ts';
import { isAll } from '../../bundle/size-list.ts';
import { readAsTheyFace, readFabric, readKnownFabric, takeEstablished, type FabricRead } from '../text/fabric.ts'; // prettier-ignore
import { isSized, readSized, sizedAt } from '../text/size-values.ts';
import { readTimes } from '../text/times.ts';
import { readName } from '../text/name.ts';
import { isGoal, readGoal } from './goal.ts';
import { readHeld } from './holders.ts';
import { readStitch, type StitchRead } from './stitch.ts';
import { readYarnBeside } from './yarn.ts';

/** Words that stand for "every stitch there is" where they follow a stitch. */
const ALL = ['across all sts', 'all sts', 'every st', 'row', 'round', 'entire row', 'entire round'];

/** @rule stitch work = stitch, ( goal | [ each ], [ times ], [ short yarn ] ); */
export function readStitchWork(reader: Reader, stops: Stops): readonly Action[] | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    const read = readStitch(reader);
    if (!read) return undefined;
    const name = read.stitch.name;
    if (read.count === undefined && (isGoal(reader) || reader.is(...ALL))) {
      const goal = readGoalOrAll(reader, position);
      const wraps = goal && ['k', 'p'].includes(name) && takeWraps(reader);
      const stitch = wraps ? `${name} with wrap` : name;
      return goal && [{ kind: 'workTo', stitch, goal, span: reader.spanFrom(position) }];
    }
    if (read.count === undefined && read.stitch.counted && isWhole(reader, position, stops)) {
      const span = reader.spanFrom(position);
      return [{ kind: 'workTo', stitch: name, goal: { kind: 'end', span }, span }];
    }
    const action = readCounted(reader, read, position);
    const yarn = action && readYarnBeside(reader);
    return action && (yarn ? [yarn, action] : [action]);
  });
}

/** `, picking up wraps`: each wrap is worked with its stitch. */
function takeWraps(reader: Reader): boolean {
  const took = reader.attempt(() => {
    reader.take(',');
    reader.take('and');
    if (!reader.take('picking up', 'pick up', 'work', 'knitting', 'purling', 'hiding'))
      return undefined;
    reader.take('all', 'any');
    if (!reader.take('wraps', 'wrap')) return undefined;
    readName(reader);
    return true;
  });
  return took === true;
}

function readGoalOrAll(reader: Reader, position: number) {
  if (!reader.take(...ALL)) return readGoal(reader);
  return { kind: 'end', span: reader.spanFrom(position) } as const;
}

/** `Knit.`, `K.`: nothing before it and nothing after it in its sentence. */
const isWhole = (reader: Reader, position: number, stops: Stops): boolean =>
  stops(reader) && !reader.is(')', ']', '}') && startsSentence(reader, position);

function startsSentence(reader: Reader, position: number): boolean {
  const after = reader.position;
  reader.back(Math.max(position - 1, 0));
  const before = position === 0 ? '' : reader.next().term;
  while (reader.position < after) reader.next();
  return ['', ':', '.', '–', '—', '-'].includes(before) || position === 0;
}

/** A stitch with its number, its times, and the stitches it goes into. */
function readCounted(reader: Reader, read: StitchRead, position: number): Action | undefined {
  const { stitch } = read;
  const word = reader.last.text;
  reader.take('sts');
  const each = reader.attempt(() => readEach(reader));
  const bare = stitch.counted && read.count === undefined && !each;
  if (bare && (!reader.isNested || /^(?:knit|purl)$/i.test(word))) {
    const { span, text } = reader.peek();
    return reader.problem('notation/number-expected', span, { what: `“${word}”`, found: text });
  }
  const count = read.count ?? sizedAt(1, reader.spanFrom(position));
  const span = () => reader.spanFrom(position);
  if (each) return workEach(stitch.name, stitch.takes, count, each, span());
  const times = readTimes(reader);
  if (!times || times.counts === 'more')
    return { kind: 'work', stitch: stitch.name, times: count, span: span() };
  if (isAll(count, 1))
    return { kind: 'work', stitch: stitch.name, times: times.times, span: span() };
  const one: Action = { kind: 'work', stitch: stitch.name, times: count, span: span() };
  return { kind: 'group', actions: [one], times: times.times, span: span() };
}

/** `inc in each of next 6 sts` is six increases; `yo in next st` would be made into the stitch. */
function workEach(
  stitch: StitchName,
  takes: number,
  count: Sized,
  each: Sized,
  span: Action['span'],
): Action {
  const times = takes === 1 && isAll(count, 1) ? each : count;
  const one: Action = { kind: 'work', stitch, times, span };
  return times === each ? one : { kind: 'into', actions: [one], times: each, span };
}

/** @rule each = "in", ( "next st" | "each of next", sized, "sts" ); */
function readEach(reader: Reader): Sized | undefined {
  if (!reader.take('in', 'over', 'on', 'of')) return undefined;
  reader.take('each of', 'each', 'same');
  const next = reader.take('next', 'foll', 'first', 'last');
  const span = reader.peek().span;
  const count = isSized(reader) ? readSized(reader, '“next”') : sizedAt(1, span);
  if (!count || !reader.take('sts')) return undefined;
  return next || isAll(count, 1) || count.values.length > 0 ? count : undefined;
}

const WORKED = ['work', 'cont'];

/** Whether `work …`, `rib …` or `k the knits …` stands here, and no `work 18`. */
export function isWorkStretch(reader: Reader): boolean {
  const position = reader.position;
  if (reader.is(...WORKED)) return !startsOther(reader);
  const known = reader.attempt(() => readAsTheyFace(reader) ?? readFabricAlone(reader));
  if (known) reader.back(position);
  return known !== undefined;
}

/** `work row 3 of Chart A`, `work as row 4`: read elsewhere. */
function startsOther(reader: Reader): boolean {
  const next = reader.peek(1).term;
  return ['chart', 'charts', 'row', 'round', 'from', 'next'].includes(next) && !isStretchOf(reader);
}

const isStretchOf = (reader: Reader): boolean =>
  reader.peek(1).term === 'next' &&
  reader.peek(2).term !== 'row' &&
  reader.peek(2).term !== 'round';

/** `rib 10`, `rib to end`, `patt 5`. */
function readFabricAlone(reader: Reader): FabricRead | undefined {
  const named = readKnownFabric(reader);
  const found = named ?? (reader.take('patt') ? {} : undefined);
  if (!found || 'fabric' in found && found.fabric?.startsWith('chart ')) return undefined; // prettier-ignore
  return isSized(reader) || isGoal(reader) ? found : undefined;
}

const fabricStops: Stops = (reader) =>
  reader.done || isGoal(reader) || isSized(reader) ||
  reader.is('.', ',', ';', ')', ']', '}', 'over', 'for', 'then', 'and', '(', '['); // prettier-ignore

/**
 * @rule stretch = "work", ( sized, "sts" | goal ), [ "in", fabric ] | "work", [ "in", fabric
 *   ], goal | known fabric, ( sized | goal ) | as they face, [ goal ];
 */
export function readWorkStretch(reader: Reader, stops: Stops): Action | undefined {
  const position = reader.position;
  let found: FabricRead = readAsTheyFace(reader) ?? {};
  if (reader.take(...WORKED)) {
    reader.take('to work', 'working');
    reader.take('even', 'straight', 'across');
  } else if (!('fabric' in found)) found = readFabricAlone(reader) ?? {};
  reader.take('next', 'across next', 'across');
  let count = isSized(reader) ? readSized(reader, '“work”') : undefined;
  reader.take('sts');
  reader.take('even', 'straight');
  if (takeEstablished(reader)) found = {};
  else if (reader.take('in') || reader.is('as')) {
    found = readAsTheyFace(reader) ?? readFabric(reader, fabricStops) ?? {};
  }
  if (!count && reader.take('over next', 'over', 'for next')) {
    count = readSized(reader, '“over”');
    if (!count) return undefined;
    reader.take('sts');
  }
  return stretch(reader, position, stops, found, count);
}

function stretch(
  reader: Reader,
  position: number,
  stops: Stops,
  { fabric }: FabricRead,
  count: Sized | undefined,
): Action | undefined {
  const stitch = 'work';
  const rest = fabric === undefined ? {} : { fabric };
  if (count) {
    const times = readTimes(reader);
    const span = reader.spanFrom(position);
    const one: Action = { kind: 'work', stitch, times: count, ...rest, span };
    return times ? { kind: 'group', actions: [one], times: times.times, span } : one;
  }
  const whole = stops(reader) || (fabric === 'as-they-face' && reader.is(','));
  const goal = isGoal(reader)
    ? readGoal(reader)
    : whole ? ({ kind: 'end', span: reader.spanFrom(position) } as const) : undefined; // prettier-ignore
  if (goal) return { kind: 'workTo', stitch, goal, ...rest, span: reader.spanFrom(position) };
  const found = reader.peek();
  const what = '“work”';
  return reader.problem('notation/number-expected', found.span, { what, found: found.text });
}

/**
 * The stitches return to the needle and are worked.
 * @rule across = ( stitch | "work" ), "across", held | stitch, "sts from", name;
 */
export function readAcross(reader: Reader): readonly Action[] | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    const stitch = reader.take('work')
      ? 'work'
      : (STITCHES[reader.peek().term] ?? readStitch(reader)?.stitch.name);
    if (stitch === undefined) return undefined;
    if (STITCHES[reader.peek().term] === stitch) reader.next();
    const across = reader.take('across', 'over');
    if (!across && !isSized(reader)) return undefined;
    const held = reader.attempt(() => readHeld(reader));
    if (!held) return across ? readNamedStretch(reader, stitch, position) : undefined;
    takeEstablished(reader);
    const span = reader.spanFrom(position);
    const resume: Action = { kind: 'resume', ...held, span };
    if (held.count) return [resume, { kind: 'work', stitch, times: held.count, span }];
    return [resume];
  });
}

/** `knit across 40 back sts`: the word says which, the number says how many. */
function readNamedStretch(
  reader: Reader,
  stitch: StitchName,
  position: number,
): readonly Action[] | undefined {
  const times = isSized(reader) ? readSized(reader, '“across”') : undefined;
  if (!times || reader.is('sts') || reader.next().kind !== 'word' || !reader.take('sts'))
    return undefined;
  return [{ kind: 'work', stitch, times, span: reader.spanFrom(position) }];
}

const STITCHES: Readonly<Record<string, StitchName>> = { k: 'k', knit: 'k', p: 'p', purl: 'p' };
