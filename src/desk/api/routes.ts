/**
 * The API of the cloud on this machine, below `/api`: the same routes, words and answers
 * (`functions/api/openapi.json`), over the same ports as the pages. In the cloud the pages serve none of it:
 * there the API stands at the gateway, behind its authoriser. Uploads and drafts are the cloud's alone.
 */
import { Fault } from '../../base/fault.ts';
import { type Answer, bytes, type Call } from '../answer.ts';
import type { Desk } from '../desk.ts';
import { mostBytesOf, tooLong } from './asked.ts';
import {
  accept,
  correct,
  layBundle,
  listAway,
  listBundles,
  listStarters,
  putAway,
  replace,
  sendBundleFile,
  showBundle,
  takeBack,
  undo,
} from './bundles.ts';
import { ownTrouble, PROBLEM_TYPE, problemText, Refusal, refusalOf } from './refusal.ts';
import {
  findZip,
  listReleases,
  makeZip,
  openDownload,
  showPattern,
  showRelease,
} from './releases.ts';
import { listRuns, showFindings, showRun, startRun, stopRun } from './runs.ts';

/** A request as the routes see it. */
export interface Order {
  /** What stands for the braces of the route. */
  readonly words: Readonly<Record<string, string>>;
  readonly query: Readonly<Record<string, string>>;
  readonly body: string;
  readonly now: Date;
}

type Serve = (desk: Desk, order: Order) => Promise<Answer>;

export const API_ROUTES: Readonly<Record<string, Serve>> = {
  'GET /bundles': listBundles,
  'POST /bundles': layBundle,
  'GET /starters': listStarters,
  'GET /bundles/{bundle}': showBundle,
  // Where the addresses of `showBundle` lead; the cloud signs addresses of its store instead.
  'GET /bundles/{bundle}/file': sendBundleFile,
  'POST /bundles/{bundle}/corrections': correct,
  'POST /bundles/{bundle}/acceptances': accept,
  'POST /bundles/{bundle}/replacements': replace,
  'POST /bundles/{bundle}/undo': undo,
  'POST /bundles/{bundle}/away': putAway,
  'GET /away': listAway,
  'POST /away/{bundle}/back': takeBack,
  'POST /bundles/{bundle}/runs': startRun,
  'GET /runs': listRuns,
  'GET /runs/{run}': showRun,
  'GET /runs/{run}/findings': showFindings,
  'POST /runs/{run}/stop': stopRun,
  'GET /releases': listReleases,
  'GET /releases/{pattern}': showPattern,
  'GET /releases/{pattern}/{version}': showRelease,
  'GET /releases/{pattern}/{version}/download': openDownload,
  'POST /releases/{pattern}/{version}/zip': makeZip,
  'GET /releases/{pattern}/{version}/zip': findZip,
};

const ROUTES = Object.entries(API_ROUTES).map(([route, serve]) => {
  const [method = '', path = ''] = route.split(' ');
  const form = new RegExp(`^/api${path.replaceAll(/\{(\w+)\}/g, '(?<$1>[^/\\\\]{1,120})')}$`);
  return { route, method, form, serve };
});

/** Nothing where the address is none of the API. */
export async function answerApi(desk: Desk, call: Call, now: Date): Promise<Answer | undefined> {
  if (!call.path.startsWith('/api/')) return undefined;
  try {
    return await serve(desk, call, now);
  } catch (error) {
    const refusal = error instanceof Fault ? refusalOf(error) : error;
    if (refusal instanceof Refusal) return problem(refusal);
    console.error(error);
    return problem(ownTrouble(error));
  }
}

async function serve(desk: Desk, call: Call, now: Date): Promise<Answer> {
  for (const { route, method, form, serve: answer } of ROUTES) {
    const found = method === call.method ? form.exec(call.path) : null;
    if (!found) continue;
    const most = mostBytesOf(route);
    const body = method === 'POST' ? await call.body(most) : '';
    if (body === undefined) throw tooLong(most);
    const query = Object.fromEntries(call.query);
    return answer(desk, { words: found.groups ?? {}, query, body, now });
  }
  throw new Refusal(404, 'There is no such route');
}

const problem = (refusal: Refusal): Answer => ({
  ...bytes(problemText(refusal), PROBLEM_TYPE),
  status: refusal.status,
});
