/**
 * A line in canonical US notation. Reading what is printed gives the same tree, spans aside; so a line
 * printed, read and printed again does not change. Numbers keep their order; nobody retypes one.
 */
import type { Line, RowLabel, RowRole, Stated } from '../ast.ts';
import { assertNever } from '../../../base/assert.ts';
import {
  isJust,
  printCount,
  printRanges,
  printRole,
  printSide,
  printStitches,
  printUnit,
} from './numbers.ts';
import { printSentence } from './sentences.ts';

export { printAction, printActions, printGoal } from './actions.ts';
export { printSentence } from './sentences.ts';

export function printLine(line: Line): string {
  const sentences = line.sentences.map((sentence) => `${printSentence(sentence)}.`);
  return [
    line.onlySizes && `${printOnlySizes(line.onlySizes.sizes)}:`,
    line.label && `${printLabel(line.label)}:`,
    ...sentences,
    line.stated && `${printStated(line.stated)}.`,
  ].filter((part) => part !== undefined).join(' '); // prettier-ignore
}

function printOnlySizes(sizes: readonly string[]): string {
  if (sizes.length === 1) return `Size ${sizes[0]} only`;
  return `Sizes ${sizes.slice(0, -1).join(', ')} and ${sizes.at(-1)} only`;
}

/** `Row 1 (RS)`, `Rnd 2 and all even rnds`, `Next 3 rows`, `Dec row`, without the colon. */
export function printLabel(label: RowLabel): string {
  switch (label.kind) {
    case 'numbered':
      return `${printRanges(label.ranges, label.unit)}${printLateRole(label.role)}${printSide(label.side)}${printAndAll(label)}`;
    case 'next':
      return printNext(label);
    case 'named':
      return label.name;
    default:
      return assertNever(label);
  }
}

const printLateRole = (role: RowRole | undefined): string =>
  role === undefined ? '' : ` (${printRole(role).toLowerCase()})`;

function printAndAll({ andAll, unit }: Extract<RowLabel, { kind: 'numbered' }>): string {
  if (andAll === undefined) return '';
  const which = andAll === 'following' ? 'foll' : andAll;
  return ` and all ${which} ${printUnit(unit, true)}`;
}

function printNext(label: Extract<RowLabel, { kind: 'next' }>): string {
  const one = isJust(label.count, 1);
  const role = label.role === undefined ? '' : printRole(label.role);
  const number = label.number ? ` ${printCount(label.number)}` : '';
  const unit = printUnit(label.unit, !one);
  const side = printSide(label.side);
  if (one && role !== '') return `${role} ${unit}${number}${side}`;
  const count = one ? '' : ` ${printCount(label.count)}`;
  return `Next${count}${role === '' ? '' : ` ${role.toLowerCase()}`} ${unit}${number}${side}`;
}

/** `84 (92, 100) sts`, `8 sts increased; 96 sts`, `14 sts each shoulder`, without the full stop. */
export function printStated({ count, change, total, part }: Stated): string {
  const changed = change === undefined ? '' : ` ${change}`;
  const of = part === undefined ? '' : ` ${part}`;
  const both = total ? `; ${printStitches(total)}` : '';
  return `${printStitches(count)}${changed}${of}${both}`;
}
