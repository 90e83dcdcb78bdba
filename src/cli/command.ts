/**
 * What a command is: its words, its options and what it does. Commands take parsed words and a small
 * terminal, give an exit code, and never write to the screen by themselves. 0 is good, 1 says that
 * findings block, 2 says that the call was wrong or the input cannot be read.
 */
import { parseArgs } from 'node:util';
import { Fault } from '../base/fault.ts';

export type ExitCode = 0 | 1 | 2;

/** The edges a command may touch; tests pass their own. */
export interface Terminal {
  out(text: string): void;
  err(text: string): void;
  /** True where progress may be redrawn and colours help. */
  readonly interactive: boolean;
  readonly folder: string;
  readonly signal?: AbortSignal;
  readInput(): Promise<string>;
}

export interface Option {
  /** `text` takes a value, `flag` none. */
  readonly kind: 'text' | 'flag';
  /** The name of the value in the help: `--to FOLDER`. */
  readonly value?: string;
  readonly about: string;
}

export type Words = readonly string[];
export type Options = Readonly<Record<string, string | boolean | undefined>>;

export interface Command {
  readonly name: string;
  /** Positional words in the help: `BUNDLE`. */
  readonly words: string;
  readonly about: string;
  readonly options: Readonly<Record<string, Option>>;
  readonly examples: readonly string[];
  run(words: Words, options: Options, terminal: Terminal): Promise<ExitCode>;
}

/** Reads the words of one call. Throws `Fault` of kind `usage` on unknown options. */
export function readCall(command: Command, args: readonly string[]) {
  const known = { ...command.options, help: { kind: 'flag', about: '' } as const };
  const options = Object.fromEntries(
    Object.entries(known).map(([name, { kind }]) => [
      name,
      { type: kind === 'flag' ? ('boolean' as const) : ('string' as const) },
    ]),
  );
  try {
    const { values, positionals } = parseArgs({ args: [...args], options, allowPositionals: true });
    return { words: positionals, options: values as Options };
  } catch (cause) {
    const message = cause instanceof Error ? (cause.message.split('. ')[0] ?? '') : String(cause);
    throw usageFault(command, message);
  }
}

export function usageFault(command: Command, message: string): Fault {
  return new Fault('usage', message, { remedy: `castoff ${command.name} --help` });
}

/** The one word a command needs, such as the bundle. */
export function onlyWord(command: Command, words: Words, what: string): string {
  const [word, ...rest] = words;
  if (word === undefined) throw usageFault(command, `${command.name} needs ${what}`);
  if (rest.length > 0) throw usageFault(command, `${command.name} takes one ${what}`);
  return word;
}

/** The text of an option, or undefined where it is not given. */
export function textOption(options: Options, name: string): string | undefined {
  const value = options[name];
  return typeof value === 'string' ? value : undefined;
}

/** The words of a comma-separated option. */
export function listOption(options: Options, name: string): readonly string[] | undefined {
  return textOption(options, name)
    ?.split(',')
    .map((each) => each.trim())
    .filter((each) => each !== '');
}
