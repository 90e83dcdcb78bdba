/**
 * Work that takes longer than a page may wait: looking at a pattern, reading its languages, setting one
 * document, comparing with the release before, publishing. Takes folders, gives plain data that can
 * travel between processes. Knows nothing of pages or of who asked.
 */
import { hashBytes } from '../../base/hash.ts';
import { Fault } from '../../base/fault.ts';
import { blocks, type Finding } from '../../findings/finding.ts';
import { loadBundle } from '../../pattern/bundle/load.ts';
import { type BundleFiles, unpackBundle } from '../../pattern/bundle/unpack.ts';
import { checkPattern } from '../../pattern/checks/index.ts';
import { pinNumbers, type PinsReport } from '../../pattern/checks/pins.ts';
import type { Bundle, CheckedPattern } from '../../pattern/pattern.ts';
import type { DocumentOrder, Picture, Progress, Rooms } from '../../pipeline/ports.ts';
import { PRINT_SIZE } from '../../pipeline/ports.ts';
import type { Settings } from '../../pipeline/payloads.ts';
import { publish } from '../../pipeline/publish.ts';
import { folderStore } from '../../store/folder.ts';
import { signatureOf } from '../signature.ts';
import type { Language } from '../../language/index.ts';
import type { ProseSurvey } from '../../translation/index.ts';
import {
  type Brought,
  type Paper,
  readNumbers,
  readTexts,
  surveyTexts,
  writeNumbers,
  writeTexts,
} from './papers.ts';
import { type Follow, followReleases } from './follow.ts';

/** What a pattern comes to: its bundle without the bytes of photographs, worked in every size. */
export interface LookedAt {
  readonly bundle: Bundle | undefined;
  readonly checked: CheckedPattern | undefined;
  readonly findings: readonly Finding[];
  /** Bytes of the JSON files, by path in the bundle. */
  readonly texts: BundleFiles;
}

export type PinsSeen = Pick<PinsReport, 'total' | 'pinned' | 'share' | 'unpinned' | 'free'>;

export interface PublishJob {
  readonly folder: string;
  /** Where releases go; `.store` lies in it. */
  readonly releases: string;
  readonly token: string;
  readonly editions: NonNullable<Settings['editions']>;
}

export interface PublishEnd {
  readonly outcome: 'blocked' | 'released' | 'already';
  readonly findings: readonly Finding[];
  readonly pattern?: string;
  readonly version?: string;
  readonly made?: number;
  readonly reused?: number;
  readonly setAside?: string | undefined;
}

/** Every job: what it is asked and what it answers. */
export interface Jobs {
  readonly look: { ask: { folder: string }; answer: LookedAt };
  readonly languages: { ask: { folder: string }; answer: readonly Finding[] };
  readonly pins: { ask: { folder: string }; answer: PinsSeen };
  readonly sheet: { ask: { folder: string; order: DocumentOrder }; answer: Uint8Array };
  readonly webPage: { ask: { folder: string; language: string }; answer: Uint8Array };
  readonly follow: {
    ask: { folder: string; releases: string; language: string };
    answer: Follow;
  };
  readonly numbersOut: { ask: { folder: string; kind: 'xlsx' | 'csv' }; answer: Uint8Array };
  readonly numbersIn: { ask: { folder: string; paper: Paper }; answer: Brought };
  readonly survey: { ask: { folder: string }; answer: readonly ProseSurvey[] };
  readonly textsOut: {
    ask: { folder: string; tag: string; kind: 'xlf' | 'tbx'; all: boolean };
    answer: Uint8Array | undefined;
  };
  readonly textsIn: { ask: { folder: string; paper: Paper }; answer: Brought };
  readonly publish: { ask: PublishJob; answer: PublishEnd };
}
export type JobName = keyof Jobs;

/** What a job may be told and may tell while it works. */
export interface JobWorld {
  readonly rooms: () => Promise<Rooms>;
  readonly languages: () => Promise<ReadonlyMap<string, Language>>;
  readonly signal: AbortSignal;
  readonly told: (event: Progress) => void;
}

type Job<K extends JobName> = (ask: Jobs[K]['ask'], world: JobWorld) => Promise<Jobs[K]['answer']>;

export const JOBS: { readonly [K in JobName]: Job<K> } = {
  async look({ folder }) {
    const { bundle, checked, findings, texts } = await standing(folder);
    const bare = bundle && { ...bundle, photos: new Map<string, Uint8Array>() };
    return { bundle: bare, checked: checked && withoutPhotos(checked), findings, texts };
  },
  languages: async ({ folder }, { rooms }) =>
    readLanguages((await standing(folder)).checked, await rooms()),
  pins: async ({ folder }) => seePins(await readable(folder)),
  sheet: async ({ folder, order }, { rooms }) =>
    setSheet(await readable(folder), order, await rooms()),
  webPage: async ({ folder, language }, { rooms }) =>
    writeWebPage(await readable(folder), language, await rooms()),
  follow: async ({ folder, releases, language }, { rooms }) =>
    followReleases(await readable(folder), { releases, language, rooms: await rooms() }),
  numbersOut: ({ folder, kind }) => writeNumbers(folder, kind),
  numbersIn: ({ folder, paper }) => readNumbers(folder, paper),
  survey: async ({ folder }, { languages }) => surveyTexts(folder, await languages()),
  textsOut: async ({ folder, ...what }, { languages }) =>
    writeTexts(folder, what, await languages()),
  textsIn: async ({ folder, paper }, { languages }) => readTexts(folder, paper, await languages()),
  publish: publishFolder,
};

// ---------------------------------------------------------------- a pattern, remembered

interface Standing extends LookedAt {
  readonly seen: string;
}

/** Patterns at which the last jobs looked; a desk has one or two open. */
const REMEMBERED = 2;
const known = new Map<string, Promise<Standing>>();

async function standing(folder: string): Promise<Standing> {
  const seen = await signatureOf(folder);
  const before = await known.get(folder)?.catch(() => undefined);
  if (before?.seen === seen) return before;
  const looking = lookAt(folder, seen);
  known.delete(folder);
  known.set(folder, looking);
  for (const old of [...known.keys()].slice(0, -REMEMBERED)) known.delete(old);
  return looking;
}

async function lookAt(folder: string, seen: string): Promise<Standing> {
  const files = await unpackBundle(folder);
  const texts = new Map([...files].filter(([name]) => name.endsWith('.json')));
  const { bundle, findings } = loadBundle(files);
  const checked = bundle && checkPattern(bundle);
  return { seen, texts, bundle, checked, findings: [...findings, ...(checked?.findings ?? [])] };
}

async function readable(folder: string): Promise<CheckedPattern> {
  const { checked } = await standing(folder);
  if (checked) return checked;
  throw new Fault('input', 'the pattern cannot be read yet', { remedy: 'its findings say where' });
}

const withoutPhotos = (checked: CheckedPattern): CheckedPattern => ({
  ...checked,
  pattern: { ...checked.pattern, bundle: { ...checked.pattern.bundle, photos: new Map() } },
});

async function readLanguages(
  checked: CheckedPattern | undefined,
  rooms: Rooms,
): Promise<readonly Finding[]> {
  const found: Finding[] = [];
  for (const tag of checked?.pattern.bundle.data.languages ?? []) {
    // Lets other jobs through between two languages, each of which keeps the processor busy.
    await new Promise((resolve) => setImmediate(resolve));
    if (checked) found.push(...(await rooms.checkLanguage(checked, tag)));
  }
  return found;
}

const pins = new WeakMap<CheckedPattern, PinsSeen>();

/** Every number is changed and checked: that takes seconds, and is done once for each state. */
function seePins(checked: CheckedPattern): PinsSeen {
  const before = pins.get(checked);
  if (before) return before;
  const { total, pinned, share, unpinned, free } = pinNumbers(checked.pattern);
  const seen = { total, pinned, share, unpinned, free };
  pins.set(checked, seen);
  return seen;
}

// ---------------------------------------------------------------- documents as they would be

/** Documents kept of one state of a pattern: a few languages in a few editions. */
const SHEETS_KEPT = 12;
const sheets = new WeakMap<CheckedPattern, Map<string, Uint8Array>>();

async function setSheet(
  checked: CheckedPattern,
  order: DocumentOrder,
  rooms: Rooms,
): Promise<Uint8Array> {
  const kept = sheets.get(checked) ?? new Map<string, Uint8Array>();
  sheets.set(checked, kept);
  const name = JSON.stringify(order);
  const before = kept.get(name);
  if (before) return before;
  await requireSpeech(checked, order.language, rooms);
  const pictures = await preparedIn(checked, PRINT_SIZE, rooms);
  try {
    const { bytes } = await rooms.compose(checked, order, { pictures });
    kept.set(name, bytes);
    for (const old of [...kept.keys()].slice(0, -SHEETS_KEPT)) kept.delete(old);
    return bytes;
  } catch (cause) {
    // Pages promise to set only what follows; a draft may hold rows that do not.
    if (cause instanceof Fault || !checked.findings.some(blocks)) throw cause;
    throw new Fault('input', 'the pages cannot be set while findings stand against a release', {
      remedy: 'correct what the findings say first',
      cause,
    });
  }
}

async function requireSpeech(checked: CheckedPattern, language: string, rooms: Rooms) {
  const lacking = (await rooms.checkLanguage(checked, language)).filter(blocks);
  if (lacking.length === 0) return;
  throw new Fault('input', `${language} cannot say this pattern yet`, {
    place: language,
    remedy: 'the findings of the languages say what it lacks',
  });
}

const SCREEN_SIZE = 'whole-1200';
type Prepared = Picture & { readonly hash: string };
const prepared = new WeakMap<Uint8Array, Map<string, Promise<Prepared>>>();

/** Every photograph in one size, by its file name; prepared once for as long as its bytes are kept. */
async function preparedIn(
  { pattern }: CheckedPattern,
  size: string,
  rooms: Rooms,
): Promise<ReadonlyMap<string, Prepared>> {
  const pictures = new Map<string, Prepared>();
  for (const [file, bytes] of pattern.bundle.photos) {
    const sizes = prepared.get(bytes) ?? new Map<string, Promise<Prepared>>();
    prepared.set(bytes, sizes);
    const making = sizes.get(size) ?? rooms.preparePicture(bytes, size).then(named);
    sizes.set(size, making);
    pictures.set(file, await making);
  }
  return pictures;
}

const named = (picture: Picture): Prepared => ({ ...picture, hash: hashBytes(picture.bytes) });

async function writeWebPage(
  checked: CheckedPattern,
  language: string,
  rooms: Rooms,
): Promise<Uint8Array> {
  await requireSpeech(checked, language, rooms);
  const made = new Map<string, Uint8Array>();
  const pictures = [];
  for (const size of [PRINT_SIZE, SCREEN_SIZE])
    for (const [file, { bytes, hash, ...rest }] of await preparedIn(checked, size, rooms)) {
      made.set(hash, bytes);
      pictures.push({ ...rest, file, size, artifact: hash, sizeBytes: bytes.length });
    }
  const companions = rooms.companions({
    checked,
    languages: [language],
    earlier: [],
    history: {},
    pictures,
    documents: [],
    name: checked.pattern.bundle.data.id,
    fetch: (artifact) => Promise.resolve(made.get(artifact) ?? new Uint8Array()),
  });
  const page = companions.find(({ role }) => role === 'page');
  if (page) return page.make();
  throw new Fault('missing', `there is no page in ${language}`, { place: language });
}

// ---------------------------------------------------------------- publishing

async function publishFolder(
  { folder, releases, token, editions }: PublishJob,
  { rooms, signal, told }: JobWorld,
): Promise<PublishEnd> {
  const store = folderStore(`${releases}/.store`);
  const order = { bundle: folder, releases: store, folder: releases, editions, signal };
  const end = await publish(order, { rooms: await rooms(), token }, told);
  const { outcome, findings } = end;
  if (outcome === 'blocked') return { outcome, findings };
  const { manifest, made, reused, setAside } = end;
  const { pattern, version } = manifest;
  return { outcome, findings, pattern, version, made, reused, setAside };
}
