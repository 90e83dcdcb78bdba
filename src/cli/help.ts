/** Help texts, made from the commands themselves so that they cannot drift apart. */
import type { Command, Option } from './command.ts';

const LEAD = `castoff: checks a knitting pattern in every size, says it in many languages, sets the
PDFs and stages a complete release.`;

export function overallHelp(commands: readonly Command[]): string {
  const width = Math.max(...commands.map(({ name }) => name.length));
  const lines = commands.map(({ name, about }) => `  ${name.padEnd(width)}  ${about}`);
  return [
    LEAD,
    '',
    'Commands:',
    ...lines,
    '',
    'castoff COMMAND --help says more, with examples.',
    'Exit codes: 0 good · 1 findings that block · 2 wrong use or input that cannot be read',
  ].join('\n');
}

export function commandHelp(command: Command): string {
  const options = Object.entries(command.options);
  return [
    `castoff ${command.name} ${command.words}`.trimEnd(),
    `  ${command.about}`,
    ...(options.length > 0 ? ['', 'Options:', ...optionLines(options)] : []),
    '',
    'Examples:',
    ...command.examples.map((example) => `  ${example}`),
  ].join('\n');
}

function optionLines(options: readonly [string, Option][]): string[] {
  const heads = options.map(([name, { value }]) => (value ? `--${name} ${value}` : `--${name}`));
  const width = Math.max(...heads.map((head) => head.length));
  return options.map(([, { about }], index) => `  ${heads[index]?.padEnd(width)}  ${about}`);
}
