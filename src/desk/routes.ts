/**
 * Every address of the desk and what answers it, on this machine and in the cloud. Takes a call and the
 * desk of whoever calls; gives the page, or the fault as a page. Names in an address reach bundles only
 * through the shelf and files only through manifests, which know what is there.
 */
import { Fault } from '../base/fault.ts';
import { type Answer, type Call, decodePath, page } from './answer.ts';
import { rememberLanguage } from './chosen-language.ts';
import { type Desk, fieldOf, type Page } from './desk.ts';
import { openOwnFiles, type OwnFiles } from './own-files.ts';
import { askPutAway, putAway, takeBack } from './pages/away.ts';
import { correctValue, acceptWarning, undoLast } from './pages/changes.ts';
import { showDrawings } from './pages/drawings.ts';
import { showFindings, showLanguages } from './pages/findings.ts';
import { choosePattern } from './pages/handed-paper.ts';
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
import { showReleased } from './pages/released.ts';
import { showMade } from './pages/made.ts';
import { showFollow, showRelease } from './pages/release.ts';
import { sendEditorPacket, sendTestPacket, takeResults } from './pages/people.ts';
import { showStages } from './pages/stages.ts';
import { showRule, writeRule } from './pages/rule.ts';
import { cancelRun, runAgain, startRun, tellRun } from './pages/runs.ts';
import { sendAll, sendFile } from './pages/files.ts';
import {
  begin,
  handIn,
  renewHandIn,
  sendBundle,
  sendCover,
  showShelf,
  showStanding,
  takeUploaded,
} from './pages/shelf.ts';
import { proposeTying } from './pages/tying.ts';
import { openWordings, type Wording, type Wordings } from './wording.ts';

const PAGES: readonly (readonly [Call['method'], string, Page])[] = [
  ['GET', '/', showShelf],
  ['POST', '/begin', begin],
  ['POST', '/hand-in', handIn],
  ['POST', '/hand-in/pattern', choosePattern],
  ['GET', '/hand-in/form', renewHandIn],
  ['GET', '/handed-in/:upload', takeUploaded],
  ['GET', '/patterns/:name', showFindings],
  ['GET', '/patterns/:name/standing', showStanding],
  ['GET', '/patterns/:name/cover', sendCover],
  ['GET', '/patterns/:name/languages', showLanguages],
  ['POST', '/patterns/:name/correct', correctValue],
  ['POST', '/patterns/:name/accept', acceptWarning],
  ['POST', '/patterns/:name/undo', undoLast],
  ['GET', '/patterns/:name/away', askPutAway],
  ['POST', '/patterns/:name/away', putAway],
  ['POST', '/patterns/:name/back', takeBack],
  ['GET', '/patterns/:name/numbers', showNumbers],
  ['GET', '/patterns/:name/rule', showRule],
  ['POST', '/patterns/:name/rule', writeRule],
  ['GET', '/patterns/:name/pins', showPins],
  ['GET', '/patterns/:name/numbers.:kind', sendNumbers],
  ['POST', '/patterns/:name/sheet', takeNumbers],
  ['GET', '/patterns/:name/translations', showTranslations],
  ['GET', '/patterns/:name/texts/new.:kind', sendTexts],
  ['GET', '/patterns/:name/texts/:tag.:kind', sendTexts],
  ['POST', '/patterns/:name/texts', takeTexts],
  ['POST', '/patterns/:name/tie', proposeTying],
  ['POST', '/patterns/:name/take', confirmPaper],
  ['GET', '/patterns/:name/drawings', showDrawings],
  ['GET', '/patterns/:name/pages', showPages],
  ['GET', '/patterns/:name/sheet.pdf', sendSheet],
  ['GET', '/patterns/:name/web-page', sendWebPage],
  ['GET', '/patterns/:name/release', showRelease],
  ['GET', '/patterns/:name/made/:version', showMade],
  ['GET', '/patterns/:name/stages', showStages],
  ['GET', '/patterns/:name/packet/editor.zip', sendEditorPacket],
  ['POST', '/patterns/:name/packet/editor.zip', sendEditorPacket],
  ['GET', '/patterns/:name/packet/test.zip', sendTestPacket],
  ['POST', '/patterns/:name/results', takeResults],
  ['GET', '/patterns/:name/follow', showFollow],
  ['POST', '/patterns/:name/runs', startRun],
  ['GET', '/patterns/:name/bundle.zip', sendBundle],
  ['GET', '/released/:pattern', showReleased],
  ['POST', '/runs/:run/cancel', cancelRun],
  ['POST', '/runs/:run/again', runAgain],
  ['GET', '/runs/:run/events', tellRun],
  ['GET', '/files/:pattern/:version/*', sendFile],
  ['GET', '/files/:pattern/:version.zip', sendAll],
];

/** A version, or a proof or test copy of it by its name. */
const VERSION = '\\d{1,4}\\.\\d{1,4}\\.\\d{1,4}(-(proof|test)-[1-9]\\d{0,3})?';

/** Every address of the table, with the names of the words it leaves open. */
export const DESK_ADDRESSES: readonly (readonly [Call['method'], string])[] = PAGES.map(
  ([method, address]) => [method, address],
);

const ROUTES = PAGES.map(([method, address, show]) => ({ method, form: formOf(address), show }));

function formOf(address: string): RegExp {
  const source = address
    .replaceAll('.', '\\.')
    .replaceAll(':version', `(?<version>${VERSION})`)
    .replaceAll(':kind', '(?<kind>xlsx|csv|xlf|tbx)')
    .replaceAll(':tag', '(?<tag>[A-Za-z0-9-]{2,20})')
    .replaceAll(':pattern', '(?<pattern>[a-z0-9-]{1,64})')
    .replaceAll(/:(\w+)/g, '(?<$1>[^/\\\\]{1,120})')
    .replace('*', '(?<path>[\\w./-]{1,200})');
  return new RegExp(`^${source}$`);
}

function isPage(place: string): boolean {
  let path: string;
  try {
    path = decodePath(place);
  } catch {
    return false;
  }
  return ROUTES.some(({ method, form }) => method === 'GET' && form.test(path));
}

/** The pages over their templates, for any desk. */
export interface Pages {
  readonly wordings: Wordings;
  /** Whether a path, as it is sent, leads to a page. */
  isPage(path: string): boolean;
  /** A file of the desk's own, or the choice of a language: nothing of anybody's. */
  forAnybody(call: Call): Promise<Answer | undefined>;
  answer(desk: Desk, call: Call): Promise<Answer>;
  /** A refusal or a fault as a page. */
  refuse(call: Pick<Call, 'languages'> | undefined, fault: Fault, status: number): Answer;
}

export interface PagesOrder {
  /** `templates/desk`. */
  readonly templates: string;
  /** Every page has a way out of the desk. */
  readonly leaves?: boolean;
}

export async function openPages({ templates, leaves = false }: PagesOrder): Promise<Pages> {
  const wordings = await openWordings(templates, { leaves });
  const own = openOwnFiles(templates);
  return {
    wordings,
    isPage,
    forAnybody: (call) => forAnybody(wordings, own, call),
    answer: (desk, call) => answer(desk, wordings, call),
    refuse: (call, fault, status) => refusal(wordings(call?.languages ?? []), fault, status),
  };
}

async function forAnybody(
  wordings: Wordings,
  own: OwnFiles,
  call: Call,
): Promise<Answer | undefined> {
  if (call.method === 'GET') return own(call.path);
  if (call.path !== '/language') return undefined;
  const wanted = fieldOf(await call.form(), 'language');
  return rememberLanguage(call, wordings([wanted]).language, isPage);
}

async function answer(desk: Desk, wordings: Wordings, call: Call): Promise<Answer> {
  for (const { method, form, show } of ROUTES) {
    const found = method === call.method ? form.exec(call.path) : null;
    if (found)
      return show(desk, { call, words: found.groups ?? {}, wording: wordings(call.languages) });
  }
  throw new Fault('missing', 'there is no such page', { place: call.path });
}

function refusal({ render, say, fault }: Wording, thrown: Fault, status: number): Answer {
  const closed = status === 401;
  const { message, place, remedy } = fault(thrown);
  const title = closed ? say('closed.title') : say('fault.title');
  const view = {
    title,
    message: closed ? say('closed.message') : message,
    place: closed ? '' : place,
    remedy: closed ? say('closed.remedy') : remedy,
    closed,
  };
  // Whoever is turned away has no way on, and no language to choose: there is the browser's own.
  if (closed) return page(render('fault', { ...view, choices: [] }), status);
  return page(render('fault', view), status);
}
