/**
 * How each number follows: the rule and gauge it comes from, what the rows came to, and how far the
 * stated value lies from that. Takes the check's own view of the pattern and a list of numbers; gives
 * words and rows over the sizes, nothing where a number follows from nothing.
 */
import { once } from '../../base/once.ts';
import { CENTIMETRES_PER_INCH } from '../../base/brand.ts';
import { followPointer } from '../../base/span.ts';
import type { BundleData } from '../../pattern/bundle/schema.ts';
import { sizedValue } from '../../pattern/bundle/sized-data.ts';
import type { CheckContext } from '../../pattern/checks/context.ts';
import { sourceSay, trueInches } from '../../pattern/checks/derive.ts';
import { bodyValue, BODY_SOURCE } from '../../pattern/grading/body.ts';
import { averageGauge, readBase } from '../../pattern/grading/gauge.ts';
import {
  nameOf,
  resolveNumbers,
  type ResolvedNumber,
} from '../../pattern/grading/rules/resolve.ts';
import {
  deviationInches,
  type SettledSize,
  settleNumbers,
} from '../../pattern/grading/rules/settle.ts';
import { yarnNeeds } from '../../pattern/grading/yarn.ts';
import { fabricAreas } from '../../pattern/outlines/areas.ts';
import { firstOf, type NumberList } from './numbers.ts';

export type Values = readonly (number | null)[];

export interface Derivation {
  /** "(body head − 2 in) at rib, nearest multiple of twisted-rib" */
  readonly says: string;
  /** What the number comes to by that, one for each size; absent where words say it all. */
  readonly worked?: { readonly name: string; readonly values: Values };
  /** Stated less worked, one for each size. */
  readonly off?: { readonly unit: string; readonly values: Values };
}

export interface Derivations {
  of(list: NumberList): Derivation | undefined;
}

export function openDerivations(context: CheckContext): Derivations {
  const { data } = context;
  const resolved = resolveNumbers(data);
  const room: Room = {
    context,
    numbers: resolved.numbers,
    settled: settleNumbers(data, resolved),
    grams: once(() => gramsBySize(context)),
  };
  return {
    of(list) {
      const { home, where } = firstOf(list).number;
      if (home.kind === 'pattern') return undefined;
      if (home.kind === 'line') return ofLine(room, list);
      const [part] = home.steps;
      return part === undefined ? undefined : ofData(room, String(part), where.pointer);
    },
  };
}

interface Room {
  readonly context: CheckContext;
  readonly numbers: readonly ResolvedNumber[];
  readonly settled: readonly SettledSize[];
  /** By size, then by colour; undefined where no swatch was weighed. */
  grams(): readonly (ReadonlyMap<string, number> | undefined)[];
}

const overSizes = ({ context }: Room, value: (size: number) => number | null | undefined): Values =>
  context.pattern.sizes.map((_, size) => value(size) ?? null);

/** Stated less worked; null where one of them is not there. */
function offBy(stated: Values, worked: Values): Values {
  return worked.map((value, at) => {
    const own = stated.length === 1 ? stated[0] : stated[at];
    return value === null || own === null || own === undefined ? null : own - value;
  });
}

// ---------------------------------------------------------------- numbers in the rows

function ofLine(room: Room, list: NumberList): Derivation | undefined {
  const { number } = firstOf(list);
  if (number.home.kind !== 'line') return undefined;
  const { piece, line, number: written } = number.home;
  const rule = ruleFor(room, number.where.pointer, number.list);
  const [root] = written.path;
  if (root === 'label') return { says: 'rows are counted on from the one before' };
  const outcome = (size: number) => room.context.outcome(piece, line, size);
  const counts = (which: 'before' | 'after') =>
    overSizes(room, (size) => (outcome(size)?.skipped ? null : outcome(size)?.[which]));
  if (root === 'stated') {
    const worked = counts('after');
    const says = rule ? ruleSays(rule) : `worked from ${sayFew(counts('before'))} before it`;
    const off = { unit: 'sts', values: offBy(number.list, worked) };
    return { says, worked: { name: 'worked', values: worked }, off };
  }
  if (rule) return ofRule(room, rule);
  const says = `${sayFew(counts('before'))} before the row, ${sayFew(counts('after'))} after it`;
  return written.path.includes('inches') || written.path.includes('centimetres')
    ? { says: 'a length as the row states it' }
    : { says };
}

/** "126 (133, 140)": a list as short as it can be written. */
function sayFew(values: Values): string {
  const said = values.map((value) => (value === null ? '–' : String(value)));
  const [first = '–', ...rest] = said;
  return rest.every((each) => each === first) ? first : `${first} (${rest.join(', ')})`;
}

/** The rule a row names in braces, or whose place the line is, where the values are its own. */
function ruleFor(room: Room, pointer: string, values: Values): ResolvedNumber | undefined {
  const { data, pieces } = room.context;
  const source = followPointer(data, pointer);
  const id = pieces
    .flatMap(({ piece, lines }) => lines.map((each) => ({ piece, line: each.line })))
    .flatMap(({ piece, line }) => (line.pointer === pointer && line.id !== undefined ? `${piece.data.id}/${line.id}` : []))[0]; // prettier-ignore
  return room.numbers.find((each) => {
    if (!each.rule) return false;
    const isNamed = typeof source === 'string' && source.includes(`{${each.data.id}}`);
    const isPlace = id !== undefined && (each.data.places ?? []).some((place) => place === id);
    return (isNamed || isPlace) && sameValues(valuesOf(room, each), values);
  });
}

const valuesOf = (room: Room, { data }: ResolvedNumber): Values =>
  room.settled.map(({ values }) => values.get(data.id) ?? null);

const sameValues = (all: Values, some: Values): boolean =>
  all.every((value, at) => value === (some.length === 1 ? some[0] : some[at]));

// ---------------------------------------------------------------- numbers with rules

const ruleSays = ({ data, rule }: ResolvedNumber): string =>
  `${nameOf(data)}: ${rule?.text ?? 'stated'}`;

function ofRule(room: Room, number: ResolvedNumber): Derivation {
  const { data, rule } = number;
  if (!rule) return { says: 'stated, without a rule' };
  const derived = room.settled.map((each) => each.derived.get(data.id) ?? null);
  const values = valuesOf(room, number);
  const gauge = derived.find((each) => each !== null)?.amount;
  const through =
    gauge && gauge.unit !== 'length' && gauge.gauge
      ? `; ${gauge.gauge.id}: ${gauge.gauge.stitches} sts and ${gauge.gauge.rows} rows over ${gauge.gauge.over}`
      : '';
  const off = derived.map((each, size) => {
    const value = values[size];
    if (!each || value === null || value === undefined) return null;
    return through === '' ? value - each.exact : deviationInches(each, value);
  });
  return {
    says: `${rule.text}${through}`,
    worked: { name: 'exact', values: derived.map((each) => each?.exact ?? null) },
    off: { unit: through === '' ? data.unit : 'in', values: off },
  };
}

// ---------------------------------------------------------------- the rest of the bundle

function ofData(room: Room, part: string, pointer: string): Derivation | undefined {
  const [, , at = '', ...rest] = pointer.split('/');
  const { data } = room.context;
  switch (part) {
    case 'measurements':
      return ofMeasurement(room, data.measurements[Number(at)], rest);
    case 'numbers': {
      const number = room.numbers[Number(at)];
      return number && ofRule(room, number);
    }
    case 'body':
      return ofBody(room, data.body[Number(at)], rest);
    case 'gauges':
      return ofGauge(data.gauges[Number(at)], rest);
    case 'yarns':
      return ofYarn(room, data.yarns[Number(at)], rest);
    default:
      return undefined;
  }
}

const isUnit = (step: string | undefined): step is 'in' | 'cm' => step === 'in' || step === 'cm';

function ofMeasurement(
  room: Room,
  measurement: BundleData['measurements'][number] | undefined,
  rest: readonly string[],
): Derivation | undefined {
  const unit = rest.at(-1);
  if (!measurement || !isUnit(unit)) return undefined;
  const { from, size, ease } = measurement;
  const scale = unit === 'cm' ? CENTIMETRES_PER_INCH : 1;
  const exact = overSizes(room, (at) => {
    const inches = trueInches(room.context, from, at);
    return typeof inches === 'number' ? inches * scale : null;
  });
  if (rest[0] === 'ease' && ease) {
    const body = room.context.data.body.find(({ part }) => part === ease.over);
    const worked = overSizes(room, (at) => {
      const [own, under] = [sizedValue(size[unit], at), sizedValue(body?.size[unit], at)];
      return typeof own === 'number' && typeof under === 'number' ? own - under : null;
    });
    const stated = overSizes(room, (at) => sizedValue(ease.size[unit], at));
    const off = { unit, values: offBy(stated, worked) };
    return {
      says: `finished less ${ease.over}`,
      worked: { name: 'measured', values: worked },
      off,
    };
  }
  if ('given' in from) return { says: 'stated by the designer; follows from no count' };
  const stated = overSizes(room, (at) => sizedValue(size[unit], at));
  const gauge = 'gauge' in from && from.gauge !== undefined ? ` through gauge ${from.gauge}` : '';
  return {
    says: `${sourceSay(from)}${gauge}`,
    worked: { name: 'exact', values: exact },
    off: { unit, values: offBy(stated, exact) },
  };
}

function ofBody(
  room: Room,
  body: BundleData['body'][number] | undefined,
  rest: readonly string[],
): Derivation | undefined {
  if (!body) return undefined;
  const { table, part, source } = body;
  if (!table) return { says: source ?? 'the designer’s own' };
  const scale = rest.at(-1) === 'cm' ? CENTIMETRES_PER_INCH : 1;
  const published = room.context.data.sizes.map((size) => bodyValue(table, size, part));
  const middle = published.map((each) =>
    each ? ((each.fromInches + each.toInches) / 2) * scale : null,
  );
  return {
    says: `${BODY_SOURCE}, ${table}`,
    ...(middle.some((each) => each !== null) && { worked: { name: 'its middle', values: middle } }),
  };
}

function ofGauge(
  gauge: BundleData['gauges'][number] | undefined,
  rest: readonly string[],
): Derivation | undefined {
  const [kind] = rest;
  if (!gauge || (kind !== 'stitches' && kind !== 'rows')) return undefined;
  const over = readBase(gauge.over);
  const [first, ...others] = gauge.swatch?.readings ?? [];
  if (!first) return { says: 'counted by the designer' };
  const mean = averageGauge([{ ...first, over }, ...others.map((each) => ({ ...each, over }))]);
  return {
    says: `mean of ${others.length + 1} readings of the washed swatch`,
    worked: { name: 'mean', values: [mean.gauge[kind]] },
    off: { unit: kind === 'rows' ? 'rows' : 'sts', values: [gauge[kind] - mean.gauge[kind]] },
  };
}

// ---------------------------------------------------------------- yarn

function gramsBySize({ data, pattern, pieces }: CheckContext) {
  return data.sizes.map((_, size) => {
    const needs = yarnNeeds(data, fabricAreas({ pattern, pieces, findings: [] }, size));
    return needs && new Map(needs.map(({ colour, grams }) => [colour, grams]));
  });
}

function ofYarn(
  room: Room,
  yarn: BundleData['yarns'][number] | undefined,
  [kind, at, what]: readonly string[],
): Derivation | undefined {
  const colour = kind === 'colours' ? yarn?.colours[Number(at)] : undefined;
  if (!colour || what !== 'grams') return undefined;
  const worked = room.grams().map((each) => each?.get(colour.id) ?? null);
  if (worked.every((each) => each === null)) return { says: 'weighed on the finished piece' };
  const stated = overSizes(room, (size) => sizedValue(colour.grams, size));
  return {
    says: 'area of the rows times the weight of the swatch, without allowance',
    worked: { name: 'by the rows', values: worked },
    off: { unit: 'g', values: offBy(stated, worked) },
  };
}
