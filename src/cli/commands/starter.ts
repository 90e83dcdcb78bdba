/** `castoff starter`: copies a finished bundle to begin from; never over something that is there. */
import { cp, mkdir, readdir, readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { Fault } from '../../base/fault.ts';
import { jsonSchema } from '../../pattern/bundle/json-schema.ts';
import { proseFile } from '../../pattern/bundle/load.ts';
import { type Command, listOption, usageFault } from '../command.ts';
import { startersFolder } from '../resources.ts';

const SCHEMA_FILE = 'castoff-1.schema.json';

export const starterCommand: Command = {
  name: 'starter',
  words: '[NAME FOLDER]',
  about: 'copy a finished bundle into a new folder to begin from; without words, list them',
  options: {
    languages: {
      kind: 'text',
      value: 'TAGS',
      about:
        'only these of its languages: en-US,de; every translation you keep must follow your text',
    },
  },
  examples: [
    'castoff starter',
    'castoff starter breakwater-hat my-hat',
    'castoff starter breakwater-hat my-hat --languages en-US,de',
  ],
  async run(words, options, terminal) {
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
    const wanted = listOption(options, 'languages');
    const languages = await copyStarter(name, target, wanted);
    terminal.out(
      `${folder} holds the starter ${name}, in ${languages.join(', ')}. Check it: castoff check ${folder}`,
    );
    return 0;
  },
};

export async function starterNames(): Promise<readonly string[]> {
  const entries = await readdir(startersFolder(), { withFileTypes: true });
  const bundles = entries.filter((entry) => entry.isDirectory() && entry.name !== 'render');
  return bundles.map((entry) => entry.name).sort();
}

/** Gives the languages of the copy. */
async function copyStarter(
  name: string,
  target: string,
  wanted: readonly string[] | undefined,
): Promise<readonly string[]> {
  const source = path.join(startersFolder(), name);
  const whole = await readFile(path.join(source, 'pattern.json'), 'utf8');
  const { language, languages } = JSON.parse(whole) as Languages;
  const kept = languagesKept({ language, languages }, wanted);
  try {
    await mkdir(target, { recursive: false });
  } catch (cause) {
    throw new Fault('usage', `${target} cannot be made, or is there already`, {
      remedy: 'name a folder that does not exist yet, inside one that does',
      cause,
    });
  }
  const left = languages.filter((tag) => !kept.includes(tag));
  const leftOut = new Set(left.map((tag) => path.join(source, proseFile(tag))));
  await cp(source, target, { recursive: true, filter: (file) => !leftOut.has(file) });
  const text = whole
    // The copy names the schema beside it, so that an editor finds it without a network.
    .replace(/"\$schema": "[^"]*"/, `"$schema": "./${SCHEMA_FILE}"`)
    .replace(/"languages": \[[^\]]*\]/, `"languages": ${listed(kept)}`);
  await writeFile(path.join(target, 'pattern.json'), text);
  await writeFile(path.join(target, SCHEMA_FILE), JSON.stringify(jsonSchema(), null, 2) + '\n');
  return kept;
}

const listed = (tags: readonly string[]): string =>
  `[${tags.map((tag) => JSON.stringify(tag)).join(', ')}]`;

interface Languages {
  /** What it was written in. */
  readonly language: string;
  readonly languages: readonly string[];
}

/** In the starter's order; what it was written in is always among them. */
function languagesKept(
  { language, languages }: Languages,
  wanted: readonly string[] | undefined,
): readonly string[] {
  if (wanted === undefined) return languages;
  const unknown = wanted.find((tag) => !languages.includes(tag));
  if (unknown !== undefined)
    throw new Fault('usage', `the starter has no ${unknown}`, {
      remedy: `some of: ${languages.join(', ')}`,
    });
  return languages.filter((tag) => tag === language || wanted.includes(tag));
}
