/**
 * The HTTP API: one table from the routes of `openapi.json` to what serves them. Takes requests whose token
 * the gateway has checked; whatever goes wrong is answered as problem details and never tells its inside.
 */
import { SFNClient } from '@aws-sdk/client-sfn';
import type { Context } from 'aws-lambda';
import { Fault } from '../../src/base/fault.ts';
import { openClient, openSigner } from '../../src/store/s3-client.ts';
import { environment } from '../environment.ts';
import { log, traced, watched } from '../telemetry.ts';
import { ownTrouble, Refusal, refusalOf } from '../../src/desk/api/refusal.ts';
import { type Answer, type Call, problem, readCall, readStudio } from './call.ts';
import {
  accept,
  correct,
  listAway,
  layBundle,
  listBundles,
  listStarters,
  putAway,
  replace,
  showBundle,
  takeBack,
  undo,
} from './bundles.ts';
import { type Clients, type Desk, openDesk } from './desk.ts';
import { findDraft, openDraft } from './drafts.ts';
import { listReleases, openDownload, showPattern, showRelease } from './releases.ts';
import { startRun, stopRun } from './run-orders.ts';
import { listRuns, showFindings, showRun } from './runs.ts';
import { findUpload, openUpload } from './uploads.ts';
import { findZip, makeZip } from './zips.ts';

type Route = (call: Call, desk: Desk) => Promise<Answer>;

export const ROUTES: Readonly<Record<string, Route>> = {
  'POST /uploads': openUpload,
  'GET /uploads/{upload}': findUpload,
  'GET /bundles': listBundles,
  'POST /bundles': layBundle,
  'GET /starters': listStarters,
  'GET /bundles/{bundle}': showBundle,
  'POST /bundles/{bundle}/corrections': correct,
  'POST /bundles/{bundle}/acceptances': accept,
  'POST /bundles/{bundle}/replacements': replace,
  'POST /bundles/{bundle}/undo': undo,
  'POST /bundles/{bundle}/away': putAway,
  'GET /away': listAway,
  'POST /away/{bundle}/back': takeBack,
  'POST /bundles/{bundle}/runs': startRun,
  'POST /drafts': openDraft,
  'GET /drafts/{draft}': findDraft,
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

const clients: Clients = {
  storage: traced(openClient()),
  signer: openSigner(),
  machines: traced(new SFNClient({ maxAttempts: 4 })),
};

export const handler = (event: unknown, context: Partial<Context> = {}): Promise<Answer> =>
  watched('api', context, () => serve(event));

async function serve(event: unknown): Promise<Answer> {
  try {
    const studio = readStudio(event, environment('STUDIO_CLAIM'));
    const call = readCall(event);
    const route = Object.hasOwn(ROUTES, call.route) ? ROUTES[call.route] : undefined;
    if (route === undefined) throw new Refusal(404, 'There is no such route');
    return await route(call, openDesk(studio, clients));
  } catch (error) {
    const refusal = error instanceof Fault ? refusalOf(error) : error;
    if (refusal instanceof Refusal) return problem(refusal);
    log.error('request failed', { error: error instanceof Error ? error.name : 'unknown' });
    return problem(ownTrouble(error));
  }
}
