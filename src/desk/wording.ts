/**
 * The desk's own words and pages. Takes the folder of templates; gives a renderer for each language
 * that has a file of words. Strict: a word or a field that is missing is an error, never an empty place.
 * A further language is one file in `templates/desk/words/`.
 */
import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import Handlebars from 'handlebars';
import { z } from 'zod';
import { present } from '../base/assert.ts';

/** A text, or one text for each plural category of the language (CLDR), chosen by `count`. */
const wordsFile = z.record(z.string(), z.union([z.string(), z.record(z.string(), z.string())]));
type Words = z.output<typeof wordsFile>;

export type Values = Readonly<Record<string, unknown>>;
export type Say = (key: string, values?: Values) => string;

export interface Wording {
  readonly language: string;
  readonly say: Say;
  readonly render: (page: string, view: Values) => string;
}

/** Chooses by what a browser asks for. */
export type Wordings = (asked: readonly string[]) => Wording;

const FALLBACK = 'en';

export async function openWordings(folder: string): Promise<Wordings> {
  const templates = await readAll(folder, '.hbs');
  const texts = await readAll(path.join(folder, 'words'), '.json');
  const wordings = new Map<string, Wording>();
  for (const [tag, text] of texts)
    wordings.set(tag, openWording(tag, wordsFile.parse(JSON.parse(text)), templates));
  const fallback = present(wordings.get(FALLBACK), 'the words in English');
  return (asked) => {
    for (const tag of asked) {
      const found = wordings.get(tag) ?? wordings.get(tag.split('-')[0] ?? '');
      if (found) return found;
    }
    return fallback;
  };
}

async function readAll(folder: string, ending: string): Promise<ReadonlyMap<string, string>> {
  const files = (await readdir(folder)).filter((file) => file.endsWith(ending)).sort();
  const texts = await Promise.all(files.map((file) => readFile(path.join(folder, file), 'utf8')));
  return new Map(files.map((file, at) => [file.slice(0, -ending.length), texts[at] ?? '']));
}

function openWording(
  language: string,
  words: Words,
  templates: ReadonlyMap<string, string>,
): Wording {
  const plurals = new Intl.PluralRules(language);
  const say: Say = (key, values = {}) => {
    const entry = present(words[key], `the word ${key} in ${language}`);
    const count = plurals.select(Number(values['count'] ?? 0));
    const text = typeof entry === 'string' ? entry : present(entry[count] ?? entry['other'], key);
    return text.replaceAll(/\{(\w+)\}/g, (slot, name: string) =>
      name in values ? sayValue(values[name]) : slot,
    );
  };
  const engine = Handlebars.create();
  engine.registerHelper('say', (key: string, options: Handlebars.HelperOptions) =>
    say(key, options.hash as Values),
  );
  for (const [name, text] of templates) engine.registerPartial(name, text);
  const compiled = new Map(
    [...templates].map(([name, text]) => [name, engine.compile(text, { strict: true })]),
  );
  return {
    language,
    say,
    render: (page, view) => present(compiled.get(page), `page ${page}`)({ language, ...view }),
  };
}

const sayValue = (value: unknown): string =>
  typeof value === 'string' || typeof value === 'number' ? String(value) : '';
