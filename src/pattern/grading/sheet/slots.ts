/**
 * Sized values of a bundle that a spreadsheet may change, by key, and how a changed one is written back:
 * a list stays a list, a text keeps its brackets. Takes the bundle's data, gives edits of its file.
 */
import { pointerTo } from '../../../base/span.ts';
import type { JsonChange } from '../../bundle/edit.ts';
import type { BundleData, NumberData, SizedData } from '../../bundle/schema.ts';
import { readSizeList } from '../../bundle/size-list.ts';
import { printSizes } from '../rules/in-rows.ts';

/** All values of changed slots, by key. */
export type Values = ReadonlyMap<string, readonly (number | null)[]>;

/** One sized value of the bundle that a sheet may change. */
export interface Slot {
  readonly key: string;
  readonly pointer: string;
  readonly unit: NumberData['unit'];
  readonly data: SizedData | undefined;
  /** A single number, the same for all sizes: a gauge. */
  readonly single: boolean;
}

export function slotsOf(data: BundleData): ReadonlyMap<string, Slot> {
  const slots = new Map<string, Slot>();
  const put = (slot: Slot) => slots.set(slot.key, slot);
  const length = (key: string, pointer: string, size: BundleData['body'][number]['size']) => {
    for (const unit of ['in', 'cm'] as const)
      if (size[unit] !== undefined)
        put({ key: `${key}/${unit}`, pointer: pointerTo(pointer, unit), unit, data: size[unit], single: false }); // prettier-ignore
  };
  data.body.forEach(({ part, size }, at) => length(`body/${part}`, pointerTo('', 'body', at, 'size'), size)); // prettier-ignore
  data.measurements.forEach(({ id, size }, at) =>
    length(`measurements/${id}`, pointerTo('', 'measurements', at, 'size'), size),
  );
  data.gauges.forEach((gauge, at) => {
    for (const kind of ['stitches', 'rows'] as const)
      put({ key: `gauges/${gauge.id}/${kind}`, pointer: pointerTo('', 'gauges', at, kind), unit: kind === 'rows' ? 'rows' : 'sts', data: gauge[kind], single: true }); // prettier-ignore
  });
  data.numbers?.forEach(
    ({ id, unit, value }, at) =>
    put({ key: `numbers/${id}`, pointer: pointerTo('', 'numbers', at, 'value'), unit, data: value, single: false }), // prettier-ignore
  );
  return slots;
}

export function editOf(
  data: BundleData,
  slot: Slot,
  values: readonly (number | null)[],
): JsonChange {
  return {
    pointer: slot.pointer,
    value: rewritten(slot, values, data.sizes.length),
    after: 'rule',
  };
}

/** The same way of writing as before: a list stays a list, a text keeps its brackets. */
function rewritten(
  { data, unit, single }: Slot,
  values: readonly (number | null)[],
  sizes: number,
): string | number | (number | null)[] {
  const [first = null] = values;
  if (single) return first ?? 0;
  if (Array.isArray(data)) return [...values];
  const same = values.every((value) => value === first);
  if (typeof data === 'number' && same && first !== null) return first;
  if (typeof data !== 'string') return same && first !== null ? first : printSizes(values, unit);
  const read = readSizeList(data);
  const spans = 'sized' in read ? read.sized.spans : [];
  if (spans.length !== sizes) return printSizes(values, unit);
  return spans
    .map((span, size) => ({ span, text: printSizes([values[size] ?? null], unit) }))
    .toReversed()
    .reduce((text, { span, text: value }) => text.slice(0, span.start) + value + text.slice(span.end), data); // prettier-ignore
}

export function withValues(
  data: BundleData,
  slots: ReadonlyMap<string, Slot>,
  values: Values,
): BundleData {
  const copy = structuredClone(data) as BundleData;
  for (const [key, next] of values) {
    const slot = slots.get(key);
    if (slot) setAt(copy, slot.pointer, rewritten(slot, next, data.sizes.length));
  }
  return copy;
}

function setAt(root: unknown, pointer: string, value: unknown): void {
  const steps = pointer.split('/').slice(1);
  const last = steps.pop();
  let here = root as Record<string, unknown>;
  for (const step of steps) here = here[step] as Record<string, unknown>;
  if (last !== undefined) here[last] = value;
}
