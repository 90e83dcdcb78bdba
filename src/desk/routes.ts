/**
 * Every address of the desk and what answers it. Takes the folder, the rooms and the wordings; gives
 * the routes the server calls. Names in an address reach the disk only through the shelf and the
 * manifests, which know what is there.
 */
import path from 'node:path';
import { Fault } from '../base/fault.ts';
import { type Language, loadLanguages } from '../language/index.ts';
import { type Answer, type Call, page } from './answer.ts';
import { openOwnFiles, type OwnFiles } from './own-files.ts';
import { rememberLanguage } from './chosen-language.ts';
import { openLook, type Look } from './look.ts';
import { correctValue, acceptWarning, undoLast } from './pages/changes.ts';
import { showDrawings } from './pages/drawings.ts';
import { showFindings, showLanguages } from './pages/findings.ts';
import { showNumbers, showPins } from './pages/numbers.ts';
import {
  confirmPaper,
  sendNumbers,
  sendTexts,
  showTranslations,
  takeNumbers,
  takeTexts,
} from './pages/papers.ts';
import { sendSheet, sendWebPage, showPages } from './pages/pages.ts';
import { showFollow, showRelease } from './pages/release.ts';
import { cancelRun, runAgain, startRun, tellRun } from './pages/runs.ts';
import { apiFindings, apiManifest, apiPattern, apiRun, sendAll, sendFile } from './pages/files.ts';
import { begin, handIn, sendBundle, showShelf, showStanding } from './pages/shelf.ts';
import { openReleases, type Releases } from './releases.ts';
import { Runs } from './runs.ts';
import type { Routes } from './server.ts';
import { clearLeftovers } from './shelf.ts';
import { openWordings, type Wording, type Wordings } from './wording.ts';
import { WaitingRoom } from './waiting.ts';
import type { Crew } from './work/crew.ts';

export interface DeskOrder {
  /** Holds the patterns, one folder each; releases go to `releases/` in it. */
  readonly folder: string;
  /** Holds `templates/desk` and `templates/starters`. */
  readonly root: string;
  /** Does what takes longer than a page may wait. */
  readonly crew: Crew;
  readonly newId: () => string;
  readonly now: () => Date;
}

/** What a page may use. */
export interface Desk extends DeskOrder {
  readonly starters: string;
  /** By tag; read when the first page needs them. */
  readonly languages: () => Promise<ReadonlyMap<string, Language>>;
  readonly look: Look;
  readonly runs: Runs;
  readonly releases: Releases;
  /** Files that came back and wait for a yes. */
  readonly waiting: WaitingRoom;
}

/** The words of the address that a route left open, and the wording of the reader. */
export interface Asked {
  readonly call: Call;
  readonly words: Readonly<Record<string, string>>;
  readonly wording: Wording;
}

export type Page = (desk: Desk, asked: Asked) => Promise<Answer>;

const PAGES: readonly (readonly [Call['method'], string, Page])[] = [
  ['GET', '/', showShelf],
  ['POST', '/begin', begin],
  ['POST', '/hand-in', handIn],
  ['GET', '/patterns/:name', showFindings],
  ['GET', '/patterns/:name/standing', showStanding],
  ['GET', '/patterns/:name/languages', showLanguages],
  ['POST', '/patterns/:name/correct', correctValue],
  ['POST', '/patterns/:name/accept', acceptWarning],
  ['POST', '/patterns/:name/undo', undoLast],
  ['GET', '/patterns/:name/numbers', showNumbers],
  ['GET', '/patterns/:name/pins', showPins],
  ['GET', '/patterns/:name/numbers.:kind', sendNumbers],
  ['POST', '/patterns/:name/sheet', takeNumbers],
  ['GET', '/patterns/:name/translations', showTranslations],
  ['GET', '/patterns/:name/texts/new.:kind', sendTexts],
  ['GET', '/patterns/:name/texts/:tag.:kind', sendTexts],
  ['POST', '/patterns/:name/texts', takeTexts],
  ['POST', '/patterns/:name/take', confirmPaper],
  ['GET', '/patterns/:name/drawings', showDrawings],
  ['GET', '/patterns/:name/pages', showPages],
  ['GET', '/patterns/:name/sheet.pdf', sendSheet],
  ['GET', '/patterns/:name/web-page', sendWebPage],
  ['GET', '/patterns/:name/release', showRelease],
  ['GET', '/patterns/:name/follow', showFollow],
  ['POST', '/patterns/:name/runs', startRun],
  ['GET', '/patterns/:name/bundle.zip', sendBundle],
  ['POST', '/runs/:run/cancel', cancelRun],
  ['POST', '/runs/:run/again', runAgain],
  ['GET', '/runs/:run/events', tellRun],
  ['GET', '/files/:pattern/:version/*', sendFile],
  ['GET', '/files/:pattern/:version.zip', sendAll],
  // The same shapes as the API of the cloud; see `functions/api/openapi.json`.
  ['GET', '/api/runs/:run', apiRun],
  ['GET', '/api/runs/:run/findings', apiFindings],
  ['GET', '/api/releases/:pattern', apiPattern],
  ['GET', '/api/releases/:pattern/:version', apiManifest],
];

const ROUTES = PAGES.map(([method, address, show]) => ({ method, form: formOf(address), show }));

function formOf(address: string): RegExp {
  const source = address
    .replaceAll('.', '\\.')
    .replaceAll(':version', '(?<version>\\d{1,4}\\.\\d{1,4}\\.\\d{1,4})')
    .replaceAll(':kind', '(?<kind>xlsx|csv|xlf|tbx)')
    .replaceAll(':tag', '(?<tag>[A-Za-z0-9-]{2,20})')
    .replaceAll(':pattern', '(?<pattern>[a-z0-9-]{1,64})')
    .replaceAll(/:(\w+)/g, '(?<$1>[^/\\\\]{1,120})')
    .replace('*', '(?<path>[\\w./-]{1,200})');
  return new RegExp(`^${source}$`);
}

const isPage = (place: string): boolean =>
  ROUTES.some(({ method, form }) => method === 'GET' && form.test(decodeURI(place)));

export interface OpenDesk extends Routes {
  /** Runs at work go on when the desk is opened again. */
  stop(): void;
}

export async function openDesk(order: DeskOrder): Promise<OpenDesk> {
  const { folder, root, crew, newId, now } = order;
  const templates = path.join(root, 'templates', 'desk');
  await clearLeftovers(folder);
  const wordings = await openWordings(templates);
  const releases = path.join(folder, 'releases');
  const records = path.join(folder, '.desk', 'runs');
  let languages: Promise<ReadonlyMap<string, Language>> | undefined;
  const desk: Desk = {
    ...order,
    starters: path.join(root, 'templates', 'starters'),
    languages: () => (languages ??= loadLanguages(path.join(root, 'locales'))),
    look: openLook(crew),
    runs: await Runs.open({ folder, releases, records, crew, newId, now }),
    releases: openReleases(releases),
    waiting: new WaitingRoom(newId),
  };
  const own = openOwnFiles(templates);
  return {
    answer: (call) => answer(desk, wordings, own, call),
    refuse: (call, fault, status) => refusal(wordings(call?.languages ?? []), fault, status),
    stop() {
      desk.runs.close();
      crew.close();
    },
  };
}

async function answer(desk: Desk, wordings: Wordings, own: OwnFiles, call: Call): Promise<Answer> {
  const file = call.method === 'GET' ? await own(call.path) : undefined;
  if (file) return file;
  if (call.method === 'POST' && call.path === '/language') {
    const wanted = fieldOf(await call.form(), 'language');
    return rememberLanguage(call, wordings([wanted]).language, isPage);
  }
  for (const { method, form, show } of ROUTES) {
    const found = method === call.method ? form.exec(call.path) : null;
    if (found)
      return show(desk, { call, words: found.groups ?? {}, wording: wordings(call.languages) });
  }
  throw new Fault('missing', 'there is no such page', { place: call.path });
}

function refusal({ render, say }: Wording, fault: Fault, status: number): Answer {
  const closed = status === 401;
  const title = closed ? say('closed.title') : say('fault.title');
  const view = {
    title,
    message: closed ? say('closed.message') : fault.message,
    place: closed ? '' : (fault.place ?? ''),
    remedy: closed ? say('closed.remedy') : (fault.remedy ?? ''),
  };
  return page(render('fault', view), status);
}

/** The text of a field of a form. */
export function fieldOf(form: FormData, name: string): string {
  const value = form.get(name);
  return typeof value === 'string' ? value : '';
}
