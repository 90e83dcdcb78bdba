/**
 * `castoff count`: rows as pasted from a notebook, counted line by line in every size. Needs no bundle;
 * prints a table of the stitches before and after each line, then what does not follow.
 */
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { Fault } from '../../base/fault.ts';
import { TEXT_LIMITS } from '../../base/limits.ts';
import { padEnd, padStart } from '../../findings/columns.ts';
import { blocks } from '../../findings/finding.ts';
import { printFindingsJson } from '../../findings/json.ts';
import { printFindings } from '../../findings/text.ts';
import { type CountedText, countText } from '../../pattern/checks/count-text.ts';
import { type Command, listOption, onlyWord, type Terminal } from '../command.ts';

const STANDARD_INPUT = '-';
const TEXT_COLUMNS = 48;

export const countCommand: Command = {
  name: 'count',
  words: 'FILE|-',
  about: 'count written rows as they stand in a notebook; - reads what is typed or piped in',
  options: {
    sizes: { kind: 'text', value: 'NAMES', about: 'names of the sizes, in order: S,M,L' },
    json: { kind: 'flag', about: 'print lines and findings as JSON' },
  },
  examples: [
    'castoff count notes.txt',
    'castoff count notes.txt --sizes S,M,L',
    'castoff count - --json',
  ],
  async run(words, options, terminal) {
    const file = onlyWord(countCommand, words, 'a FILE, or - for standard input');
    const name = file === STANDARD_INPUT ? 'text' : file;
    const sizes = listOption(options, 'sizes');
    const counted = countText(await readText(file, terminal), { name, ...(sizes && { sizes }) });
    terminal.out(options['json'] === true ? asJson(counted) : asTable(counted));
    if (options['json'] !== true && counted.findings.length > 0)
      terminal.out(`\n${printFindings(counted.findings)}`);
    return counted.findings.some(blocks) ? 1 : 0;
  },
};

async function readText(file: string, terminal: Terminal): Promise<string> {
  const text =
    file === STANDARD_INPUT ? await terminal.readInput() : await readNamed(file, terminal);
  if (text.length > TEXT_LIMITS.characters)
    throw new Fault('input', `the text has ${text.length} characters`, {
      place: file,
      remedy: `at most ${TEXT_LIMITS.characters} are counted at once; split it`,
    });
  if (text.trim() === '')
    throw new Fault('input', 'there is nothing to count', {
      place: file,
      remedy: 'give rows, one a line',
    });
  return text;
}

async function readNamed(file: string, terminal: Terminal): Promise<string> {
  try {
    return await readFile(path.resolve(terminal.folder, file), 'utf8');
  } catch (cause) {
    throw new Fault('input', `${file} cannot be read`, {
      place: file,
      remedy: 'name a text file, or - for standard input',
      cause,
    });
  }
}

function asJson({ sizes, lines, findings }: CountedText): string {
  const parsed: unknown = JSON.parse(printFindingsJson(findings));
  return JSON.stringify({ sizes, lines, ...(parsed as object) }, null, 2);
}

/** One row a line of text: the text, and for each size `before → after`. */
function asTable({ sizes, lines }: CountedText): string {
  const cells = lines.map((line) =>
    sizes.map((_, size) => `${line.before[size] ?? '–'} → ${line.after[size] ?? '–'}`),
  );
  const widths = sizes.map((name, size) =>
    Math.max(name.length, ...cells.map((row) => row[size]?.length ?? 0)),
  );
  const text = Math.min(TEXT_COLUMNS, Math.max(...lines.map((line) => line.text.length), 4));
  const head = sizes.length > 1 ? sizes : sizes.map(() => 'sts');
  const row = (first: string, rest: readonly string[]) =>
    [padEnd(first, text), ...rest.map((cell, size) => padStart(cell, widths[size] ?? 0))].join(
      '  ',
    );
  const shortened = (line: string) => (line.length > text ? `${line.slice(0, text - 1)}…` : line);
  return [
    row('', head),
    ...lines.map((line, index) => row(shortened(line.text), cells[index] ?? [])),
  ].join('\n');
}
