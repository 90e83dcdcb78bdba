/**
 * From files to a bundle. Takes the bytes of every file; gives the validated data, prose by language
 * and photographs, or findings that say what stands where and what to do. Pure: reads no disk, knows
 * no stitch. What it gives is safe to work on; whether the numbers follow is for the checks.
 */
import { hashBytes, hashValue } from '../../base/hash.ts';
import { JSON_LIMITS } from '../../base/limits.ts';
import { pointerTo } from '../../base/span.ts';
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import type { Bundle } from '../pattern.ts';
import { normaliseTexts } from './characters.ts';
import type { Json, JsonProblem, JsonText } from './json.ts';
import { readJson } from './json.ts';
import { skeletonOf } from './paths.ts';
import { readPictureHead } from './picture.ts';
import type { BundleData, ProseData, SourceRecord } from './schema.ts';
import { bundleSchema, proseSchema, SOURCE_KEY, sourceRecordSchema } from './schema.ts';
import { shapeFindings } from './shape.ts';
import type { BundleFiles } from './unpack.ts';

export interface LoadedBundle {
  /** There only where no finding blocks. */
  readonly bundle?: Bundle;
  readonly findings: readonly Finding[];
  /** Line in a file of the value that a pointer names, from 1: for printing places. */
  readonly lineOf: (file: string, pointer: string) => number | undefined;
}

export const PATTERN_FILE = 'pattern.json';
export const proseFile = (language: string): string => `prose/${language}.json`;
export const photoFile = (file: string): string => `photos/${file}`;

/** Texts every language of a pattern needs: the title, and the summary for the cover and the shop. */
const REQUIRED_PROSE = ['title', 'summary'] as const;

interface Reading {
  readonly files: BundleFiles;
  readonly findings: Finding[];
  readonly texts: Map<string, JsonText>;
  readonly used: Set<string>;
}

export interface LoadOptions {
  /** For work on numbers, before there are photographs. */
  readonly withoutPhotos?: boolean;
  /** For work on translations: these languages, finished or not, beside the designer's own. */
  readonly translations?: readonly string[];
}

export function loadBundle(
  files: BundleFiles,
  { withoutPhotos = false, translations }: LoadOptions = {},
): LoadedBundle {
  const reading: Reading = { files, findings: [], texts: new Map(), used: new Set() };
  const data = readPattern(reading);
  const { prose, sources } = readProse(reading, data, translations);
  const noPhotos = data === undefined || withoutPhotos;
  const photos = noPhotos ? new Map<string, Uint8Array>() : readPhotos(reading, data);
  if (!noPhotos) noteUnusedFiles(reading, data);
  const { findings } = reading;
  const lineOf = (file: string, pointer: string) => reading.texts.get(file)?.lineOf(pointer);
  if (data === undefined || findings.some(({ severity }) => severity === 'error')) {
    return { findings, lineOf };
  }
  return { bundle: assembleBundle(data, prose, photos, sources), findings, lineOf };
}

/** The bundle with its content hash: key order, file order and white space do not count. */
export function assembleBundle(
  data: BundleData,
  prose: ReadonlyMap<string, ProseData>,
  photos: ReadonlyMap<string, Uint8Array>,
  sources: ReadonlyMap<string, SourceRecord> = new Map(),
): Bundle {
  const photoHashes = new Map([...photos].map(([file, bytes]) => [file, hashBytes(bytes)]));
  const hash = hashBundle(data, prose, photoHashes, sources);
  return { data, prose, photos, hash, ...(sources.size > 0 && { sources }) };
}

/** SHA-256 of all that a bundle says; photographs stand in it by their own hash. */
export function hashBundle(
  data: BundleData,
  prose: ReadonlyMap<string, ProseData>,
  photoHashes: ReadonlyMap<string, string>,
  sources: ReadonlyMap<string, SourceRecord> = new Map(),
): string {
  const [proseRecord, photos] = [Object.fromEntries(prose), Object.fromEntries(photoHashes)];
  const recorded = sources.size > 0 && { sources: Object.fromEntries(sources) };
  return hashValue({ data, prose: proseRecord, photos, ...recorded });
}

/** Prose without a prototype, so that a key like "constructor" finds nothing. */
export const bareProse = (prose: ProseData): ProseData =>
  Object.assign(Object.create(null) as ProseData, prose);

function readPattern(reading: Reading): BundleData | undefined {
  const value = readJsonFile(reading, PATTERN_FILE, 'the pattern itself', { prose: false });
  if (value === undefined) return undefined;
  const parsed = bundleSchema.safeParse(value);
  if (parsed.success) return parsed.data;
  const found = shapeFindings({ file: PATTERN_FILE, value }, parsed.error.issues);
  reading.findings.push(...firstOf(found, PATTERN_FILE));
  return undefined;
}

interface ReadTexts {
  readonly prose: Map<string, ProseData>;
  readonly sources: Map<string, SourceRecord>;
}

/** Prose of the published languages; of all files in `prose/` while the pattern cannot be read. */
function readProse(
  reading: Reading,
  data: BundleData | undefined,
  translations: readonly string[] | undefined,
): ReadTexts {
  const languages =
    (data && translations ? [data.language, ...translations] : data?.languages) ??
    [...reading.files.keys()].flatMap((name) => /^prose\/([\w-]+)\.json$/.exec(name)?.[1] ?? []);
  const unfinished = new Set(
    (translations ?? data?.heldOver?.map(({ language }) => language))?.filter(
      (language) => language !== data?.language,
    ),
  );
  const texts: ReadTexts = { prose: new Map(), sources: new Map() };
  for (const language of new Set(languages)) {
    const file = proseFile(language);
    // What waits for a later version, or is at the translator's, need not be whole yet.
    const whole = !unfinished.has(language);
    if (!whole && !reading.files.has(file)) continue;
    const value = readJsonFile(reading, file, `the prose in ${language}`, { prose: true });
    if (value !== undefined) readTexts(reading, { file, language, whole }, value, texts);
  }
  return texts;
}

interface ProseFile {
  readonly file: string;
  readonly language: string;
  /** True where it needs the texts that every language needs. */
  readonly whole: boolean;
}

/** One prose file: its texts, and apart from them the record of what they were translated from. */
function readTexts(
  reading: Reading,
  { file, language, whole }: ProseFile,
  value: Json,
  to: ReadTexts,
) {
  const { [SOURCE_KEY]: recorded, ...texts } = isRecord(value) ? value : {};
  const parsed = proseSchema.safeParse(isRecord(value) ? texts : value);
  const problems = (issues: Issues) =>
    reading.findings.push(...firstOf(shapeFindings({ file, value }, issues), file));
  if (!parsed.success) return void problems(parsed.error.issues);
  if (whole) requireProse(reading, file, parsed.data);
  to.prose.set(language, bareProse(parsed.data));
  if (recorded === undefined) return;
  const record = sourceRecordSchema.safeParse(recorded);
  if (record.success) return void to.sources.set(language, record.data);
  problems(record.error.issues.map((issue) => ({ ...issue, path: [SOURCE_KEY, ...issue.path] })));
}

type Issues = Parameters<typeof shapeFindings>[1];

const isRecord = (value: Json): value is { [key: string]: Json } =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

function requireProse(reading: Reading, file: string, prose: ProseData): void {
  for (const key of REQUIRED_PROSE) {
    if (!Object.hasOwn(prose, key)) {
      const facts = { key, expected: `the ${key} of the pattern, as text` };
      reading.findings.push(finding('bundle/missing-key', { file, pointer: '' }, facts));
    }
  }
}

function readPhotos(reading: Reading, data: BundleData): ReadonlyMap<string, Uint8Array> {
  const photos = new Map<string, Uint8Array>();
  data.photos.forEach((photo, index) => {
    const pointer = pointerTo('', 'photos', index, 'file');
    const bytes = requireFile(reading, photoFile(photo.file), `a photograph`, pointer);
    if (bytes === undefined) return;
    const head = readPictureHead(bytes);
    if ('problem' in head) {
      const facts = { file: photoFile(photo.file), problem: head.problem };
      reading.findings.push(finding('bundle/no-picture', { file: PATTERN_FILE, pointer }, facts));
    } else {
      photos.set(photo.file, bytes);
    }
  });
  return photos;
}

/** A file that is not used is named, so that a photograph forgotten in the pattern is seen. */
function noteUnusedFiles(reading: Reading, data: BundleData): void {
  for (const file of reading.files.keys()) {
    if (!reading.used.has(file) && file !== data.$schema?.replace(/^\.\//, '')) {
      reading.findings.push(finding('bundle/unused-file', { file, pointer: '' }, { file }));
    }
  }
}

// ---------------------------------------------------------------- one file

function requireFile(
  reading: Reading,
  file: string,
  purpose: string,
  pointer: string,
): Uint8Array | undefined {
  const bytes = reading.files.get(file);
  reading.used.add(file);
  if (bytes !== undefined) return bytes;
  const similar = [...reading.files.keys()].find((name) => skeletonOf(name) === skeletonOf(file));
  const where = { file: PATTERN_FILE, pointer };
  reading.findings.push(
    similar === undefined
      ? finding('bundle/missing-file', where, { file, purpose })
      : finding('bundle/similar-file', where, { file, similar }),
  );
  return undefined;
}

function readJsonFile(
  reading: Reading,
  file: string,
  purpose: string,
  rules: { readonly prose: boolean },
): Json | undefined {
  const bytes = requireFile(reading, file, purpose, rules.prose ? '/languages' : '');
  if (bytes === undefined) return undefined;
  const text = decodeText(reading, file, bytes);
  if (text === undefined) return undefined;
  const json = readJson(text, JSON_LIMITS.depth);
  reading.texts.set(file, json);
  reading.findings.push(...json.problems.map((problem) => jsonFinding(file, problem)));
  if (json.value === undefined) return undefined;
  const { value, problems } = normaliseTexts(json.value, rules);
  reading.findings.push(
    ...problems
      .slice(0, JSON_LIMITS.findings)
      .map(({ pointer, ...facts }) => finding('bundle/character', { file, pointer }, facts)),
  );
  return value;
}

/** UTF-8, with or without the mark some editors put in front. */
function decodeText(reading: Reading, file: string, bytes: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    const line = lineOfBadByte(bytes);
    reading.findings.push(finding('bundle/encoding', { file, pointer: '' }, { line }));
    return undefined;
  }
}

function lineOfBadByte(bytes: Uint8Array): number {
  const lenient = new TextDecoder('utf-8').decode(bytes);
  return lenient.slice(0, lenient.indexOf('\ufffd')).split('\n').length;
}

function jsonFinding(file: string, problem: JsonProblem): Finding {
  const where = { file, pointer: problem.pointer };
  const { line, column } = problem;
  switch (problem.kind) {
    case 'syntax': {
      const { found, expected } = problem;
      return finding('bundle/syntax', where, { line, column, found, expected });
    }
    case 'too-deep':
      return finding('bundle/too-deep', where, { limit: problem.limit, line, column });
    case 'duplicate-key': {
      const { key, firstLine } = problem;
      return finding('bundle/duplicate-key', where, { key, line, firstLine });
    }
    case 'forbidden-key':
      return finding('bundle/forbidden-key', where, { key: problem.key });
  }
}

/** The first so many; the rest are counted, so that nobody thinks the list is whole. */
function firstOf(findings: readonly Finding[], file: string): readonly Finding[] {
  const rest = findings.length - JSON_LIMITS.findings;
  if (rest <= 0) return findings;
  const problem = `${rest} more places are not as the format needs`;
  const more = finding('bundle/shape', { file, pointer: '' }, { problem });
  return [...findings.slice(0, JSON_LIMITS.findings), more];
}
