/**
 * Rows named and repeated: `rows 1–4 and 7`, `rep last 2 rows 5 more times`, a row worked again with
 * something different in it.
 */
import type { Sized } from '../pattern/bundle/size-list.ts';
import type { RowRange, Sentence } from '../pattern/notation/ast.ts';
import { sayActions } from './actions.ts';
import { agree, listWithAnd, number, type SayContext, unitOf } from './context.ts';
import { sayEnding, sayExtent, stretchOf } from './extents.ts';
import { sayForm, type Spoken } from './language.ts';
import { joinParts, spoken } from './message.ts';
import { choose, exactly } from './numbers.ts';
import { isChart, sayFabric, spokenChart } from './words.ts';

type Of<Kind extends Sentence['kind']> = Extract<Sentence, { kind: Kind }>;

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

const sameValues = (a: Sized, b: Sized): boolean =>
  a.values.length === b.values.length && a.values.every((value, at) => value === b.values[at]);

/** 1 for a single row, 2 for several: what a word for rows agrees with. */
export const rowCount = (ranges: readonly RowRange[]): number =>
  ranges.length === 1 && ranges[0] && sameValues(ranges[0].from, ranges[0].to) ? 1 : 2;

/** A repeat of rows with what is different in it: `…, but k9 instead of k10`. */
export function sayRepeatRows(sentence: Of<'repeatRows'>, context: SayContext): Spoken {
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
    const once = sayForm(language, all ? 'repeatRows.once' : 'repeatRows.onceOf', { rows });
    return sayEnding(once, extent, context);
  }
  if (extent.kind === 'more' || extent.kind === 'total') {
    const exact = exactly(choose(extent.times, context.size));
    const times = sayForm(
      language,
      `repeatRows.${extent.kind}`,
      { rows, n: number(context, extent.times) },
      agree(context, extent.times, exact),
    );
    return sayEnding(times, extent, context);
  }
  const slots = { rows, extent: sayExtent(extent, context) };
  const key = all ? 'repeatRows.until' : 'repeatRows.untilOf';
  return sayForm(language, key, slots, { context: stretchOf(extent) });
}

/** `rows 1–4`, `last 2 rows`, `dec row`, `rows 1–24 of Chart A`. */
function sayRowsOf({ rows, of }: Of<'repeatRows'>, context: SayContext): Spoken {
  const { language, names } = context;
  const said = sayRowNames(rows, context);
  if (of === undefined) return said;
  const chart = isChart(names, of);
  const fabric = chart ? spokenChart(language, names, of) : spoken(sayFabric(language, names, of));
  // A chart is a word of the language and takes its article; a fabric may be the designer's own name.
  const choice = chart ? { context: 'chart' } : {};
  return sayForm(language, 'rows.of', { rows: said, of: fabric }, choice);
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
