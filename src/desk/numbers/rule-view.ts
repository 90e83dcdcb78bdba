/**
 * What a chosen rule does, as rows for a page: each number as it stands and as it would be, the
 * measurements counted from it with their ease, and what is to be said beside. Takes what was reckoned;
 * gives plain data, every length in the unit in which it is stated.
 */
import { CENTIMETRES_PER_INCH } from '../../base/brand.ts';
import { sayNumber, sayOff } from '../../base/plain-number.ts';
import type { BundleData } from '../../pattern/bundle/schema.ts';
import type { Chosen, ChosenNumber, ChosenSize } from '../../pattern/grading/rules/choose.ts';
import { type MeasuredChange, measuredChanges } from '../../pattern/grading/rules/measured.ts';
import { nameOf } from '../../pattern/grading/rules/resolve.ts';
import type { Spoken } from '../names.ts';
import type { Say } from '../wording.ts';

export interface ResultCell {
  readonly size: string;
  readonly value: string;
  /** What stood there; empty where it is the same. */
  readonly before: string;
  readonly notes: readonly Note[];
}

/** A difference, with what it is of where that is not plain. */
interface Note {
  readonly word: string;
  readonly value: string;
  readonly unit: string;
}

export interface ResultRow {
  readonly name: string;
  readonly state: string;
  readonly rule: string;
  readonly unit: string;
  readonly cells: readonly ResultCell[];
}

interface Told {
  readonly data: BundleData;
  readonly spoken: Spoken;
  readonly say: Say;
}

/** Differences below this are rounding of the page. */
const LEAST = 0.005;

export function resultRows(chosen: Chosen, told: Told): readonly ResultRow[] {
  const [number] = chosen.numbers;
  const counted = chosen.numbers.map((each) => numberRow(each, told));
  const measured = number ? measuredChanges(told.data, number) : [];
  return [...counted.slice(0, 1), ...measured.flatMap((each) => measuredRows(each, told)), ...counted.slice(1)]; // prettier-ignore
}

function numberRow(number: ChosenNumber, { data, say }: Told): ResultRow {
  const { how, data: own } = number;
  // What is new stands in place of nothing.
  const isNew = number.sizes.every(({ before }) => before === null);
  return {
    name: nameOf(own),
    state: how === 'chosen' ? '' : say(`rule.${how}`),
    rule: how === 'chosen' ? '' : (own.rule ?? ''),
    unit: own.unit,
    cells: number.sizes.map((each, at) => ({
      size: data.sizes[at] ?? '',
      value: sayNumber(each.after),
      before:
        isNew || sayNumber(each.before) === sayNumber(each.after) ? '' : sayNumber(each.before),
      notes: offNotes(each),
    })),
  };
}

/** How far the count lies from what its rule wants, through the gauge. */
function offNotes({ offInches }: ChosenSize): readonly Note[] {
  if (offInches === null || Math.abs(offInches) < LEAST) return [];
  return [
    { word: '', value: sayOff(offInches), unit: 'in' },
    { word: '', value: sayOff(offInches * CENTIMETRES_PER_INCH), unit: 'cm' },
  ];
}

function measuredRows(
  { measurement, sizes }: MeasuredChange,
  { data, spoken, say }: Told,
): readonly ResultRow[] {
  const { letter, name, size: stated } = measurement;
  const units = (['cm', 'in'] as const).filter((unit) => stated[unit] !== undefined);
  return units.map((unit, at) => {
    const factor = unit === 'cm' ? CENTIMETRES_PER_INCH : 1;
    return {
      name: `${letter} · ${spoken.measurement(name)}`,
      state: at === 0 ? say('rule.measured') : '',
      rule: '',
      unit,
      cells: sizes.map(({ beforeInches, afterInches, bodyInches }, each) => {
        const of = (inches: number | null) => sayNumber(inches === null ? null : inches * factor);
        const change = afterInches === null || beforeInches === null ? 0 : afterInches - beforeInches; // prettier-ignore
        const changed = Math.abs(change) * factor >= LEAST;
        const ease = afterInches === null || bodyInches === null ? undefined : (afterInches - bodyInches) * factor; // prettier-ignore
        return {
          size: data.sizes[each] ?? '',
          value: of(afterInches),
          before: changed ? of(beforeInches) : '',
          notes: [
            ...(changed ? [{ word: '', value: sayOff(change * factor), unit: '' }] : []),
            ...(ease === undefined
              ? []
              : [{ word: say('rule.ease'), value: sayOff(ease), unit: '' }]),
          ],
        };
      }),
    };
  });
}

/** What a table does not say: counts that moved for another's sake, demands that nothing keeps. */
export function remarksOn({ moved, unmet }: Chosen, { data, say }: Told): readonly string[] {
  const name = (id: string) => {
    const number = data.numbers?.find((each) => each.id === id);
    return number ? nameOf(number) : id;
  };
  const inSizes = (of: readonly (readonly string[])[], id: string) =>
    data.sizes.filter((_, size) => of[size]?.includes(id)).join(', ');
  const movedIds = moved.map((each) => each.map(({ id }) => id));
  return [
    ...[...new Set(movedIds.flat())].map((id) => say('rule.moved', { number: name(id), sizes: inSizes(movedIds, id) })), // prettier-ignore
    ...[...new Set(unmet.flat())].map((id) => say('rule.unmet', { number: name(id), sizes: inSizes(unmet, id) })), // prettier-ignore
  ];
}

/** Every change of the file in words, for the list that is confirmed. */
export function changeLines(chosen: Chosen, rule: string, { data, say }: Told): readonly string[] {
  const written = new Set(chosen.edits.map(({ pointer }) => pointer));
  return chosen.numbers.flatMap(({ data: own, how, sizes }) => {
    const at = data.numbers?.findIndex(({ id }) => id === own.id) ?? -1;
    const number = nameOf(own);
    const ruled = written.has(`/numbers/${at}/rule`)
      ? [rule === '' ? say('rule.lineNone', { number }) : say('rule.line', { number, rule })]
      : [];
    if (!written.has(`/numbers/${at}/value`)) return ruled;
    const values = sizes.flatMap(
      ({ before, after }, size) =>
      before === after
        ? []
        : [say(how === 'follows' ? 'rule.lineFollows' : 'rule.lineValue', { number, size: data.sizes[size] ?? '', before: before ?? '–', after: after ?? '–', unit: say(`unit.${own.unit}`) })], // prettier-ignore
    );
    return [...ruled, ...values];
  });
}
