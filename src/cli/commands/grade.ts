/**
 * `castoff grade`: reckons every number that carries a rule in every size, fills those left open, and
 * prints them; writes them as a spreadsheet and takes changed ones back. Never writes in silence, and
 * never half.
 */
import { readFile, stat, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { Fault } from '../../base/fault.ts';
import { SHEET_LIMITS } from '../../base/limits.ts';
import { blocks, type Finding } from '../../findings/finding.ts';
import { printFindings } from '../../findings/text.ts';
import type { JsonChange } from '../../pattern/bundle/edit.ts';
import { loadBundle } from '../../pattern/bundle/load.ts';
import { valueFor } from '../../pattern/bundle/size-list.ts';
import { type BundleFiles, unpackBundle } from '../../pattern/bundle/unpack.ts';
import { contextOf, type CheckContext } from '../../pattern/checks/context.ts';
import { checkPattern } from '../../pattern/checks/index.ts';
import { printSizes } from '../../pattern/grading/rules/in-rows.ts';
import { type Resolved, resolveNumbers } from '../../pattern/grading/rules/resolve.ts';
import {
  settleAfresh,
  type SettledSize,
  settleNumbers,
} from '../../pattern/grading/rules/settle.ts';
import { gradeBook } from '../../pattern/grading/sheet/book.ts';
import {
  type Command,
  type ExitCode,
  listOption,
  onlyWord,
  type Options,
  type Terminal,
  textOption,
  usageFault,
} from '../command.ts';
import { bodyLines, gaugeLines, motifLines, yarnLines } from '../grade/fabric-report.ts';
import { measurementLines, movedLines, numberLines } from '../grade/numbers-report.ts';
import { readTable, type TableKind, writeTable } from '../../pattern/grading/sheet/table-file.ts';
import { bookProblems } from '../../pattern/grading/sheet/whole-book.ts';
import { takeFrom } from '../../pattern/grading/sheet/taking.ts';
import { chooseOnTerminal, readChoice } from '../grade/choose-rule.ts';
import { patternWith, writePattern } from '../grade/write-back.ts';
import { bundlePath } from '../resources.ts';

const SHOWS = ['numbers', 'measurements', 'gauge', 'motif', 'yarn', 'body'] as const;
type Show = (typeof SHOWS)[number];

export const gradeCommand: Command = {
  name: 'grade',
  words: 'BUNDLE',
  about: 'reckon every number that carries a rule, fill those left open, print them size by size',
  options: {
    show: {
      kind: 'text',
      value: 'LIST',
      about: `what is printed: ${SHOWS.join(', ')}; numbers is the default`,
    },
    renew: {
      kind: 'flag',
      about: 'reckon stated numbers again as well, where their rule gives others',
    },
    rule: {
      kind: 'text',
      value: 'NUMBER: RULE',
      about: 'give a number another rule; it and all that follows it are reckoned again',
    },
    sheet: {
      kind: 'text',
      value: 'FILE',
      about: 'write a spreadsheet with live formulas (.xlsx), or one plain table (.csv)',
    },
    from: {
      kind: 'text',
      value: 'FILE',
      about: 'take changed numbers back from a spreadsheet (.xlsx) or table (.csv)',
    },
    'dry-run': { kind: 'flag', about: 'show what would change; nothing is written' },
  },
  examples: [
    'castoff grade my-pullover',
    'castoff grade my-pullover --show gauge,yarn',
    'castoff grade my-pullover --rule "cuff-sts: cuff at rib + 2 sts, nearest multiple of 8 + 2"',
    'castoff grade my-pullover --sheet grading.xlsx',
    'castoff grade my-pullover --from grading.xlsx',
  ],
  async run(words, options, terminal) {
    const bundle = bundlePath(
      onlyWord(gradeCommand, words, 'a BUNDLE: a folder or a zip'),
      terminal,
    );
    const shows = showsOf(options);
    const files = await unpackBundle(bundle);
    const graded = gradeFiles(files, terminal);
    if (!graded) return 1;
    const from = textOption(options, 'from');
    if (from !== undefined) return takeBackFrom(bundle, files, graded, from, options, terminal);
    const typed = textOption(options, 'rule');
    if (typed !== undefined) {
      const choice = readChoice(typed);
      if (!choice) throw usageFault(gradeCommand, `--rule wants a number and its rule: “${typed}”`);
      const dryRun = options['dry-run'] === true;
      return chooseOnTerminal({ bundle, files, data: graded.context.data, dryRun }, choice, terminal); // prettier-ignore
    }
    const sheet = textOption(options, 'sheet');
    if (sheet === undefined || options['show'] !== undefined) print(graded, shows, terminal);
    if (sheet !== undefined) return writeSheet(graded, sheet, terminal);
    return fill(bundle, files, graded, options, terminal);
  },
};

function showsOf(options: Options): readonly Show[] {
  const wanted = listOption(options, 'show') ?? ['numbers'];
  const unknown = wanted.find((each) => !SHOWS.includes(each as Show) && each !== 'all');
  if (unknown !== undefined)
    throw usageFault(
      gradeCommand,
      `--show knows no “${unknown}”; it knows ${SHOWS.join(', ')}, all`,
    );
  return wanted.includes('all') ? SHOWS : SHOWS.filter((each) => wanted.includes(each));
}

interface Graded {
  readonly context: CheckContext;
  readonly resolved: Resolved;
  readonly settled: readonly SettledSize[];
  /** What does not follow among the numbers that carry rules. */
  readonly findings: readonly Finding[];
}

/** Undefined, after saying why, where the bundle cannot be read. */
function gradeFiles(files: BundleFiles, terminal: Terminal): Graded | undefined {
  const { bundle, findings } = loadBundle(files, { withoutPhotos: true });
  if (!bundle) {
    terminal.out(printFindings(findings));
    terminal.out('The bundle cannot be read, so that nothing can be graded.');
    return undefined;
  }
  const checked = checkPattern(bundle);
  const resolved = resolveNumbers(bundle.data);
  return {
    context: contextOf(checked.pattern, checked.pieces),
    resolved,
    settled: settleNumbers(bundle.data, resolved),
    findings: checked.findings.filter(({ code }) => code.startsWith('grade/')),
  };
}

function print(
  { context, resolved, settled, findings }: Graded,
  shows: readonly Show[],
  terminal: Terminal,
): void {
  const sections: Readonly<Record<Show, () => readonly string[]>> = {
    numbers: () => [
      ...numberLines(context, resolved, settled),
      ...movedLines(context.data.sizes, settled),
    ],
    measurements: () => measurementLines(context),
    gauge: () => gaugeLines(context),
    motif: () => motifLines(context),
    yarn: () => yarnLines(context),
    body: () => bodyLines(context),
  };
  for (const show of shows) {
    if (shows.length > 1) terminal.out(`── ${show} ──`);
    terminal.out(sections[show]().join('\n').trimEnd() + '\n');
  }
  if (findings.length > 0) terminal.out(printFindings(findings));
}

// ---------------------------------------------------------------- filling

async function fill(
  bundle: string,
  files: BundleFiles,
  graded: Graded,
  options: Options,
  terminal: Terminal,
): Promise<ExitCode> {
  const changes = fillings(graded, options['renew'] === true);
  const broken =
    graded.resolved.numbers.some(({ problem }) => problem) ||
    graded.settled.some(({ unmet }) => unmet.length > 0);
  const exit = graded.findings.some(blocks) ? 1 : 0;
  if (changes.length === 0) return exit;
  const list = changes.map(({ says }) => `  ${says}`).join('\n');
  if (broken) {
    terminal.out(
      `Nothing was filled, because not every number can be reckoned. Left open:\n${list}`,
    );
    return 1;
  }
  if (options['dry-run'] === true) {
    terminal.out(`Would be filled:\n${list}`);
    return exit;
  }
  const target = await writePattern(
    bundle,
    patternWith(
      files,
      changes.map(({ change }) => change),
    ),
  );
  terminal.out(`Filled in ${path.relative(terminal.folder, target) || target}:\n${list}`);
  return exit;
}

interface Filling {
  readonly says: string;
  readonly change: JsonChange;
}

/** Numbers without a value; with `renew` also those whose value is not what their rule gives. */
function fillings({ context, resolved, settled }: Graded, renew: boolean): readonly Filling[] {
  const source = renew ? settleAfresh(context.data) : settled;
  return resolved.numbers.flatMap(({ data, stated, rule, pointer }) => {
    if (!rule || (stated && !renew)) return [];
    const values = source.map((each) => each.values.get(data.id) ?? null);
    const same = stated && values.every((value, size) => value === valueFor(stated, size));
    if (same || values.every((value) => value === null)) return [];
    const value = printSizes(values, data.unit);
    const change = { pointer: `${pointer}/value`, value, after: 'rule' };
    return [{ says: `${data.id}: ${value} ${data.unit}`, change }];
  });
}

// ---------------------------------------------------------------- spreadsheets

async function writeSheet(
  { context, findings }: Graded,
  name: string,
  terminal: Terminal,
): Promise<ExitCode> {
  const target = path.resolve(terminal.folder, name);
  const kind = kindOfFile(name);
  if (
    await stat(target).then(
      () => true,
      () => false,
    )
  )
    throw new Fault('usage', `${name} is there already`, {
      place: target,
      remedy: 'take its numbers back first with --from, or name another file',
    });
  const sheets = gradeBook(context.data);
  const bytes = await writeTable(kind, sheets);
  await writeFile(target, bytes, { flag: 'wx' });
  terminal.out(
    `Written: ${name}${kind === 'xlsx' ? `, with ${sheets.map((sheet) => sheet.name).join(', ')}` : ''}`,
  );
  return findings.some(blocks) ? 1 : 0;
}

function kindOfFile(name: string): TableKind {
  const end = path.extname(name).toLowerCase();
  if (end === '.xlsx') return 'xlsx';
  if (end === '.csv') return 'csv';
  throw usageFault(gradeCommand, `${name} is neither .xlsx nor .csv`);
}

async function takeBackFrom(
  bundle: string,
  files: BundleFiles,
  { context }: Graded,
  name: string,
  options: Options,
  terminal: Terminal,
): Promise<ExitCode> {
  const source = path.resolve(terminal.folder, name);
  const kind = kindOfFile(name);
  const bytes = await readSheetFile(source);
  const { rows, origin } = await readTable(kind, bytes, name);
  if (rows.length === 0)
    throw new Fault('input', 'the file holds none of the numbers of this bundle', {
      place: source,
      remedy: 'take the file that castoff grade --sheet wrote, with its hidden first column',
    });
  const taken = takeFrom(context.data, rows, bookProblems(context.data, rows, kind));
  const { id, version } = context.data;
  if (origin && (origin.id !== id || origin.version !== version))
    terminal.out(
      `The file was made from ${origin.id} ${origin.version}; this is ${id} ${version}.`,
    );
  terminal.out(taken.lines.join('\n'));
  if (taken.problems > 0) {
    terminal.out('Nothing was written.');
    return 1;
  }
  if (taken.edits.length === 0) return 0;
  const next = patternWith(files, taken.edits);
  if (options['dry-run'] === true) {
    terminal.out('Nothing was written: --dry-run.');
    return 0;
  }
  const target = await writePattern(bundle, next);
  terminal.out(`Written to ${path.relative(terminal.folder, target) || target}.`);
  const after = gradeFiles(next, terminal);
  if (!after || after.findings.length === 0) return 0;
  terminal.out(`\nWith these numbers:\n${printFindings(after.findings)}`);
  return after.findings.some(blocks) ? 1 : 0;
}

async function readSheetFile(source: string): Promise<Uint8Array> {
  const found = await stat(source).catch((cause: unknown) => {
    throw new Fault('missing', `there is no file ${source}`, { place: source, cause });
  });
  if (found.size > SHEET_LIMITS.fileBytes)
    throw new Fault('input', 'the file is too large', {
      place: source,
      remedy: `it may have ${SHEET_LIMITS.fileBytes / 1024 / 1024} MB`,
    });
  return new Uint8Array(await readFile(source));
}
