/**
 * Languages from their folders. `languageFrom` is pure: the parsed files of one folder in, a language
 * out, or a `Fault` naming the file and the remedy. `loadLanguages` reads `locales/` from disk, or takes
 * the parsed files themselves where a bundle of code carries them. Adding a language is adding a folder.
 */
import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { z } from 'zod';
import { Fault } from '../base/fault.ts';
import { glossarySchema, type Glossary } from './glossary.ts';
import type { Language } from './language.ts';
import { openMessages, type Messages, type MessageTree } from './message.ts';
import { settingsSchema } from './settings.ts';

/** The data files of a language folder; `NOTES.md` is for people. */
export const LANGUAGE_FILES = [
  'language.json',
  'messages.json',
  'rows.json',
  'glossary.json',
] as const;
export type LanguageFile = (typeof LANGUAGE_FILES)[number];
export type LanguageFiles = Readonly<Record<LanguageFile, unknown>>;

const flat = z.record(z.string(), z.string().min(1));

/** One language from its parsed files. `folder` is named where a file is wrong. */
export function languageFrom(files: LanguageFiles, folder: string): Language {
  const settings = read(settingsSchema, files, 'language.json', folder);
  const messages = read(flat, files, 'messages.json', folder);
  const rows = read(flat, files, 'rows.json', folder);
  const glossary = read(glossarySchema, files, 'glossary.json', folder);
  const sources = { messages, rows, glossary: textsOf(glossary) };
  let opened: Messages | undefined;
  const open = () => (opened ??= openMessages(settings.tag, sources));
  return {
    tag: settings.tag,
    settings,
    glossary,
    sources,
    messages: {
      find: (namespace, key, choice) => open().find(namespace, key, choice),
      category: (count, ordinal) => open().category(count, ordinal),
    },
  };
}

const textsOf = ({ stitches, crossings, terms }: Glossary): MessageTree =>
  JSON.parse(JSON.stringify({ stitches, crossings, terms })) as MessageTree;

function read<Out>(
  schema: z.ZodType<Out>,
  files: LanguageFiles,
  file: LanguageFile,
  folder: string,
): Out {
  const result = schema.safeParse(files[file]);
  if (result.success) return result.data;
  const [issue] = result.error.issues;
  const where = issue?.path.join('.') ?? '';
  throw new Fault('input', `${folder}/${file}: ${where} ${issue?.message ?? 'cannot be read'}`, {
    place: `${folder}/${file}`,
    remedy: 'Correct the language folder; another one, such as en-US, shows the shape.',
  });
}

/** Every language of a folder by its tag, or of files that are parsed already, by folder name. */
export async function loadLanguages(
  from: string | Readonly<Record<string, LanguageFiles>>,
): Promise<ReadonlyMap<string, Language>> {
  const folders = typeof from === 'string' ? await readFolders(from) : from;
  const languages = Object.entries(folders)
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([folder, files]) => languageFrom(files, folder));
  return new Map(languages.map((language) => [language.tag, language]));
}

async function readFolders(root: string): Promise<Record<string, LanguageFiles>> {
  const entries = await readdir(root, { withFileTypes: true });
  const folders = entries.filter((entry) => entry.isDirectory()).map((entry) => entry.name);
  const read = folders.map(async (folder) => {
    const files = await Promise.all(
      LANGUAGE_FILES.map(async (file) => [file, await readJson(join(root, folder, file))] as const),
    );
    return [folder, Object.fromEntries(files) as LanguageFiles] as const;
  });
  return Object.fromEntries(await Promise.all(read));
}

async function readJson(path: string): Promise<unknown> {
  try {
    return JSON.parse(await readFile(path, 'utf8')) as unknown;
  } catch (cause) {
    throw new Fault('input', `cannot read ${path}`, {
      place: path,
      remedy: 'A language folder holds language.json, messages.json, rows.json and glossary.json.',
      cause,
    });
  }
}
