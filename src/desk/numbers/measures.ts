/**
 * Measurements and reckoned numbers size by size: what is stated, what the rows or the rule give, and
 * how far the two are apart, with a bar for each size. Takes what a check sees, gives plain rows for the
 * page; every length stands in the unit in which it is stated.
 */
import { CENTIMETRES_PER_INCH } from '../../base/brand.ts';
import { sayNumber, sayOff } from '../../base/plain-number.ts';
import { sizedValue } from '../../pattern/bundle/sized-data.ts';
import type { CheckContext } from '../../pattern/checks/context.ts';
import { inchesOf } from '../../pattern/checks/motif-ways.ts';
import { remarkOnGrade } from '../../pattern/grading/body.ts';
import {
  nameOf,
  type ResolvedNumber,
  resolveNumbers,
} from '../../pattern/grading/rules/resolve.ts';
import {
  deviationInches,
  type SettledSize,
  settleNumbers,
} from '../../pattern/grading/rules/settle.ts';
import type { BundleData } from '../../pattern/bundle/schema.ts';
import { pieceOf } from '../../pattern/grading/sheet/book.ts';
import { deviationBar } from '../figures/bar.ts';
import { gradeCurve } from '../figures/curve.ts';
import type { Spoken } from '../names.ts';
import type { FieldView } from '../field.ts';
import type { Say } from '../wording.ts';
import type { Fields } from './fields.ts';
import { numberPlace, type Use, type Uses } from './uses.ts';

interface Cell {
  readonly size: string;
  readonly value: string;
  /** A difference in words, with its bar; empty where there is none to tell. */
  readonly off: string;
  readonly bar: string;
}

export interface NumberRow {
  readonly place: string;
  /** Where its values stand in the pattern. */
  readonly at: string;
  readonly name: string;
  /** Rows of the table that share this name; 0 where the row before carries it. */
  readonly span: number;
  readonly unit: string;
  readonly rule: string;
  /** The number whose rule is looked at and changed on a page of its own; empty for a measurement. */
  readonly ruled: string;
  readonly state: string;
  readonly cells: readonly Cell[];
  readonly uses: readonly Use[];
  readonly usesWord: string;
  /** Values to correct; none in a row that carries on the number above it. */
  readonly fields: readonly FieldView[];
  readonly returned: boolean;
}

/** Differences below this are rounding of the page. */
const LEAST_OFF = 0.005;

export interface Telling {
  readonly uses: Uses;
  readonly spoken: Spoken;
  readonly say: Say;
  readonly fields: Fields;
}

export function measurementRows(
  context: CheckContext,
  { uses, spoken, say, fields }: Telling,
): readonly NumberRow[] {
  const { data } = context;
  return data.measurements.flatMap((measurement, number) => {
    const { id, letter, name, size } = measurement;
    const counted = inchesOf(context, measurement);
    const units = (['in', 'cm'] as const).filter((unit) => size[unit] !== undefined);
    return units.map((unit, at): NumberRow => {
      const factor = unit === 'cm' ? CENTIMETRES_PER_INCH : 1;
      const offs = data.sizes.map((_, each) => {
        const stated = sizedValue(size[unit], each) ?? null;
        const inches = counted[each] ?? null;
        return stated === null || inches === null ? null : inches * factor - stated;
      });
      const first = at === 0;
      return {
        place: first ? numberPlace(`measurements/${id}`) : '',
        at: `/measurements/${number}/size/${unit}`,
        name: first ? `${letter} · ${spoken.measurement(name)}` : '',
        span: first ? units.length : 0,
        unit,
        rule: '',
        ruled: '',
        state: first && 'given' in measurement.from ? say('numbers.given') : '',
        cells: cellsOf(data.sizes, data.sizes.map((_, each) => sizedValue(size[unit], each) ?? null), offs, factor), // prettier-ignore
        ...usesFields(first ? (uses.get(`measurements/${id}`) ?? []) : [], say),
        ...changeable(first ? fields(`/measurements/${number}/size`, units) : []),
      };
    });
  });
}

/** An eighth of an inch fills a bar, unless something is further off. */
function cellsOf(
  sizes: readonly string[],
  values: readonly (number | null)[],
  offs: readonly (number | null)[],
  perInch: number,
): readonly Cell[] {
  const scale = Math.max(perInch / 8, ...offs.map((each) => Math.abs(each ?? 0)));
  return values.map((value, at) => {
    const off = offs[at] ?? null;
    const told = off !== null && Math.abs(off) >= LEAST_OFF;
    return {
      size: sizes[at] ?? '',
      value: sayNumber(value),
      off: told ? sayOff(off) : '',
      bar: told ? deviationBar(off, scale) : '',
    };
  });
}

const usesFields = (uses: readonly Use[], say: Say) => ({
  uses,
  usesWord: uses.length === 0 ? '' : say('use.title', { count: uses.length }),
});

const changeable = (fields: readonly FieldView[]) => ({
  fields,
  returned: fields.some(({ returned }) => returned),
});

// ---------------------------------------------------------------- numbers that carry a rule

export interface NumberGroup {
  readonly title: string;
  readonly rows: readonly NumberRow[];
}

export function reckonedGroups(context: CheckContext, telling: Telling): readonly NumberGroup[] {
  const { spoken, say } = telling;
  const { data } = context;
  const resolved = resolveNumbers(data);
  const settled = settleNumbers(data, resolved);
  return [...data.pieces, undefined].flatMap((piece) => {
    const numbers = resolved.numbers.filter((each) => pieceOf(data, each.data) === piece?.id);
    if (numbers.length === 0) return [];
    const title = piece ? spoken.piece(piece.title) : say('numbers.garment');
    return [{ title, rows: numbers.map((number) => reckonedRow(number, settled, data, telling)) }];
  });
}

function reckonedRow(
  { data, rule, stated, problem }: ResolvedNumber,
  settled: readonly SettledSize[],
  { numbers = [], sizes }: BundleData,
  { uses, say, fields }: Telling,
): NumberRow {
  const values = settled.map((each) => each.values.get(data.id) ?? null);
  const offs = settled.map((each, size) => {
    const derived = each.derived.get(data.id);
    const value = values[size] ?? null;
    return !derived || value === null ? null : deviationInches(derived, value);
  });
  const follows = settled.every((each, size) => each.derived.get(data.id)?.count === values[size]);
  const state = problem
    ? 'problem'
    : !rule
      ? 'typed'
      : stated === undefined
        ? 'open'
        : follows
          ? 'follows'
          : 'over';
  const place = `/numbers/${numbers.findIndex(({ id }) => id === data.id)}`;
  return {
    place: numberPlace(`numbers/${data.id}`),
    at: `${place}/value`,
    name: nameOf(data),
    span: 1,
    unit: data.unit,
    rule: data.rule ?? '',
    ruled: data.id,
    state: say(`numbers.${state}`),
    cells: cellsOf(sizes, values, offs, 1),
    ...usesFields(uses.get(`numbers/${data.id}`) ?? [], say),
    ...changeable(fields(place, ['rule', 'value'])),
  };
}

// ---------------------------------------------------------------- grade curves

export interface CurveView {
  readonly title: string;
  readonly svg: string;
  readonly remark: string;
}

/** In the unit that is stated first; each with the body it is worn on, where its ease is stated. */
export function gradeCurves(
  { data }: CheckContext,
  { spoken, say }: Telling,
): readonly CurveView[] {
  const { sizes } = data;
  if (sizes.length < 2) return [];
  return data.measurements.map(({ letter, name, size, ease }) => {
    const unit = size.cm === undefined ? 'in' : 'cm';
    const of = (length: typeof size | undefined) =>
      sizes.map((_, at) => sizedValue(length?.[unit], at) ?? null);
    const values = of(size);
    const known = values.flatMap((value, at) => (value === null ? [] : [{ value, at }]));
    const remarks = remarkOnGrade(known.map(({ value }) => value));
    const remarked = remarks.map(({ at }) => known[at]?.at ?? 0);
    const body = ease && of(data.body.find(({ part }) => part === ease.over)?.size);
    const title = `${letter} · ${spoken.measurement(name)}, ${say(`unit.${unit}`)}`;
    const list = values.map((value, at) => say('curve.value', { size: sizes[at] ?? '', off: sayNumber(value) })).join('; '); // prettier-ignore
    const remark = remarks
      .map(({ kind }, at) => say(`curve.${kind}`, { size: sizes[remarked[at] ?? 0] ?? '' }))
      .join(' ');
    const svg = gradeCurve({ sizes, values, remarked, ...(body && { body }) }, `${title}: ${list}`);
    return { title, svg, remark };
  });
}
