/**
 * What takes longer than a page may wait: looking at a pattern, reading its languages, setting one
 * document, comparing with the release before. Takes names of the shelf, gives plain data that can travel
 * between processes. Knows nothing of pages or of who asked; beside another process or in the same one.
 */
import type { Finding } from '../../findings/finding.ts';
import type { Language } from '../../language/index.ts';
import { pinNumbers, type PinsReport } from '../../pattern/checks/pins.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import type { PacketFile } from '../../packet/files.ts';
import type { Judged } from '../../packet/results/judge.ts';
import type { DocumentOrder, Rooms } from '../../pipeline/ports.ts';
import type { OpenedRooms } from '../../pipeline/rooms.ts';
import type { ProseSurvey } from '../../translation/index.ts';
import type { Shelf } from '../../shelf/shelf.ts';
import type { Releases } from '../releases.ts';
import { type Cover, makeCover } from './cover.ts';
import { type Follow, followReleases } from './follow.ts';
import {
  type Brought,
  type Paper,
  type PaperOrigin,
  readNumbers,
  readOrigin,
  readTexts,
  surveyTexts,
  writeNumbers,
  writeTexts,
} from './papers.ts';
import { packEditor, packTesters, readResults } from './people.ts';
import { setSheet, writeWebPage } from './sheets.ts';
import { type LookedAt, type Standings, withoutPhotos } from './standing.ts';
import { tryPattern } from './trial.ts';
import { type Tied, tieTexts } from './tying.ts';

export type PinsSeen = Pick<PinsReport, 'total' | 'pinned' | 'share' | 'unpinned' | 'free'>;

/** Every job: what it is asked and what it answers. */
export interface Jobs {
  readonly look: { ask: { name: string }; answer: LookedAt };
  readonly cover: { ask: { name: string }; answer: Cover | undefined };
  /** Findings of one language. */
  readonly languages: { ask: { name: string; tag: string }; answer: readonly Finding[] };
  readonly pins: { ask: { name: string }; answer: PinsSeen };
  readonly sheet: { ask: { name: string; order: DocumentOrder }; answer: Uint8Array };
  readonly webPage: { ask: { name: string; language: string }; answer: Uint8Array };
  readonly follow: { ask: { name: string; language: string }; answer: Follow };
  readonly numbersOut: { ask: { name: string; kind: 'xlsx' | 'csv' }; answer: Uint8Array };
  /** Which pattern a paper belongs to, as it says itself. */
  readonly paperOrigin: { ask: { paper: Paper }; answer: PaperOrigin };
  readonly numbersIn: { ask: { name: string; paper: Paper }; answer: Brought };
  /** What would be found with this `pattern.json`, and is not now. */
  readonly tried: { ask: { name: string; pattern: Uint8Array }; answer: readonly Finding[] };
  readonly survey: { ask: { name: string }; answer: readonly ProseSurvey[] };
  readonly textsOut: {
    ask: { name: string; tag: string; kind: 'xlf' | 'tbx'; all: boolean };
    answer: Uint8Array | undefined;
  };
  readonly textsIn: { ask: { name: string; paper: Paper }; answer: Brought };
  readonly textsTied: { ask: { name: string; tag: string }; answer: Tied };
  /** `since`: the record of the packet before it. */
  readonly editorPacket: { ask: { name: string; since?: Paper }; answer: readonly PacketFile[] };
  /** Copies for test knitters in one language; in every size where none is named. */
  readonly testPacket: {
    ask: { name: string; tag: string; sizes: readonly string[] };
    answer: readonly PacketFile[];
  };
  /** What returned sheets say together. */
  readonly results: { ask: { name: string; papers: readonly Paper[] }; answer: Judged };
}
export type JobName = keyof Jobs;

/** Whoever has the jobs done: other processes, or this one. */
export interface Work {
  ask<K extends JobName>(job: K, ask: Jobs[K]['ask']): Promise<Jobs[K]['answer']>;
}

/** What a job may use. */
export interface JobWorld {
  readonly rooms: () => Promise<OpenedRooms>;
  readonly languages: () => Promise<ReadonlyMap<string, Language>>;
  readonly shelf: Pick<Shelf, 'file'>;
  readonly standings: Standings;
  readonly releases: Releases;
}

type Job<K extends JobName> = (ask: Jobs[K]['ask'], world: JobWorld) => Promise<Jobs[K]['answer']>;

export const JOBS: { readonly [K in JobName]: Job<K> } = {
  cover: ({ name }, { shelf }) => makeCover(shelf, name),
  look: async ({ name }, { standings }) => withoutPhotos(await standings.of(name)),
  languages: async ({ name, tag }, { standings, rooms }) =>
    readLanguage((await standings.of(name)).checked, tag, await rooms()),
  pins: async ({ name }, { standings }) => seePins(await standings.readable(name)),
  sheet: async ({ name, order }, { standings, rooms }) =>
    setSheet(await standings.readable(name), order, await rooms()),
  webPage: async ({ name, language }, { standings, rooms }) =>
    writeWebPage(await standings.readable(name), language, await rooms()),
  follow: async ({ name, language }, { standings, releases, rooms }) =>
    followReleases(await standings.readable(name), { releases, language, rooms: await rooms() }),
  numbersOut: async ({ name, kind }, { standings }) =>
    writeNumbers((await standings.of(name)).files, kind),
  paperOrigin: async ({ paper }) => readOrigin(paper),
  numbersIn: async ({ name, paper }, { standings }) =>
    readNumbers((await standings.of(name)).files, paper),
  tried: async ({ name, pattern }, { standings }) => tryPattern(await standings.of(name), pattern),
  survey: async ({ name }, { standings, languages }) =>
    surveyTexts((await standings.of(name)).files, await languages()),
  textsOut: async ({ name, ...what }, { standings, languages }) =>
    writeTexts((await standings.of(name)).files, what, await languages()),
  textsTied: async ({ name, tag }, { standings }) =>
    tieTexts((await standings.of(name)).files, tag),
  textsIn: async ({ name, paper }, { standings, languages }) =>
    readTexts((await standings.of(name)).files, paper, await languages()),
  editorPacket: async ({ name, since }, { standings, rooms }) =>
    packEditor(await standings.readable(name), since, await rooms()),
  testPacket: async ({ name, tag, sizes }, { standings, rooms }) =>
    packTesters(await standings.readable(name), { tag, sizes }, await rooms()),
  results: async ({ name, papers }, { standings }) =>
    readResults(await standings.readable(name), papers),
};

async function readLanguage(
  checked: CheckedPattern | undefined,
  tag: string,
  rooms: Rooms,
): Promise<readonly Finding[]> {
  // Lets other jobs through between two languages, each of which keeps the processor busy.
  await new Promise((resolve) => setImmediate(resolve));
  const isOffered = checked?.pattern.bundle.data.languages.includes(tag) ?? false;
  return checked && isOffered ? rooms.checkLanguage(checked, tag) : [];
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
