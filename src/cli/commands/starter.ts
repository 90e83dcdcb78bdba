/** `castoff starter`: copies a finished bundle to begin from; never over something that is there. */
import { cp, mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { Fault } from '../../base/fault.ts';
import { jsonSchema } from '../../pattern/bundle/json-schema.ts';
import { type Command, usageFault } from '../command.ts';
import { startersFolder } from '../resources.ts';

const SCHEMA_FILE = 'castoff-1.schema.json';

export const starterCommand: Command = {
  name: 'starter',
  words: '[NAME FOLDER]',
  about: 'copy a finished bundle into a new folder to begin from; without words, list them',
  options: {},
  examples: ['castoff starter', 'castoff starter breakwater-hat my-hat'],
  async run(words, _options, terminal) {
    const names = await starterNames();
    const [name, folder, ...rest] = words;
    if (name === undefined) {
      terminal.out(['Starters:', ...names.map((each) => `  ${each}`)].join('\n'));
      return 0;
    }
    if (folder === undefined || rest.length > 0)
      throw usageFault(starterCommand, 'starter needs a NAME and a FOLDER');
    if (!names.includes(name))
      throw new Fault('usage', `there is no starter “${name}”`, {
        remedy: `one of: ${names.join(', ')}`,
      });
    const target = path.resolve(terminal.folder, folder);
    await copyStarter(name, target);
    terminal.out(`${folder} holds the starter ${name}. Check it: castoff check ${folder}`);
    return 0;
  },
};

export async function starterNames(): Promise<readonly string[]> {
  const entries = await readdir(startersFolder(), { withFileTypes: true });
  const bundles = entries.filter((entry) => entry.isDirectory() && entry.name !== 'render');
  return bundles.map((entry) => entry.name).sort();
}

async function copyStarter(name: string, target: string): Promise<void> {
  try {
    await mkdir(target, { recursive: false });
  } catch (cause) {
    throw new Fault('usage', `${target} cannot be made, or is there already`, {
      remedy: 'name a folder that does not exist yet, inside one that does',
      cause,
    });
  }
  await cp(path.join(startersFolder(), name), target, { recursive: true });
  const file = path.join(target, 'pattern.json');
  const text = await readFile(file, 'utf8');
  // The copy names the schema beside it, so that an editor finds it without a network.
  await writeFile(file, text.replace(/"\$schema": "[^"]*"/, `"$schema": "./${SCHEMA_FILE}"`));
  await writeFile(path.join(target, SCHEMA_FILE), JSON.stringify(jsonSchema(), null, 2) + '\n');
}
