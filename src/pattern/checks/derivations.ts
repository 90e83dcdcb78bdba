/**
 * Numbers that carry a rule: the rule is reckoned again and compared with what is stated, with the
 * rows at the places the number belongs to, and with what the rule demands. A rule that cannot be
 * reckoned is told with the place in its text.
 */
import { nearestWords } from '../../base/nearest.ts';
import { pointerTo } from '../../base/span.ts';
import type { Finding, Place } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import type { NumberData } from '../bundle/schema.ts';
import {
  amountsFor,
  nameOf,
  resolveNumbers,
  type ResolvedNumber,
} from '../grading/rules/resolve.ts';
import { gridOf } from '../grading/rules/evaluate.ts';
import type { Rule } from '../grading/rules/rule.ts';
import {
  deviationInches,
  fittingCounts,
  isWithin,
  keepsDemand,
  settleAfresh,
  type SettledSize,
  settleNumbers,
} from '../grading/rules/settle.ts';
import { type CheckContext, numberOf, numbersAt, placeOfNumber, valuesOf } from './context.ts';
import { widthCount } from './derive.ts';
import { named } from './measurements.ts';
import { roundsTo } from './rounding.ts';

export function checkDerivations(context: CheckContext): readonly Finding[] {
  const { data } = context;
  if (!data.numbers || data.numbers.length === 0) return [];
  const resolved = resolveNumbers(data);
  const settled = settleNumbers(data, resolved);
  return [
    ...twice(data.numbers),
    ...resolved.numbers.flatMap((number) =>
      number.problem
        ? [problemFinding(number, number.problem)]
        : [
            ...againstRule(context, number, settled),
            ...againstDemand(context, number, settled),
            ...againstRows(context, number, settled),
          ],
    ),
  ];
}

const twice = (numbers: readonly NumberData[]): readonly Finding[] =>
  numbers.flatMap(({ id }, at) =>
    numbers.findIndex((each) => each.id === id) === at
      ? []
      : [
          finding(
            'reference/twice',
            { file: 'pattern.json', pointer: pointerTo('', 'numbers', at, 'id') },
            { what: 'numbers', name: id },
          ),
        ],
  );

// ---------------------------------------------------------------- rules that cannot be reckoned

/** Why a rule cannot be reckoned, with its place. */
export function problemFinding(
  { data, pointer, rule }: Pick<ResolvedNumber, 'data' | 'pointer' | 'rule'>,
  problem: NonNullable<ResolvedNumber['problem']>,
): Finding {
  const name = nameOf(data);
  const where: Place = {
    file: 'pattern.json',
    pointer: pointerTo(pointer, 'rule'),
    text: data.rule ?? rule?.text ?? '',
    span: problem.span,
    label: `Number ${data.id}`,
  };
  switch (problem.kind) {
    case 'text':
      return finding('grade/rule', where, {
        name,
        found: problem.found,
        expected: problem.expected,
      });
    case 'name':
      return finding('grade/name', where, {
        name,
        what: problem.what,
        wanted: problem.name,
        nearest: problem.nearest,
      });
    case 'units':
      return finding('grade/units', where, { name, says: problem.says, remedy: problem.remedy });
    case 'circle':
      return finding('grade/circle', where, { name, names: problem.names });
  }
}

// ---------------------------------------------------------------- stated and derived

type Settled = readonly SettledSize[];

/** True where a stated number is the derived one; lengths may be rounded for print. */
function agrees(unit: NumberData['unit'], stated: number, derived: number): boolean {
  if (unit === 'in' || unit === 'cm') return roundsTo(stated, derived, unit);
  return Math.abs(stated - derived) < 1e-9;
}

function againstRule(
  context: CheckContext,
  { data, pointer, rule }: ResolvedNumber,
  settled: Settled,
): readonly Finding[] {
  const stated = numbersAt(data.value, pointerTo(pointer, 'value'));
  if (!stated || !rule) return [];
  const { unit } = data;
  const count = (size: number) => settled[size]?.derived.get(data.id)?.count ?? null;
  const different = context.sizes.filter((size) => {
    const one = numberOf(stated, size);
    const other = count(size);
    if (one === null || other === null) return one !== other;
    return !agrees(unit, one, other);
  });
  if (different.length === 0) return [];
  // A count may stand beside the nearest one so that a sum it belongs to comes out.
  const afresh = settleAfresh(context.data);
  const affected = different.filter(
    (size) => !fittingCounts(afresh[size], data.id).includes(numberOf(stated, size) ?? NaN),
  );
  if (affected.length === 0) return [];
  const facts = {
    ...numbered(context, data, affected),
    rule: rule.text,
    stated: valuesOf(context, (size) => numberOf(stated, size)),
    derived: valuesOf(context, count),
  };
  const where = placeOfNumber(stated, affected, `Number ${data.id}`);
  return [finding('grade/value', where, facts, { sizes: named(context, affected) })];
}

const numbered = (context: CheckContext, data: NumberData, affected: readonly number[]) => ({
  name: nameOf(data),
  unit: data.unit,
  sizes: context.pattern.sizes,
  affected,
});

// ---------------------------------------------------------------- demands

function againstDemand(
  context: CheckContext,
  number: ResolvedNumber,
  settled: Settled,
): readonly Finding[] {
  const { data, rule, pointer } = number;
  if (!rule?.rounding && !rule?.within) return [];
  const derived = (size: number) => settled[size]?.derived.get(data.id) ?? null;
  const value = (size: number) => settled[size]?.values.get(data.id) ?? null;
  const found: Finding[] = [];
  const odd = context.sizes.filter((size) => {
    const here = derived(size);
    return here !== null && !keepsDemand(context.data, number, size, here.exact);
  });
  if (rule.rounding) {
    const where = ruleAt(data, pointer, rule.rounding.span);
    const values = valuesOf(context, (size) => derived(size)?.exact);
    for (const { grid, sizes } of byGrid(context, rule, data.id, odd)) {
      const facts = { ...numbered(context, data, sizes), values, ...grid };
      found.push(finding('grade/exactly', where, facts, { sizes: named(context, sizes) }));
    }
  }
  const { within } = rule;
  const far = context.sizes.filter((size) => {
    const [here, count] = [derived(size), value(size)];
    return here !== null && count !== null && !isWithin(within, here, count);
  });
  if (far.length > 0 && within) {
    const inches = valuesOf(context, (size) => {
      const [here, count] = [derived(size), value(size)];
      return here === null || count === null ? null : deviationInches(here, count);
    });
    const bound = `${within.amount} ${within.unit}`;
    const facts = { ...numbered(context, data, far), inches, bound };
    const where = ruleAt(data, pointer, within.span);
    found.push(finding('grade/within', where, facts, { sizes: named(context, far) }));
  }
  return found;
}

/** Sizes that are held to the same multiple, together. */
function byGrid(context: CheckContext, rule: Rule, id: string, sizes: readonly number[]) {
  const groups = new Map<string, { grid: Grid; sizes: readonly number[] }>();
  for (const size of sizes) {
    const amounts = amountsFor(context.data, id, size, () => null);
    const grid = gridOf(rule, amounts);
    if (!grid) continue;
    const key = `${grid.multiple} + ${grid.plus}`;
    groups.set(key, { grid, sizes: [...(groups.get(key)?.sizes ?? []), size] });
  }
  return [...groups.values()];
}

type Grid = NonNullable<ReturnType<typeof gridOf>>;

const ruleAt = (data: NumberData, pointer: string, span: Place['span']): Place => ({
  file: 'pattern.json',
  pointer: pointerTo(pointer, 'rule'),
  text: data.rule ?? '',
  label: `Number ${data.id}`,
  ...(span && { span }),
});

// ---------------------------------------------------------------- the rows

function againstRows(
  context: CheckContext,
  { data, pointer }: ResolvedNumber,
  settled: Settled,
): readonly Finding[] {
  return (data.places ?? []).flatMap((place, at) => {
    const names = typeof place === 'string' ? [place] : [...place];
    const here = pointerTo(pointer, 'places', at);
    const unknown = names.filter((name) => !context.anchor(name));
    if (unknown.length > 0) return unknown.map((name) => unknownPlace(context, name, here));
    const wanted = (size: number) => settled[size]?.values.get(data.id) ?? null;
    const worked = (size: number) => workedAt(context, data.unit, names, size);
    const affected = context.sizes.filter((size) => {
      const [one, other] = [wanted(size), worked(size)];
      return one !== null && typeof other === 'number' && !agrees(data.unit, one, other);
    });
    if (affected.length === 0) return [];
    const facts = {
      ...numbered(context, data, affected),
      place: names.length === 1 ? (names[0] ?? '') : `${names[0]} to ${names[1]}`,
      wanted: valuesOf(context, wanted),
      worked: valuesOf(context, worked),
    };
    const where = { file: 'pattern.json', pointer: here, label: `Number ${data.id}` };
    return [finding('grade/place', where, facts, { sizes: named(context, affected) })];
  });
}

function unknownPlace(context: CheckContext, name: string, pointer: string): Finding {
  const places = context.pattern.pieces.flatMap((piece) => [
    piece.data.id,
    ...piece.sections.flatMap(({ lines }) =>
      lines.flatMap(({ id }) => (id === undefined ? [] : [`${piece.data.id}/${id}`])),
    ),
  ]);
  const where = { file: 'pattern.json', pointer, text: name };
  const facts = { what: 'place', name, nearest: nearestWords(name, places) };
  return finding('reference/unknown', where, facts);
}

/** What the needle counted there; undefined where it could not be worked. */
function workedAt(
  context: CheckContext,
  unit: NumberData['unit'],
  names: readonly string[],
  size: number,
): number | null | undefined {
  const [first, last] = names.map((name) => context.anchor(name));
  if (!first) return undefined;
  if (!last) return widthCount(context, first, size);
  if (first.piece !== last.piece) return undefined;
  const lines = context.pieces[last.piece]?.lines ?? [];
  const start = first.line === undefined ? 0 : first.line + 1;
  let rows = 0;
  let inches = 0;
  for (let line = start; line <= (last.line ?? lines.length - 1); line += 1) {
    const outcome = context.outcome(last.piece, line, size);
    if (!outcome || outcome.failed) return undefined;
    rows += outcome.rows;
    inches += outcome.lengthInches;
  }
  if (unit === 'rows') return rows;
  return unit === 'cm' ? inches * 2.54 : inches;
}
