/**
 * What changed since the last packet, number by number. Takes two records; lines of a section are
 * aligned as an errata sheet aligns them, everything else is found by its key; sizes are compared by
 * name. Gives changes in the order of the new packet, then what is gone.
 */
import { Fault } from '../../base/fault.ts';
import { alignLines } from '../../release/errata/align.ts';
import type { PacketRecord, RecordedEntry, RecordedFinding } from './record.ts';

export type PacketChange =
  | {
      readonly kind: 'number';
      readonly part: string;
      readonly place: string;
      readonly what: string;
      readonly was: readonly (number | null)[];
      readonly is: readonly (number | null)[];
      /** Names of sizes whose value is another one; all where the number has one value. */
      readonly sizes: readonly string[];
    }
  | {
      readonly kind: 'added' | 'removed';
      readonly part: string;
      readonly place: string;
      readonly text: string;
    }
  | {
      readonly kind: 'reworded';
      readonly part: string;
      readonly place: string;
      readonly was: string;
      readonly is: string;
    }
  | {
      readonly kind: 'holding';
      readonly part: string;
      readonly place: string;
      readonly what: string;
      readonly was: string;
      readonly is: string;
    }
  | {
      readonly kind: 'new finding' | 'finding gone' | 'finding accepted';
      readonly part: string;
      readonly place: string;
      readonly text: string;
    }
  | {
      readonly kind: 'size added' | 'size removed';
      readonly part: string;
      readonly place: string;
      readonly text: string;
    };

/** Throws `Fault` where the record is of another pattern. */
export function comparePackets(old: PacketRecord, now: PacketRecord): readonly PacketChange[] {
  if (old.pattern !== now.pattern)
    throw new Fault('input', `the last packet is of ${old.pattern}, this one of ${now.pattern}`, {
      remedy: 'name the record of an earlier packet of the same pattern',
    });
  return [
    ...sizeChanges(old, now),
    ...pairsOf(old.entries, now.entries).flatMap(({ was, is }) => entryChanges(was, is, old, now)),
    ...findingChanges(old.findings, now.findings),
  ];
}

function sizeChanges(old: PacketRecord, now: PacketRecord): readonly PacketChange[] {
  const told = (kind: 'size added' | 'size removed', sizes: readonly string[]) =>
    sizes.map((text): PacketChange => ({ kind, part: 'Sizes', place: '', text }));
  return [
    ...told('size added', now.sizes.filter((size) => !old.sizes.includes(size))),
    ...told('size removed', old.sizes.filter((size) => !now.sizes.includes(size))),
  ]; // prettier-ignore
}

// ---------------------------------------------------------------- entries

interface EntryPair {
  readonly was?: RecordedEntry;
  readonly is?: RecordedEntry;
}

/** A key is one place, or the section whose lines share it. */
function pairsOf(old: readonly RecordedEntry[], now: readonly RecordedEntry[]): EntryPair[] {
  const keys = [...new Set([...now, ...old].map(({ key }) => key))];
  return keys.flatMap((key) => {
    const under = (entries: readonly RecordedEntry[]) => entries.filter((each) => each.key === key);
    return alignLines(under(old), under(now), (each) => each.text, shapeOf);
  });
}

/** A line with its numbers taken out: the same line with another number has the same shape. */
const shapeOf = ({ text }: RecordedEntry): string => text.replaceAll(/[\d¼½¾⅓⅔⅛⅜⅝⅞.,–]+/g, '#');

function entryChanges(
  was: RecordedEntry | undefined,
  is: RecordedEntry | undefined,
  old: PacketRecord,
  now: PacketRecord,
): readonly PacketChange[] {
  if (!was || !is) {
    const one = is ?? was;
    return one ? [{ kind: is ? 'added' : 'removed', part: one.part, place: one.place, text: sayEntry(one) }] : []; // prettier-ignore
  }
  const { part, place } = is;
  if (was.numbers.length !== is.numbers.length)
    return [{ kind: 'reworded', part, place, was: was.text, is: is.text }];
  const changes = is.numbers.flatMap((number, at): readonly PacketChange[] => {
    const before = was.numbers[at];
    if (!before) return [];
    const { what } = number;
    const sizes = differing(before.values, number.values, old.sizes, now.sizes);
    const moved: PacketChange[] =
      sizes === undefined
        ? []
        : [{ kind: 'number', part, place, what, was: before.values, is: number.values, sizes }];
    return before.holding === number.holding
      ? moved
      : [...moved, { kind: 'holding', part, place, what, was: before.holding, is: number.holding }];
  });
  if (changes.length > 0 || shapeOf(was) === shapeOf(is)) return changes;
  return [{ kind: 'reworded', part, place, was: was.text, is: is.text }];
}

const sayEntry = ({ text, numbers }: RecordedEntry): string =>
  text === '' ? (numbers[0]?.values ?? []).map((value) => value ?? '–').join(', ') : text;

/** Names of the sizes that differ; undefined where none does. */
function differing(
  was: readonly (number | null)[],
  is: readonly (number | null)[],
  oldSizes: readonly string[],
  sizes: readonly string[],
): readonly string[] | undefined {
  const one = (values: readonly (number | null)[], at: number) =>
    values.length === 1 ? values[0] : values[at];
  const found = sizes.filter((size, at) => {
    const before = oldSizes.indexOf(size);
    return before >= 0 && one(was, before) !== one(is, at);
  });
  if (found.length === 0) return undefined;
  return was.length === 1 && is.length === 1 ? [] : found;
}

// ---------------------------------------------------------------- findings

function findingChanges(
  old: readonly RecordedFinding[],
  now: readonly RecordedFinding[],
): readonly PacketChange[] {
  const twin = (among: readonly RecordedFinding[], { code, where }: RecordedFinding) =>
    among.find((each) => each.code === code && each.where === where);
  const told = (kind: 'new finding' | 'finding gone' | 'finding accepted', each: RecordedFinding) =>
    ({ kind, part: 'Findings', place: each.where, text: `${each.code}: ${each.says}` }) as const;
  return [
    ...now.filter((each) => !twin(old, each)).map((each) => told('new finding', each)),
    ...now
      .filter((each) => each.accepted !== undefined && twin(old, each)?.accepted === undefined)
      .filter((each) => twin(old, each) !== undefined)
      .map((each) => told('finding accepted', each)),
    ...old.filter((each) => !twin(now, each)).map((each) => told('finding gone', each)),
  ];
}
