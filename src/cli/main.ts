/**
 * Chooses a command, runs it, and turns faults into a plain sentence and an exit code. The only place
 * that catches: a fault of the surroundings is told with its place and remedy, a broken invariant is
 * passed on, because a crash is better than a wrong pattern.
 */
import { Fault } from '../base/fault.ts';
import { type Command, type ExitCode, readCall, type Terminal } from './command.ts';
import { commandHelp, overallHelp } from './help.ts';

export async function runCastoff(
  args: readonly string[],
  commands: readonly Command[],
  terminal: Terminal,
): Promise<ExitCode> {
  const [name, ...rest] = args;
  if (name === undefined || name === 'help' || name === '--help' || name === '-h') {
    terminal.out(overallHelp(commands));
    return name === undefined ? 2 : 0;
  }
  const command = commands.find((each) => each.name === name);
  if (!command) {
    terminal.err(`castoff: there is no command “${name}”\n\n${overallHelp(commands)}`);
    return 2;
  }
  try {
    const { words, options } = readCall(command, rest);
    if (options['help'] === true) {
      terminal.out(commandHelp(command));
      return 0;
    }
    return await command.run(words, options, terminal);
  } catch (error) {
    if (!(error instanceof Fault)) throw error;
    terminal.err(sayFault(error));
    return 2;
  }
}

export function sayFault(fault: Fault): string {
  const place = fault.place === undefined ? '' : `\n  --> ${fault.place}`;
  const remedy = fault.remedy === undefined ? '' : `\n  = ${fault.remedy}`;
  return `castoff: ${fault.message}${place}${remedy}`;
}
