/**
 * Sentences in canonical US notation, with a capital at the start where they are no row. See
 * `actions.ts` for what stands inside a row.
 */
import type { Extent, Rate, Schedule, Sentence } from '../ast.ts';
import { assertNever } from '../../../base/assert.ts';
import type { Sized } from '../../bundle/size-list.ts';
import { printFabric } from '../text/fabric.ts';
import {
  printActions,
  printBindOff,
  printHold,
  printIn,
  printMethod,
  printPlace,
  printWorkedIn,
} from './actions.ts';
import { isJust, printCount, printLength, printMore, printOrdinal, printRanges, printRole, printRows, printStitches, printTimes, printUnit } from './numbers.ts'; // prettier-ignore

type Of<Kind extends Sentence['kind']> = Extract<Sentence, { kind: Kind }>;

export function printSentence(sentence: Sentence): string {
  switch (sentence.kind) {
    case 'actions':
      return printRow(sentence);
    case 'castOn':
      return printCastOn(sentence);
    case 'join':
      if (sentence.form === 'flat') return 'Work back and forth in rows';
      return `${sentence.placeMarker ? 'Place marker and join' : 'Join'} to work in the round`;
    case 'repeatRows':
      return printRepeatRows(sentence);
    case 'workEven':
      return printWorkEven(sentence);
    case 'shape':
      return printSchedule(sentence.schedule);
    case 'atTheSameTime':
      return printAtTheSameTime(sentence);
    case 'steps':
      return `[${sentence.sentences.map(printWithin).join('; ')}] ${printExtent(sentence.extent, 'row', true)}`;
    case 'edgeRows':
      return `${sentence.act === 'bindOff' ? 'Bind off' : 'Cast on'} ${printStitches(sentence.count)} at ${sentence.at === 'beginning' ? 'beg' : 'end'} of next ${printRows(sentence.rows, 'row')}`;
    case 'hold':
      return capital(printHold(sentence));
    case 'resume':
      return printResume(sentence);
    case 'needle':
      return `Change to ${sentence.needle} needles`;
    case 'yarn':
      return `${{ join: 'Join', break: 'Break', change: 'Change' }[sentence.act]} ${printYarn(sentence)}${sentence.facing ? ` with ${sentence.facing} facing` : ''}`;
    case 'drawThrough':
      return `Break yarn, draw through rem ${sentence.count ? printStitches(sentence.count) : 'sts'} and fasten off`;
    case 'bindOffAll':
      return `Bind off ${printBindOff({ ...sentence, count: 'all' })}`;
    case 'joinStitches':
      return printJoinStitches(sentence);
    case 'mark':
      return printMark(sentence);
    case 'prose':
      return `See "${sentence.key}"`;
    default:
      return assertNever(sentence);
  }
}

/** A sentence inside another one: without its capital. */
function printWithin(sentence: Sentence): string {
  const text = printSentence(sentence);
  return /^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** `Knit` and `Purl` where a row is nothing else. */
function printRow({ actions, facing }: Of<'actions'>): string {
  if (facing) return `With ${facing} facing, ${printActions(actions).replace(/;$/, '')}`;
  const [only] = actions;
  const whole = actions.length === 1 && only?.kind === 'workTo' && only.goal.kind === 'end';
  if (whole && only.fabric === undefined && only.stitch === 'k') return 'Knit';
  if (whole && only.fabric === undefined && only.stitch === 'p') return 'Purl';
  return printActions(actions).replace(/;$/, '');
}

function printCastOn({ count, method, yarn, needle }: Of<'castOn'>): string {
  const means = [yarn, needle && `${needle} needles`].filter((mean) => mean !== undefined);
  const start = means.length === 0 ? 'Cast' : `With ${means.join(' and ')}, cast`;
  return `${start} on ${printStitches(count)}${printMethod(method)}`;
}

function printRepeatRows(sentence: Of<'repeatRows'>): string {
  const { rows, unit, of, extent, instead, changing } = sentence;
  const which = 'ranges' in rows
    ? printRanges(rows.ranges, unit)
    : 'role' in rows
      ? `${printRole(rows.role)} ${printUnit(unit, false)}`
      : isJust(rows.last, 1) ? `last ${printUnit(unit, false)}` : `last ${printRows(rows.last, unit)}`; // prettier-ignore
  const fabric = of === undefined ? '' : ` of ${printFabric(of)}`;
  const howLong = extent.kind === 'once' ? '' : ` ${printExtent(extent, unit, true)}`;
  const step = changing
    ? `, having ${printStitches(changing.by)} ${changing.way === 'fewer' ? 'less' : 'more'} between decs`
    : '';
  const swaps = (instead ?? []).map(({ old, now }) => `${inRow(now)} instead of ${inRow(old)}`);
  const but = swaps.length === 0 ? '' : `, but ${swaps.join(' and ')}`;
  const first = of !== undefined && /^R(?:ows|nds) /.test(which) && extent.kind !== 'more';
  return `${first ? 'Work' : 'Rep'} ${which}${fabric}${howLong}${step}${but}`;
}

const inRow = (actions: Parameters<typeof printActions>[0]): string =>
  actions.map((action) => printActions([action])).join(' then ');

function printWorkEven(sentence: Of<'workEven'>): string {
  const { beginning } = sentence;
  const start = beginning === undefined ? '' : `, beg with ${printBeginning(beginning)}`;
  return `${printStretch(sentence)}${start}`;
}

function printBeginning(beginning: NonNullable<Of<'workEven'>['beginning']>): string {
  if ('stitch' in beginning) return `a ${beginning.stitch} row`;
  return 'side' in beginning ? `a ${beginning.side} row` : `row ${printCount(beginning.row)}`;
}

function printStretch({ fabric, unit, extent }: Of<'workEven'>): string {
  const named = fabric === undefined ? '' : ` ${printIn(fabric)}`;
  const stitch = fabric === 'k' ? 'Knit' : fabric === 'p' ? 'Purl' : undefined;
  if (extent.kind === 'rows') {
    const rows = printRows(extent.count, unit);
    const ending = printEnding(extent, unit);
    return stitch
      ? `${stitch} ${rows}${ending}`
      : `Work ${rows}${named === '' ? ' even' : named}${ending}`;
  }
  const howLong = extent.kind === 'once' ? '' : ` ${printExtent(extent, unit, false)}`;
  return stitch ? `${stitch}${howLong}` : `Work even${named}${howLong}`;
}

/** `until piece measures 14 in from underarm, ending with a WS row`, `for 3 in`, `6 more times`. */
const printExtent = (extent: Extent, unit: 'row' | 'round', repeats: boolean): string =>
  printBareExtent(extent, unit, repeats) + printEnding(extent, unit);

function printBareExtent(extent: Extent, unit: 'row' | 'round', repeats: boolean): string {
  switch (extent.kind) {
    case 'length':
      return `until piece measures ${printMeasure(extent)}`;
    case 'rows':
      return `for ${printRows(extent.count, unit)}`;
    case 'count':
      return `until ${printStitches(extent.count)} remain`;
    case 'more':
      return printMore(extent.times);
    case 'total':
      return repeats ? `${printTimes(extent.times)} in all` : printTimes(extent.times);
    case 'once':
      return 'once';
    default:
      return assertNever(extent);
  }
}

type LengthExtent = Extract<Extent, { kind: 'length' }>;

const FROM: Readonly<Record<LengthExtent['from'], string>> = {
  'cast-on': 'cast-on edge',
  here: 'here',
  underarm: 'underarm',
  divide: 'divide',
  marker: 'marker',
  'pick-up': 'pick-up edge',
};

const printMeasure = ({ length, from }: LengthExtent): string =>
  `${printLength(length)} from ${FROM[from]}`;

function printEnding({ ending, endingRow }: Extent, unit: 'row' | 'round'): string {
  if (ending !== undefined) return `, ending with a ${ending} row`;
  return endingRow ? `, ending with ${printUnit(unit, false)} ${printCount(endingRow)}` : '';
}

function printSchedule(schedule: Schedule): string {
  const unit = schedule.unit ?? 'row';
  const start = schedule.startsNow ? `on next ${printUnit(unit, false)}, then ` : '';
  const until = schedule.until ? ` ${printExtent(schedule.until, unit, false)}` : '';
  const head = capital(`${printWorkedIn(schedule.fabric)}${printHead(schedule)}`);
  const rates = schedule.rates.map((rate) => printRate(rate, unit)).join(', then ');
  return `${head} ${start}${rates}${until}`;
}

function printHead({ act, count, place, marker, row, unit }: Schedule): string {
  if (act === 'repeat')
    return `rep ${row ? printRole(row) : 'this'} ${printUnit(unit ?? 'row', false)}`;
  const verb = { increase: 'inc', decrease: 'dec', bindOff: 'bind off' }[act];
  return `${verb} ${printStitches(count)} ${printPlace(place, marker)}`;
}

function printRate(rate: Rate, unit: 'row' | 'round'): string {
  const often = rate.times ? ` ${printTimes(rate.times)}` : '';
  if (rate.kind === 'length') return `every ${printLength(rate.every)}${often}`;
  return `every ${printInterval(rate.every, rate.side, unit)}${often}`;
}

function printInterval(every: Sized, side: string | undefined, unit: 'row' | 'round'): string {
  const [value] = every.values;
  const named = side === undefined ? '' : `${side} `;
  const row = printUnit(unit, false);
  if (every.values.length > 1 || value === null || value === undefined) {
    return `${printCount(every)} ${named}${row}s`;
  }
  if (value === 2) return side === undefined ? `other ${row}` : `${side} ${row}`;
  if (value === 1 && side === undefined) return row;
  return `${printOrdinal(value)} ${named}${row}`;
}

function printAtTheSameTime({ start, sentences }: Of<'atTheSameTime'>): string {
  const when = start ? `${printStart(start)}, ` : '';
  return `AT THE SAME TIME, ${when}${sentences.map(printWithin).join('; ')}`;
}

function printStart(start: Extent): string {
  switch (start.kind) {
    case 'length':
      return start.from === 'here'
        ? `after ${printLength(start.length)}`
        : `when piece measures ${printMeasure(start)}`;
    case 'count':
      return `when ${printStitches(start.count)} remain`;
    case 'rows':
      return `after ${printRows(start.count, 'row')}`;
    case 'more':
    case 'total':
    case 'once':
      return `after ${printExtent(start, 'row', true)}`;
    default:
      return assertNever(start);
  }
}

function printResume({ holders, count }: Of<'resume'>): string {
  const held = count ? `${printCount(count)} held sts` : 'held sts';
  const [first = 'holder'] = holders;
  const from = holders.length === 1 && first === 'holder' ? '' : ` of ${holders.join(' and ')}`;
  return `Return ${held}${from} to needle`;
}

const printYarn = ({ act, yarn }: Of<'yarn'>): string =>
  yarn === undefined ? 'yarn' : act === 'change' ? `to ${yarn}` : yarn;

function printJoinStitches({ method, parts, count }: Of<'joinStitches'>): string {
  const which = parts.join(' and ');
  const of = count
    ? `${printStitches(count)}${which === '' ? '' : ` of ${which}`}`
    : which === ''
      ? 'rem sts'
      : which;
  return method === 'graft' ? `Graft ${of}` : `Join ${of} with three-needle bind-off`;
}

function printMark({ what, name }: Of<'mark'>): string {
  if (what === 'row') return name === undefined ? 'Mark this row' : `Mark this row as ${name}`;
  return name === undefined ? 'Place marker' : `Place marker ${name}`;
}
