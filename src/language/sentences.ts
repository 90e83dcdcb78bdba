/**
 * Sentences of the instructions in words: cast-ons, repeats of rows, shaping over rows, holders, joins.
 * Exhaustive over the union of sentences. A sentence is one message of the language; its slots hold
 * numbers, names and whole phrases. Capitals and full stops are put by `line.ts`.
 */
import { assertNever } from '../base/assert.ts';
import type { Sized } from '../pattern/bundle/size-list.ts';
import type { Extent, Rate, RowRange, Schedule, Sentence } from '../pattern/notation/ast.ts';
import {
  agree, chartName, howOf, MANNERS, number, sayActions, sayBindOffHow, sayCastOn, sayChange, sayHold, sayResume, unitOf,
  type SayContext,
} from './actions.ts'; // prettier-ignore
import { hasText, sayForm, sayText, type Language, type Spoken } from './language.ts';
import { joinParts, spoken, type Choice } from './message.ts';
import { choose, exactly } from './numbers.ts';
import { findStitch, sayStitchRun, stitchTemplate } from './stitch.ts';
import { sayLength } from './units.ts';
import {
  isChart,
  proseLine,
  sayChartName,
  sayFabric,
  sayInFabric,
  sayName,
  sayYarn,
  slugOf,
} from './words.ts';

type Of<Kind extends Sentence['kind']> = Extract<Sentence, { kind: Kind }>;

export function saySentence(sentence: Sentence, context: SayContext): Spoken {
  const { language, names } = context;
  const word = (name: string) => spoken(sayName(language, names, 'word', name));
  switch (sentence.kind) {
    case 'actions':
      return sayActions(sentence.actions, context);
    case 'castOn':
      return sayCastOn(sentence.count, howOf(sentence, context), context);
    case 'join':
      if (sentence.form === 'flat') return sayForm(language, 'join.flat', {});
      return sayForm(language, sentence.placeMarker ? 'join.roundMarker' : 'join.round', {});
    case 'repeatRows':
      return sayRepeatRows(sentence, { ...context, form: formOf(sentence.unit) });
    case 'workEven':
      return sayWorkEven(sentence, { ...context, form: formOf(sentence.unit) });
    case 'shape':
      return saySchedule(sentence.schedule, context);
    case 'atTheSameTime':
      return sayTogether(sentence, context);
    case 'steps':
      return sayForm(language, 'steps', {
        sentences: saySequence(sentence.sentences, context),
        extent: sayExtent(sentence.extent, context),
      });
    case 'edgeRows':
      return sayEdgeRows(sentence, context);
    case 'hold':
      return sayHold(sentence, context);
    case 'resume':
      return sayResume(sentence.holders, sentence.count, context);
    case 'needle':
      return sayNeedleChange(sentence.needle, context);
    case 'yarn':
      return sayYarnSentence(sentence, context);
    case 'drawThrough':
      if (!sentence.count) return sayForm(language, 'drawThrough', {});
      return sayForm(
        language,
        'drawThrough.count',
        { n: number(context, sentence.count) },
        agree(context, sentence.count),
      );
    case 'bindOffAll':
      return sayBindOffHow(
        sayForm(language, 'bindOff.all', {}, { context: MANNERS[sentence.manner] }),
        sentence.method,
        context,
      );
    case 'joinStitches': {
      const parts = listWithAnd(sentence.parts.map(word), language);
      const key = sentence.method === 'graft' ? 'joinStitches.graft' : 'joinStitches.bindOff';
      return sayForm(language, key, { parts });
    }
    case 'mark':
      if (sentence.name !== undefined) {
        return sayForm(language, 'mark.named', { marker: word(sentence.name) });
      }
      return sayForm(language, sentence.what === 'row' ? 'mark.row' : 'mark.here', {});
    case 'prose':
      return spoken(proseLine(names, sentence.key) ?? sentence.key);
    default:
      return assertNever(sentence);
  }
}

/** One after another: `…, then …`. */
const saySequence = (sentences: readonly Sentence[], context: SayContext): Spoken =>
  sentences
    .map((each) => saySentence(each, context))
    .reduce((first, next) => sayForm(context.language, 'sentence.then', { first, next }));

function sayTogether({ start, sentences }: Of<'atTheSameTime'>, context: SayContext): Spoken {
  const sentence = saySequence(sentences, context);
  if (!start) return sayForm(context.language, 'atTheSameTime', { sentence });
  return sayForm(context.language, 'atTheSameTime.when', {
    start: sayStart(start, context),
    sentence,
  });
}

/** `when piece measures 4 in from cast-on`, `after 10 rows`. */
function sayStart(start: Extent, context: SayContext): Spoken {
  const { language } = context;
  if (start.kind === 'length') {
    const length = sayLength(language, start.length, context.size);
    return sayForm(language, 'start.length', { length }, { context: start.from });
  }
  if (start.kind === 'rows' || start.kind === 'count') {
    const n = number(context, start.count);
    return sayForm(
      language,
      `start.${start.kind}`,
      { n },
      agree(context, start.count, unitOf(context)),
    );
  }
  return sayExtent(start, context);
}

function sayNeedleChange(needle: string, { language, names }: SayContext): Spoken {
  const known = `toNeedle.${slugOf(needle)}`;
  if (hasText(language, known)) return sayText(language, known);
  return sayForm(language, 'needle.change', {
    needle: spoken(sayName(language, names, 'word', needle)),
  });
}

const formOf = (unit: 'row' | 'round') => (unit === 'round' ? 'round' : 'flat');

// ---------------------------------------------------------------- rows

/** `1–4 and 7`: numbers of rows as the language lists them. */
export function sayRanges(ranges: readonly RowRange[], context: SayContext): Spoken {
  const { language } = context;
  const said = ranges.map(({ from, to }) => {
    const [first, last] = [number(context, from), number(context, to)];
    const same = sameValues(from, to);
    return same
      ? sayForm(language, 'range.one', { n: first })
      : sayForm(language, 'range.span', { from: first, to: last });
  });
  return listWithAnd(said, language, 'range.and');
}

/** `1, 3 and 5`. */
export function listWithAnd(
  items: readonly Spoken[],
  language: Language,
  key: 'list.and' | 'range.and' = 'list.and',
): Spoken {
  const last = items.at(-1) ?? [];
  if (items.length < 2) return last;
  const list = joinParts(items.slice(0, -1), language.settings.separators.list);
  return sayForm(language, key, { list, last });
}

const sameValues = (a: Sized, b: Sized): boolean =>
  a.values.length === b.values.length && a.values.every((value, at) => value === b.values[at]);

/** 1 for a single row, 2 for several: what a word for rows agrees with. */
export const rowCount = (ranges: readonly RowRange[]): number =>
  ranges.length === 1 && ranges[0] && sameValues(ranges[0].from, ranges[0].to) ? 1 : 2;

/** A repeat of rows with what is different in it: `…, but k9 instead of k10`. */
function sayRepeatRows(sentence: Of<'repeatRows'>, context: SayContext): Spoken {
  const { language } = context;
  const { instead, changing } = sentence;
  let said = sayPlainRepeat(sentence, context);
  if (instead) {
    const pairs = instead.map(({ old, now }) =>
      sayForm(language, 'repeatRows.pair', {
        old: sayActions(old, context),
        now: sayActions(now, context),
      }),
    );
    const list = joinParts(pairs, language.settings.separators.actions);
    said = sayForm(language, 'repeatRows.instead', { sentence: said, pairs: list });
  }
  if (!changing) return said;
  const key = changing.way === 'fewer' ? 'repeatRows.narrower' : 'repeatRows.wider';
  const slots = { sentence: said, n: number(context, changing.by) };
  return sayForm(language, key, slots, agree(context, changing.by));
}

function sayPlainRepeat(sentence: Of<'repeatRows'>, context: SayContext): Spoken {
  const { language } = context;
  const { extent } = sentence;
  const rows = sayRowsOf(sentence, context);
  const all = sentence.of === undefined;
  if (extent.kind === 'once') {
    return sayForm(language, all ? 'repeatRows.once' : 'repeatRows.onceOf', { rows });
  }
  if (extent.kind === 'more' || extent.kind === 'total') {
    const exact = exactly(choose(extent.times, context.size));
    return sayForm(
      language,
      `repeatRows.${extent.kind}`,
      { rows, n: number(context, extent.times) },
      agree(context, extent.times, exact),
    );
  }
  const slots = { rows, extent: sayExtent(extent, context) };
  const key = all ? 'repeatRows.until' : 'repeatRows.untilOf';
  return sayForm(language, key, slots, { context: extent.kind });
}

/** `rows 1–4`, `last 2 rows`, `dec row`, `rows 1–24 of Chart A`. */
function sayRowsOf({ rows, of }: Of<'repeatRows'>, context: SayContext): Spoken {
  const { language, names } = context;
  const said = sayRowNames(rows, context);
  if (of === undefined) return said;
  const fabric = isChart(names, of)
    ? sayChartName(language, names, of)
    : sayFabric(language, names, of);
  return sayForm(language, 'rows.of', { rows: said, of: spoken(fabric) });
}

function sayRowNames(rows: Of<'repeatRows'>['rows'], context: SayContext): Spoken {
  const { language } = context;
  const unit = unitOf(context);
  if ('ranges' in rows) {
    const choice = { context: unit, count: rowCount(rows.ranges) };
    return sayForm(language, 'rows.named', { rows: sayRanges(rows.ranges, context) }, choice);
  }
  if ('last' in rows) {
    const exact = exactly(choose(rows.last, context.size));
    const n = number(context, rows.last);
    return sayForm(
      language,
      'rows.last',
      { n },
      agree(context, rows.last, exact === '1' ? `${unit}1` : unit),
    );
  }
  return sayForm(language, 'rows.role', {
    role: sayForm(language, `role.${rows.role}`, {}, { context: unit }),
  });
}

function sayExtent(extent: Extent, context: SayContext): Spoken {
  const { language } = context;
  switch (extent.kind) {
    case 'length':
      return sayLengthExtent(extent, context);
    case 'rows': {
      const n = number(context, extent.count);
      return sayForm(language, 'extent.rows', { n }, agree(context, extent.count, unitOf(context)));
    }
    case 'count': {
      const n = number(context, extent.count);
      return sayForm(language, 'extent.count', { n }, agree(context, extent.count));
    }
    case 'more':
    case 'total': {
      const n = number(context, extent.times);
      const exact = exactly(choose(extent.times, context.size));
      return sayForm(language, `extent.${extent.kind}`, { n }, agree(context, extent.times, exact));
    }
    case 'once':
      return sayForm(language, 'extent.once', {});
    default:
      return assertNever(extent);
  }
}

function sayLengthExtent(extent: Extract<Extent, { kind: 'length' }>, context: SayContext): Spoken {
  const { language } = context;
  const said = sayForm(
    language,
    'extent.length',
    { length: sayLength(language, extent.length, context.size) },
    { context: extent.from },
  );
  const unit = unitOf(context);
  if (extent.endingRow) {
    const n = number(context, extent.endingRow);
    return sayForm(language, 'extent.endingRow', { extent: said, n }, { context: unit });
  }
  if (!extent.ending) return said;
  return sayForm(language, 'extent.endingSide', { extent: said }, { context: extent.ending });
}

function sayWorkEven(sentence: Of<'workEven'>, context: SayContext): Spoken {
  const { language, names } = context;
  const { fabric, extent } = sentence;
  if (fabric !== undefined && isStitch(fabric, context)) {
    const verb = sayStitchRun(language, fabric, 'verb');
    if (extent.kind === 'once') return sayForm(language, 'workAll', { verb });
    if (extent.kind === 'rows') {
      const choice = agree(context, extent.count, unitOf(context));
      const n = number(context, extent.count);
      return sayForm(language, 'workEven.stitchRows', { verb, n }, choice);
    }
    const slots = { verb, extent: sayExtent(extent, context) };
    return sayForm(language, 'workEven.stitch', slots, { context: extent.kind });
  }
  if (extent.kind === 'once') return sayWorkOnce(fabric, context);
  const said = sayExtent(extent, context);
  const choice: Choice = { context: extent.kind };
  if (fabric === undefined) {
    return sayForm(language, 'workEven.established', { extent: said }, choice);
  }
  if (isChart(names, fabric)) {
    const chart = chartName(context, fabric);
    return sayForm(language, 'workEven.chart', { chart, extent: said }, choice);
  }
  const inFabric = sayInFabric(language, names, fabric);
  return sayForm(language, 'workEven.fabric', { fabric: inFabric, extent: said }, choice);
}

/** What each row of a label does: `Rows 1–8: work in rib`. */
function sayWorkOnce(fabric: string | undefined, context: SayContext): Spoken {
  const { language, names } = context;
  if (fabric === undefined) return sayForm(language, 'workEven.establishedOnce', {});
  if (isChart(names, fabric)) {
    return sayForm(language, 'chart.whole', { chart: chartName(context, fabric) });
  }
  const inFabric = sayInFabric(language, names, fabric);
  return sayForm(language, 'workEven.fabricOnce', { fabric: inFabric });
}

/** A fabric that is one stitch all along the row, such as `k`. */
function isStitch(fabric: string, { language }: SayContext): boolean {
  const found = findStitch(language, fabric);
  return found !== undefined && stitchTemplate(language, found, 'verb') !== undefined;
}

// ---------------------------------------------------------------- shaping

function saySchedule(schedule: Schedule, context: SayContext): Spoken {
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

function sayEdgeRows(sentence: Of<'edgeRows'>, context: SayContext): Spoken {
  const { language } = context;
  const rows = sayForm(
    language,
    'nextRows',
    { n: number(context, sentence.rows) },
    agree(context, sentence.rows, unitOf(context)),
  );
  return sayForm(
    language,
    `edgeRows.${sentence.act}`,
    { n: number(context, sentence.count), rows },
    agree(context, sentence.count, sentence.at),
  );
}

function sayYarnSentence(sentence: Of<'yarn'>, context: SayContext): Spoken {
  const { language, names } = context;
  const { act } = sentence;
  if (act === 'change') {
    const yarn = sayYarn(language, names, sentence.yarn ?? 'MC');
    return sayForm(language, 'yarn.change', { yarn });
  }
  if (sentence.yarn === undefined) return sayForm(language, `yarn.${act}`, {});
  const yarn = sayYarn(language, names, sentence.yarn);
  return sayForm(language, act === 'join' ? 'yarn.joinNamed' : 'yarn.breakNamed', { yarn });
}
