/**
 * Papers that leave the desk and come back: the numbers as a spreadsheet, the texts of a language as
 * XLIFF with its terms as TBX. What comes back is read whole and turned into one changed file of the
 * bundle, to be looked at before anything is written. Takes the files of a bundle and bytes; writes nothing.
 */
import { Fault } from '../../base/fault.ts';
import { SHEET_LIMITS } from '../../base/limits.ts';
import { blocks, type Finding } from '../../findings/finding.ts';
import type { Language } from '../../language/index.ts';
import { changeJson } from '../../pattern/bundle/edit.ts';
import { loadBundle, PATTERN_FILE, proseFile } from '../../pattern/bundle/load.ts';
import type { BundleFiles } from '../../pattern/bundle/unpack.ts';
import type { Bundle } from '../../pattern/pattern.ts';
import { gradeBook } from '../../pattern/grading/sheet/book.ts';
import { readTable, writeTable } from '../../pattern/grading/sheet/table-file.ts';
import { bookProblems } from '../../pattern/grading/sheet/whole-book.ts';
import type { SheetOrigin } from '../../pattern/grading/sheet/origin.ts';
import { takeFrom } from '../../pattern/grading/sheet/taking.ts';
import {
  languageOf,
  patternNamedIn,
  type ProseSurvey,
  sendOut,
  surveyProse,
  takeBack,
  writeProse,
  writeTbx,
} from '../../translation/index.ts';
import { unreadFault } from '../unread.ts';

type Languages = ReadonlyMap<string, Language>;

/** A file of the bundle as it would be; nothing where the paper is refused or brings nothing. */
export interface Brought {
  readonly file: string;
  /** Undefined for a file that is not there yet. */
  readonly before: Uint8Array | undefined;
  readonly after: Uint8Array | undefined;
  /** Each change in words, or each reason for a refusal. */
  readonly lines: readonly string[];
  readonly findings: readonly Finding[];
  /** Said of itself by a spreadsheet that was made from another pattern, or another version of it. */
  readonly madeFrom?: SheetOrigin | undefined;
}

export interface Paper {
  readonly bytes: Uint8Array;
  readonly name: string;
}

/** What a paper is, and the pattern it says it was made from. */
export interface PaperOrigin {
  readonly part: 'numbers' | 'translations';
  readonly pattern: string | undefined;
}

/** Of a spreadsheet, a plain table, a translator's file. */
export const PAPER_ENDINGS = ['.xlsx', '.csv', '.xlf', '.xliff'] as const;

export const isPaper = (name: string): boolean =>
  PAPER_ENDINGS.some((each) => name.toLowerCase().endsWith(each));

const TEXTS = /\.(?:xlf|xliff)$/i;

export async function readOrigin(paper: Paper): Promise<PaperOrigin> {
  if (TEXTS.test(paper.name))
    return { part: 'translations', pattern: patternNamedIn(paper.bytes, paper.name) };
  const { table } = await readSheet(paper);
  return { part: 'numbers', pattern: table.origin?.id };
}

const kindOf = (name: string): 'xlsx' | 'csv' | undefined => {
  const [, end = ''] = /\.(\w+)$/.exec(name.toLowerCase()) ?? [];
  return end === 'xlsx' || end === 'csv' ? end : undefined;
};

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);

// ---------------------------------------------------------------- numbers

export async function writeNumbers(files: BundleFiles, kind: 'xlsx' | 'csv'): Promise<Uint8Array> {
  const sheets = gradeBook(readable(files, undefined).data);
  return writeTable(kind, sheets);
}

export async function readNumbers(files: BundleFiles, paper: Paper): Promise<Brought> {
  const { kind, table } = await readSheet(paper);
  const { rows, origin } = table;
  const { data } = readable(files, undefined);
  const { lines, problems, edits } = takeFrom(data, rows, bookProblems(data, rows, kind));
  const before = files.get(PATTERN_FILE) ?? new Uint8Array();
  const madeHere = origin?.id === data.id && origin.version === data.version;
  const madeFrom = madeHere ? undefined : origin;
  const told = { file: PATTERN_FILE, before, lines, findings: [], madeFrom };
  if (problems > 0 || edits.length === 0) return { ...told, after: undefined };
  const text = new TextDecoder('utf-8', { ignoreBOM: true }).decode(before);
  return { ...told, after: encode(changeJson(text, edits)) };
}

async function readSheet({ bytes, name }: Paper) {
  const kind = kindOf(name);
  if (!kind)
    throw new Fault('input', `${name} is neither .xlsx nor .csv`, {
      remedy: 'save the spreadsheet as .xlsx, or as comma-separated values',
    });
  if (bytes.length > SHEET_LIMITS.fileBytes)
    throw new Fault('input', 'the file is too large', {
      remedy: `it may have ${SHEET_LIMITS.fileBytes / 1024 / 1024} MB`,
    });
  const table = await readTable(kind, bytes, name);
  if (table.rows.length === 0)
    throw new Fault('input', 'the file holds none of the numbers of a pattern', {
      remedy: 'take the spreadsheet from the page of its numbers, with its hidden first column',
    });
  return { kind, table };
}

/** `tags`: these languages, finished or not. */
export function readable(files: BundleFiles, tags: readonly string[] | undefined): Bundle {
  const more = tags && { translations: tags };
  const { bundle } = loadBundle(files, { withoutPhotos: true, ...more });
  if (bundle) return bundle;
  throw unreadFault();
}

// ---------------------------------------------------------------- texts

export async function surveyTexts(
  files: BundleFiles,
  languages: Languages,
): Promise<readonly ProseSurvey[]> {
  return surveyProse(readable(files, [...languages.keys()]));
}

/** `xlf`: what needs a translator, or with `all` every text; undefined where nothing does. */
export async function writeTexts(
  files: BundleFiles,
  { tag, kind, all }: { readonly tag: string; readonly kind: 'xlf' | 'tbx'; readonly all: boolean },
  languages: Languages,
): Promise<Uint8Array | undefined> {
  const bundle = readable(files, [tag]);
  const [source, target] = [bundle.data.language, tag].map((each) => languages.get(each));
  if (!source || !target || source === target)
    throw new Fault('missing', `there is no translation into ${tag}`, { place: tag });
  if (kind === 'tbx') return encode(writeTbx(source, target));
  const { xliff } = sendOut({ bundle, source, target, all });
  return xliff === undefined ? undefined : encode(xliff);
}

export async function readTexts(
  files: BundleFiles,
  { bytes, name }: Paper,
  languages: Languages,
): Promise<Brought> {
  const tag = languageOf(bytes, name, languages);
  const bundle = readable(files, tag === undefined ? [] : [tag]);
  const taken = takeBack({ bundle, languages, bytes, file: name });
  const { prose, record, language, findings } = taken;
  const file = proseFile(language);
  const before = files.get(file);
  const told = { file, before, findings, lines: taken.taken };
  if (!prose || !record || findings.some(blocks)) return { ...told, after: undefined };
  return { ...told, after: writeProse(before, prose, record) };
}
