/** `castoff check`: every number in every size, every language; prints what does not follow. */
import { blocks, type Finding } from '../../findings/finding.ts';
import { printFindingsJson } from '../../findings/json.ts';
import { printFindings } from '../../findings/text.ts';
import { loadBundle } from '../../pattern/bundle/load.ts';
import { unpackBundle } from '../../pattern/bundle/unpack.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import type { Rooms } from '../../pipeline/ports.ts';
import { checkHeldOver } from '../../translation/index.ts';
import { type Command, onlyWord, type Terminal } from '../command.ts';
import { printPins } from '../pins.ts';
import { bundlePath, openOwnRooms } from '../resources.ts';

export const checkCommand: Command = {
  name: 'check',
  words: 'BUNDLE',
  about: 'work the pattern in every size and say what does not follow; nothing is written',
  options: {
    json: { kind: 'flag', about: 'print the findings as JSON' },
    pins: {
      kind: 'flag',
      about: 'list the numbers that no check would miss if they were different',
    },
  },
  examples: [
    'castoff check my-hat',
    'castoff check my-hat.zip --json',
    'castoff check my-hat --pins',
  ],
  async run(words, options, terminal) {
    const folder = onlyWord(checkCommand, words, 'a BUNDLE: a folder or a zip');
    const { findings, checked } = await checkBundle(bundlePath(folder, terminal));
    if (options['json'] === true) terminal.out(printFindingsJson(findings));
    else printResult(findings, checked, terminal);
    if (options['pins'] === true && checked) terminal.out(`\n${await sayPins(checked)}`);
    return findings.some(blocks) ? 1 : 0;
  },
};

export interface CheckedBundle {
  readonly findings: readonly Finding[];
  readonly checked: CheckedPattern | undefined;
}

/** All findings of a bundle: reading it, its numbers, its languages. */
export async function checkBundle(path: string, rooms?: Rooms): Promise<CheckedBundle> {
  const loaded = loadBundle(await unpackBundle(path));
  if (!loaded.bundle) return { findings: loaded.findings, checked: undefined };
  const open = rooms ?? (await openOwnRooms());
  const checked = await open.check(loaded.bundle);
  const said: Finding[] = [];
  const { data } = loaded.bundle;
  const held = new Set(data.heldOver?.map(({ language }) => language));
  for (const language of data.languages.filter((each) => !held.has(each)))
    said.push(...(await open.checkLanguage(checked, language)));
  const findings = [...loaded.findings, ...checked.findings, ...checkHeldOver(data), ...said];
  return { findings, checked };
}

/** Loaded late: only a designer who asks for it waits for the many small changes to be tried. */
async function sayPins(checked: CheckedPattern): Promise<string> {
  const { pinNumbers } = await import('../../pattern/checks/pins.ts');
  return printPins(pinNumbers(checked.pattern));
}

function printResult(
  findings: readonly Finding[],
  checked: CheckedPattern | undefined,
  terminal: Terminal,
): void {
  if (findings.length > 0) terminal.out(printFindings(findings));
  const blocking = findings.filter(blocks).length;
  if (blocking > 0) {
    terminal.out(
      `${blocking} ${blocking === 1 ? 'finding blocks' : 'findings block'} the release.`,
    );
    return;
  }
  const { pattern, pieces } = checked ?? { pattern: undefined, pieces: [] };
  const lines = pieces.reduce((sum, piece) => sum + piece.lines.length, 0);
  terminal.out(
    `${pattern?.bundle.data.id}: ${lines} lines worked in ${pattern?.sizes.length} sizes; every count follows.`,
  );
}
