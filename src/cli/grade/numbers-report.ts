/**
 * Numbers and measurements size by size: what was wanted, the count, how far it is off. Takes the
 * checked pattern and its settled numbers, gives lines for the terminal.
 */
import type { CheckContext } from '../../pattern/checks/context.ts';
import { trueInches } from '../../pattern/checks/derive.ts';
import { sizedValue } from '../../pattern/bundle/sized-data.ts';
import { pieceOf } from '../../pattern/grading/sheet/book.ts';
import { nameOf, type Resolved, type ResolvedNumber } from '../../pattern/grading/rules/resolve.ts';
import { deviationInches, type SettledSize } from '../../pattern/grading/rules/settle.ts';
import { outlineFromRows } from '../../pattern/outlines/index.ts';
import { sayNumber, sayOff, sizeTable, type TableRow } from './tables.ts';

export function numberLines(
  { data }: CheckContext,
  resolved: Resolved,
  settled: readonly SettledSize[],
): readonly string[] {
  if (resolved.numbers.length === 0)
    return [
      'The bundle has no numbers with rules yet. Give it some, for example:',
      '  "numbers": [{ "id": "back", "unit": "sts", "rule": "bust / 2 at body + 2 sts, nearest odd" }]',
    ];
  const groups = [...data.pieces.map(({ id }) => id), undefined];
  return groups.flatMap((piece) => {
    const numbers = resolved.numbers.filter((each) => pieceOf(data, each.data) === piece);
    if (numbers.length === 0) return [];
    return [
      piece ?? 'the whole garment',
      ...numbers.flatMap((number) => oneNumber(data.sizes, number, settled)),
      '',
    ];
  });
}

function oneNumber(
  sizes: readonly string[],
  { data, rule, stated, problem }: ResolvedNumber,
  settled: readonly SettledSize[],
): readonly string[] {
  const open = stated === undefined ? ' · open' : '';
  const head = `  ${nameOf(data)}${open}${rule ? `: ${rule.text}` : ''}`;
  if (problem) return [head, '    cannot be reckoned; see below'];
  const derived = settled.map((each) => each.derived.get(data.id) ?? null);
  const values = settled.map((each) => each.values.get(data.id) ?? null);
  const wanted = derived.map((each) =>
    each && each.amount.unit !== 'length' ? each.amount.wanted : undefined,
  );
  const rows: TableRow[] = [];
  if (wanted.some((each) => each !== undefined)) {
    rows.push({ name: 'wanted, in', cells: wanted.map((each) => sayNumber(each?.inches)) });
    rows.push({ name: 'wanted, cm', cells: wanted.map((each) => sayNumber(each?.centimetres, 1)) });
  }
  if (
    derived.some(
      (each, size) => each !== null && Math.abs(each.exact - (values[size] ?? each.exact)) > 1e-9,
    )
  )
    rows.push({ name: 'exact', cells: derived.map((each) => sayNumber(each?.exact)) });
  rows.push({ name: data.unit, cells: values.map((value) => sayNumber(value)) });
  const off = derived.map((each, size) => {
    const value = values[size];
    return each === null || value === null || value === undefined
      ? null
      : deviationInches(each, value);
  });
  const isOff = off.some((each) => each !== null && Math.abs(each) >= 0.005);
  if (isOff || wanted.some((each) => each !== undefined))
    rows.push({ name: 'off by, in', cells: off.map(sayOff) });
  if (isOff)
    rows.push({
      name: 'off by, cm',
      cells: off.map((each) => sayOff(each === null ? null : each * 2.54)),
    });
  return [head, ...sizeTable(sizes, rows)];
}

/** What the search for fitting counts moved, and what else would fit. */
export function movedLines(
  sizes: readonly string[],
  settled: readonly SettledSize[],
): readonly string[] {
  return settled.flatMap(({ moved, others, gaveUp }, size) => {
    if (moved.length === 0) return [];
    const say = (moves: SettledSize['moved']) =>
      moves
        .map(
          ({ id, nearest, count, deviationInches: off }) =>
            `${id} ${count} instead of ${nearest} (${sayOff(off)} in)`,
        )
        .join(', ') || 'nothing moved';
    return [
      `Size ${sizes[size]}, so that every sum comes out: ${say(moved)}`,
      ...others.map((each) => `  or: ${say(each)}`),
      ...(gaveUp ? ['  the search was given up early; there may be better ones'] : []),
    ];
  });
}

/** Every measurement: stated, what the counts give, and the difference. */
export function measurementLines(context: CheckContext): readonly string[] {
  const { data } = context;
  const measured = data.measurements.flatMap(({ letter, id, size, from }) => {
    const unit = size.in === undefined ? 'cm' : 'in';
    const exact = data.sizes.map((_, at) => {
      const inches = trueInches(context, from, at);
      return typeof inches === 'number' ? inches * (unit === 'cm' ? 2.54 : 1) : null;
    });
    const stated = data.sizes.map((_, at) => sizedValue(size[unit], at) ?? null);
    const off = exact.map((value, at) => {
      const own = stated[at];
      return value === null || own === null || own === undefined ? null : value - own;
    });
    const rows: TableRow[] = [
      { name: `stated, ${unit}`, cells: stated.map((value) => sayNumber(value)) },
      { name: `counts give, ${unit}`, cells: exact.map((value) => sayNumber(value)) },
      { name: `difference, ${unit}`, cells: off.map(sayOff) },
    ];
    return [`${letter}  ${id}`, ...sizeTable(data.sizes, rows), ''];
  });
  return [...measured, ...undrawnLines(context)];
}

/** Pieces whose rows do not tell their outline, such as a neck worked on both sides at once. */
function undrawnLines({ data, pattern, pieces }: CheckContext): readonly string[] {
  const checked = { pattern, pieces, findings: [] };
  return data.schematic.flatMap((entry) => {
    const undrawn = data.sizes.filter((_, size) => !outlineFromRows(checked, entry, size));
    if (undrawn.length === 0) return [];
    return [
      `${entry.piece} in ${undrawn.join(', ')}: its rows do not tell the outline (both sides of a gap worked at once, or a size that does not work); the schematic is drawn from the measurements, and is not compared with the rows`,
    ];
  });
}
