/**
 * `castoff grade --rule`: another rule for one number, shown in every size with what follows it, then
 * written. Takes the files of a bundle and what was typed; never writes where the rule cannot be reckoned.
 */
import path from 'node:path';
import { CENTIMETRES_PER_INCH } from '../../base/brand.ts';
import { printFindings } from '../../findings/text.ts';
import type { BundleFiles } from '../../pattern/bundle/unpack.ts';
import { problemFinding } from '../../pattern/checks/derivations.ts';
import type { BundleData } from '../../pattern/bundle/schema.ts';
import { type Chosen, type ChosenNumber, chooseRule } from '../../pattern/grading/rules/choose.ts';
import { measuredChanges } from '../../pattern/grading/rules/measured.ts';
import { nameOf } from '../../pattern/grading/rules/resolve.ts';
import type { ExitCode, Terminal } from '../command.ts';
import { sayNumber, sayOff, sizeTable, type TableRow } from './tables.ts';
import { patternWith, writePattern } from './write-back.ts';

export interface RuleOrder {
  readonly bundle: string;
  readonly files: BundleFiles;
  readonly data: BundleData;
  readonly dryRun: boolean;
}

/**
 * `cuff-sts: cuff at rib, nearest multiple of 8`; nothing after the colon takes the rule away. Undefined
 * where no number is named before a colon.
 */
export function readChoice(typed: string): { id: string; rule: string } | undefined {
  const [, id, rule = ''] = /^\s*([a-z0-9-]+)\s*:(.*)$/s.exec(typed) ?? [];
  return id === undefined ? undefined : { id, rule: rule.trim() };
}

export async function chooseOnTerminal(
  { bundle, files, data, dryRun }: RuleOrder,
  choice: { readonly id: string; readonly rule: string },
  terminal: Terminal,
): Promise<ExitCode> {
  const chosen = chooseRule(data, choice);
  if ('problem' in chosen) {
    const at = data.numbers?.findIndex(({ id }) => id === choice.id) ?? 0;
    const number = data.numbers?.[at] ?? { id: choice.id, unit: 'sts' as const };
    const told = { data: { ...number, rule: choice.rule }, pointer: `/numbers/${at}` };
    terminal.out(printFindings([problemFinding(told, chosen.problem)]));
    terminal.out('Nothing was written.');
    return 1;
  }
  terminal.out(chosenLines(data, chosen).join('\n').trimEnd());
  if (chosen.edits.length === 0) terminal.out('The bundle says all this already.');
  else if (dryRun) terminal.out('Nothing was written: --dry-run.');
  else {
    const target = await writePattern(bundle, patternWith(files, chosen.edits));
    terminal.out(`Written to ${path.relative(terminal.folder, target) || target}.`);
  }
  return chosen.unmet.some((each) => each.length > 0) ? 1 : 0;
}

const HOW: Readonly<Record<ChosenNumber['how'], string>> = {
  chosen: '',
  follows: ' · follows by its rule',
  stays: ' · typed over its rule: stays',
};

function chosenLines(data: BundleData, { numbers, moved }: Chosen): readonly string[] {
  return numbers.flatMap((number) => {
    const { data: own, how, sizes } = number;
    const rows: TableRow[] = [
      { name: `${own.unit}, before`, cells: sizes.map(({ before }) => sayNumber(before)) },
      { name: `${own.unit}, then`, cells: sizes.map(({ after }) => sayNumber(after)) },
    ];
    if (sizes.some(({ offInches }) => Math.abs(offInches ?? 0) >= 0.005))
      rows.push(
        { name: 'off by, in', cells: sizes.map(({ offInches }) => sayOff(offInches)) },
        { name: 'off by, cm', cells: sizes.map(({ offInches: off }) => sayOff(off === null ? null : off * CENTIMETRES_PER_INCH)) }, // prettier-ignore
      );
    if (how === 'chosen') rows.push(...measuredRows(data, number));
    const shifted = data.sizes.filter((_, size) => moved[size]?.some(({ id }) => id === own.id));
    const note = shifted.length === 0 ? [] : [`    not the nearest in ${shifted.join(', ')}, so that another number comes out`]; // prettier-ignore
    return [`  ${nameOf(own)}${HOW[how]}`, ...sizeTable(data.sizes, rows), ...note, ''];
  });
}

function measuredRows(data: BundleData, number: ChosenNumber): readonly TableRow[] {
  return measuredChanges(data, number).flatMap(({ measurement, sizes }) => {
    const { letter, id } = measurement;
    const eases = sizes.map(({ afterInches: made, bodyInches: body }) => (made === null || body === null ? null : made - body)); // prettier-ignore
    const rows = [{ name: `${letter} ${id}, in`, cells: sizes.map(({ afterInches }) => sayNumber(afterInches)) }]; // prettier-ignore
    return eases.every((each) => each === null)
      ? rows
      : [...rows, { name: 'its ease, in', cells: eases.map(sayOff) }];
  });
}
