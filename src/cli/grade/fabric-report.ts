/**
 * What gauge, motif and yarn mean for each size: what half a stitch does, how long to knit before
 * washing, the ways a motif goes round, and the grams the worked rows take. Lines for the terminal.
 */
import type { GaugeData } from '../../pattern/bundle/schema.ts';
import { sizedValue } from '../../pattern/bundle/sized-data.ts';
import type { CheckContext } from '../../pattern/checks/context.ts';
import { countedBy, gaugeFrom, inchesOf, motifPlaces } from '../../pattern/checks/motif-ways.ts';
import { followedRows } from '../../pattern/checks/pattern-rows.ts';
import { bodySource, bodyValue } from '../../pattern/grading/body.ts';
import {
  averageGauge,
  changeByWashing,
  effectOfError,
  lengthBeforeWashing,
  readBase,
} from '../../pattern/grading/gauge.ts';
import { metresOf, wholeBalls, YARN_ALLOWANCE, yarnNeeds } from '../../pattern/grading/yarn.ts';
import { fabricAreas } from '../../pattern/outlines/areas.ts';
import { sayNumber, sayOff, sizeTable, type TableRow } from './tables.ts';

// ---------------------------------------------------------------- gauge

/** What half a stitch over the base does to every width, and half a row to every length. */
export function gaugeLines(context: CheckContext): readonly string[] {
  return context.data.gauges.flatMap((gauge) => [
    `gauge ${gauge.id}: ${gauge.stitches} sts and ${gauge.rows} rows over ${gauge.over}, ${gauge.pattern}`,
    ...swatchLines(gauge),
    ...errorLines(context, gauge),
    ...washingLines(context, gauge),
    '',
  ]);
}

function swatchLines({ swatch, over }: GaugeData): readonly string[] {
  const [first, ...others] = swatch?.readings ?? [];
  if (!first) return [];
  const base = readBase(over);
  const { gauge, spreadStitches, spreadRows } = averageGauge([
    { ...first, over: base },
    ...others.map((each) => ({ ...each, over: base })),
  ]);
  return [
    `  ${others.length + 1} readings: ${sayNumber(gauge.stitches)} sts and ${sayNumber(gauge.rows)} rows on average, at most ${sayNumber(spreadStitches)} sts and ${sayNumber(spreadRows)} rows from it`,
  ];
}

/** The measurements that follow from stitches of this gauge, and from its rows. */
function errorLines(context: CheckContext, gauge: GaugeData): readonly string[] {
  const rows = context.data.measurements.flatMap((measurement): TableRow[] => {
    const kind = countedBy(context, measurement, gauge);
    if (!kind) return [];
    const effects = inchesOf(context, measurement).map((inches) =>
      inches === null ? null : { inches, ...effectOfError(inches, gaugeFrom(gauge), kind) },
    );
    const unit = kind === 'rows' ? 'row' : 'st';
    const name = `${measurement.letter} ${measurement.id}`;
    return [
      { name: `${name}, ½ ${unit} fewer, in`, cells: effects.map((each) => sayOff(each && each.looserInches - each.inches)) },
      { name: `${name}, ½ ${unit} more, in`, cells: effects.map((each) => sayOff(each && each.tighterInches - each.inches)) },
    ]; // prettier-ignore
  });
  return rows.length === 0
    ? []
    : ['  half a stitch or row over the base does this:', ...sizeTable(context.data.sizes, rows)];
}

/** "Knit to X before washing", where the swatch was counted before and after. */
function washingLines(context: CheckContext, gauge: GaugeData): readonly string[] {
  const [first, ...others] = gauge.swatch?.before ?? [];
  if (!first) return [];
  const over = readBase(gauge.over);
  const before = averageGauge([{ ...first, over }, ...others.map((each) => ({ ...each, over }))]);
  const change = changeByWashing(before.gauge, gaugeFrom(gauge));
  const percent = (factor: number) => `${sayOff((factor - 1) * 100)} %`;
  const rows = context.data.measurements.flatMap((measurement): TableRow[] => {
    const { from } = measurement;
    const piece = 'depth' in from ? from.depth[0].split('/')[0] : undefined;
    const own = context.data.pieces.find(({ id }) => id === piece)?.gauge;
    if (!('depth' in from) || (from.gauge ?? own) !== gauge.id) return [];
    const cells = inchesOf(context, measurement).map((inches) =>
      sayNumber(inches === null ? null : lengthBeforeWashing(inches, change)),
    );
    return [{ name: `${measurement.letter} ${measurement.id}, in`, cells }];
  });
  return [
    `  washing changes widths by ${percent(change.width)} and lengths by ${percent(change.length)}`,
    ...(rows.length === 0
      ? []
      : ['  knit to, before washing:', ...sizeTable(context.data.sizes, rows)]),
  ];
}

// ---------------------------------------------------------------- motif

export function motifLines(context: CheckContext): readonly string[] {
  const { data } = context;
  const lines = motifPlaces(context).flatMap(({ pattern, measurement, ways }) => [
    `${pattern.id}, a multiple of ${pattern.multiple}${pattern.plus ? ` + ${pattern.plus}` : ''}, round ${measurement.letter} ${measurement.id}`,
    ...ways.flatMap(({ way, reason, sizes }) => [
      `  ${way}: ${reason}`,
      ...sizeTable(data.sizes, [
        { name: 'repeats', cells: sizes.map(({ repeats }) => String(repeats)) },
        ...(sizes.some(({ panel }) => panel > 0) ? [{ name: 'panel each side', cells: sizes.map(({ panel }) => String(panel)) }] : []),
        { name: 'sts', cells: sizes.map(({ stitches }) => String(stitches)) },
        { name: 'off by, in', cells: sizes.map(({ deviationInches }) => sayOff(deviationInches)) },
      ]), // prettier-ignore
    ]),
    '',
  ]);
  const rows = rowLines(context);
  return [
    ...lines,
    ...rows,
    ...(lines.length + rows.length === 0
      ? ['No stitch pattern of the bundle has a gauge of its own and a width.']
      : []),
  ];
}

/** Which row of each chart and stitch pattern is worked last at each named line: armhole, neck, cuff. */
function rowLines(context: CheckContext): readonly string[] {
  const { data, pieces } = context;
  const fabrics = [
    ...data.charts.map(({ id, name, rows }) => ({
      id,
      name: `row of ${name}, of ${rows.length},`,
    })),
    ...data.stitchPatterns.map(({ id }) => ({ id, name: `row of ${id}` })),
  ];
  return pieces.flatMap((trace) => {
    const followed = followedRows(context, trace);
    return fabrics.flatMap(({ id, name }) => {
      const rows = trace.lines.flatMap(({ line }, at): TableRow[] => {
        const own = followed[at]?.map((each) => each[id]) ?? [];
        if (line.id === undefined || own.every((row) => row === undefined)) return [];
        return [{ name: line.id, cells: own.map((row) => sayNumber(row)) }];
      });
      if (rows.length === 0) return [];
      return [`${trace.piece.data.id}: ${name} worked last at each place`, ...sizeTable(data.sizes, rows), '']; // prettier-ignore
    });
  });
}

// ---------------------------------------------------------------- yarn and body

export function yarnLines(context: CheckContext): readonly string[] {
  const { data, pattern, pieces } = context;
  const areas = data.sizes.map((_, size) => fabricAreas({ pattern, pieces, findings: [] }, size));
  const total = areas.map((each) => each.reduce((sum, { squareInches }) => sum + squareInches, 0));
  const needs = areas.map((each) => yarnNeeds(data, each));
  const head = ['area of all pieces', ...sizeTable(data.sizes, [
    { name: 'sq in', cells: total.map((each) => sayNumber(each, 0)) },
    { name: 'sq m', cells: total.map((each) => sayNumber((each * 2.54 ** 2) / 10_000, 2)) },
  ])]; // prettier-ignore
  if (needs.some((each) => each === undefined))
    return [
      ...head,
      '  no swatch was weighed: give a gauge its "swatch" with width, length and grams',
    ];
  return [
    ...head,
    ...data.yarns.flatMap(({ name, ball, colours }) =>
      colours.flatMap((colour) => {
        const grams = needs.map(
          (each) => each?.find((need) => need.colour === colour.id)?.grams ?? null,
        );
        if (grams.every((each) => each === null)) return [];
        const withMore = grams.map((each) => (each === null ? null : each * (1 + YARN_ALLOWANCE)));
        return [`${name}, ${colour.name}`, ...sizeTable(data.sizes, [
      { name: 'grams by the rows', cells: grams.map((each) => sayNumber(each, 0)) },
      { name: `and ${YARN_ALLOWANCE * 100} % more`, cells: withMore.map((each) => sayNumber(each, 0)) },
      { name: 'metres', cells: withMore.map((each) => sayNumber(each === null ? null : metresOf(each, ball), 0)) },
      { name: `balls of ${ball.grams} g`, cells: withMore.map((each) => sayNumber(each === null ? null : wholeBalls(each, ball.grams), 0)) },
      { name: 'stated, g', cells: data.sizes.map((_, size) => sayNumber(sizedValue(colour.grams, size) ?? null, 0)) },
    ])]; // prettier-ignore
      }),
    ),
  ];
}

export function bodyLines({ data }: CheckContext): readonly string[] {
  return data.body.flatMap(({ part, size, table, source }) => {
    const published = data.sizes.map((name) => (table ? bodyValue(table, name, part) : undefined));
    const rows: TableRow[] = [{ name: 'stated, in', cells: data.sizes.map((_, at) => sayNumber(sizedValue(size.in, at) ?? null)) }];
    if (published.some((each) => each !== undefined)) {
      rows.push({ name: 'table from, in', cells: published.map((each) => sayNumber(each?.fromInches)) });
      rows.push({ name: 'table to, in', cells: published.map((each) => sayNumber(each?.toInches)) });
    }
    const status = [...new Set(published.flatMap((each) => each?.status ?? []))].join(', ');
    const from = table ? `${bodySource(part)}, ${table} (${status})` : (source ?? 'the designer’s own');
    return [`${part}: ${from}`, ...sizeTable(data.sizes, rows), ''];
  }); // prettier-ignore
}
