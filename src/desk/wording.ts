/**
 * The desk's own words and pages. Takes the folder of templates; gives a renderer for each language
 * that has a file of words. Strict: a word or a field that is missing is an error, never an empty place.
 * A further language is one file in `templates/desk/words/`, and one each in `findings/`,
 * `faults/` and `lines/` for what rooms say in English; without these it stays English.
 */
import { readdir, readFile } from 'node:fs/promises';
import path from 'node:path';
import Handlebars from 'handlebars';
import { z } from 'zod';
import { present } from '../base/assert.ts';
import { openPhrases, openSaying, type Saying } from '../findings/saying.ts';
import { openFaultWords, type SayFault } from './fault-words.ts';

/** A text, or one text for each plural category of the language (CLDR), chosen by `count`. */
const wordsFile = z.record(z.string(), z.union([z.string(), z.record(z.string(), z.string())]));
type Words = z.output<typeof wordsFile>;

export type Values = Readonly<Record<string, unknown>>;
export type Say = (key: string, values?: Values) => string;

const template = z.union([z.string(), z.record(z.string(), z.string())]);
const findingsFile = z.strictObject({
  sizes: z.strictObject({ all: z.string(), one: z.string(), other: z.string(), more: z.string() }),
  quotes: z.array(z.string()).length(2),
  phrases: z.record(z.string(), z.string()),
  codes: z.record(z.string(), z.strictObject({ headline: template, action: template.optional() })),
});

/** By the English text; English itself needs none. */
const phrasesFile = z.record(z.string(), z.string());

export interface Wording {
  readonly language: string;
  /** How findings are said in it; nothing for English, their source. */
  readonly saying?: Saying | undefined;
  /** A day, "2026-11-25", as the language writes it. */
  readonly day: (date: string) => string;
  /** A moment, "2026-11-25T12:00:00Z", to the minute; always in Coordinated Universal Time. */
  readonly minute: (time: string) => string;
  /** Several words as one: "a, b and c". */
  readonly list: (words: readonly string[]) => string;
  /** A line of what a spreadsheet brings: "back, S: 97 → 99 sts". */
  readonly line: (english: string) => string;
  /** What a fault says in it. */
  readonly fault: SayFault;
  readonly say: Say;
  readonly render: (page: string, view: Values) => string;
}

/** Chooses by what a browser asks for. */
export interface Wordings {
  (asked: readonly string[]): Wording;
  /** Languages of the desk. */
  readonly languages: readonly string[];
}

/** A language of the desk, to be chosen on every page. */
interface Choice {
  readonly tag: string;
  readonly name: string;
}

const FALLBACK = 'en';

/** A word without a plural. */
function plainWord(words: Words, key: string): string {
  const word = words[key];
  return typeof word === 'string' ? word : key;
}

export interface WordingsOrder {
  /** Every page has a way out of the desk. */
  readonly leaves?: boolean;
}

export async function openWordings(
  folder: string,
  { leaves = false }: WordingsOrder = {},
): Promise<Wordings> {
  const templates = await readAll(folder, '.hbs');
  const findings = await readAll(path.join(folder, 'findings'), '.json');
  const faults = await readAll(path.join(folder, 'faults'), '.json');
  const lines = await readAll(path.join(folder, 'lines'), '.json');
  const words = await readWords(path.join(folder, 'words'));
  const choices = [...words].map(([tag, each]) => ({
    tag,
    name: plainWord(each, 'language.name'),
  }));
  const wordings = new Map<string, Wording>();
  for (const [tag, each] of words) {
    const said = findings.get(tag);
    const saying =
      said === undefined ? undefined : openSaying(tag, findingsFile.parse(JSON.parse(said)));
    const phrasesOf = (texts: ReadonlyMap<string, string>) =>
      phrasesFile.parse(JSON.parse(texts.get(tag) ?? '{}'));
    const fault = openFaultWords(tag, phrasesOf(faults), saying);
    const line = openPhrases(tag, phrasesOf(lines));
    wordings.set(tag, openWording(tag, each, { templates, choices, saying, line, fault, leaves }));
  }
  const fallback = present(wordings.get(FALLBACK), 'the words in English');
  const choose = (asked: readonly string[]) => {
    for (const tag of asked) {
      const found = wordings.get(tag) ?? wordings.get(tag.split('-')[0] ?? '');
      if (found) return found;
    }
    return fallback;
  };
  return Object.assign(choose, { languages: choices.map(({ tag }) => tag) });
}

async function readWords(folder: string): Promise<ReadonlyMap<string, Words>> {
  const texts = [...(await readAll(folder, '.json'))];
  return new Map(texts.map(([tag, text]) => [tag, wordsFile.parse(JSON.parse(text))]));
}

async function readAll(folder: string, ending: string): Promise<ReadonlyMap<string, string>> {
  const files = (await readdir(folder)).filter((file) => file.endsWith(ending)).sort();
  const texts = await Promise.all(files.map((file) => readFile(path.join(folder, file), 'utf8')));
  return new Map(files.map((file, at) => [file.slice(0, -ending.length), texts[at] ?? '']));
}

const MINUTE = {
  year: 'numeric', month: 'short', day: 'numeric', hour: '2-digit', minute: '2-digit',
  hourCycle: 'h23', timeZone: 'UTC', timeZoneName: 'short',
} as const; // prettier-ignore

interface Shared {
  readonly templates: ReadonlyMap<string, string>;
  readonly choices: readonly Choice[];
  readonly saying: Saying | undefined;
  readonly line: (english: string) => string;
  readonly fault: SayFault;
  readonly leaves: boolean;
}

function openWording(
  language: string,
  words: Words,
  { templates, choices, saying, line, fault, leaves }: Shared,
): Wording {
  const plurals = new Intl.PluralRules(language);
  const numbers = new Intl.NumberFormat(language, { maximumFractionDigits: 2 });
  const lists = new Intl.ListFormat(language, { type: 'conjunction' });
  const days = new Intl.DateTimeFormat(language, { dateStyle: 'long', timeZone: 'UTC' });
  const minutes = new Intl.DateTimeFormat(language, MINUTE);
  const sayValue = (value: unknown): string => {
    // A true minus, as wide as the figures it stands with.
    if (typeof value === 'number') return numbers.format(value).replace('-', '−');
    return typeof value === 'string' ? value : '';
  };
  // Figures of a page are said exactly; only their decimal sign is the language's own.
  const point = numbers.format(0.5).replaceAll(/\d/g, '');
  const figure = (value: unknown) =>
    sayPlain(value).replace(/^([+−-]?\d+)\.(\d+)$/, `$1${point}$2`);
  const say: Say = (key, values = {}) => {
    const entry = present(words[key], `the word ${key} in ${language}`);
    const count = plurals.select(Number(values['count'] ?? 0));
    const text = typeof entry === 'string' ? entry : present(entry[count] ?? entry['other'], key);
    return text.replaceAll(/\{(\w+)\}/g, (slot, name: string) =>
      name in values ? (name === 'off' ? figure : sayValue)(values[name]) : slot,
    );
  };
  const engine = Handlebars.create();
  engine.registerHelper('say', (key: string, options: Handlebars.HelperOptions) =>
    say(key, options.hash as Values),
  );
  engine.registerHelper('figure', figure);
  const sizes = new Intl.NumberFormat(language, { style: 'unit', unit: 'kilobyte' });
  engine.registerHelper('fileSize', (kilobytes: number) => sizes.format(kilobytes));
  engine.registerHelper('unitWord', (unit: string) => say(`unit.${unit}`));
  // Between the links of a list, which the pages put together themselves.
  const comma = lists.formatToParts(['', '', '']).find(({ type }) => type === 'literal');
  engine.registerHelper('comma', () => comma?.value ?? ', ');
  for (const [name, text] of templates) engine.registerPartial(name, text);
  const compiled = new Map(
    [...templates].map(([name, text]) => [name, engine.compile(text, { strict: true })]),
  );
  const desk = {
    language,
    leaves,
    choices: choices.map((each) => ({ ...each, here: each.tag === language })),
  };
  return {
    language,
    saying,
    line,
    fault,
    say,
    list: (each) => lists.format(each),
    day: (date) => days.format(new Date(date)),
    minute: (time) => minutes.format(new Date(time)),
    render: (page, view) => present(compiled.get(page), `page ${page}`)({ ...desk, ...view }),
  };
}

const sayPlain = (value: unknown): string =>
  typeof value === 'string' || typeof value === 'number' ? String(value) : '';
