/**
 * The desk of one person for one request: every port over the API with her token. What was worked out is
 * remembered beyond the request by what it was worked out from: the state of a bundle is the hash of all
 * its files, so that whoever may name it may know what follows from it.
 */
import type { Desk } from '../../src/desk/desk.ts';
import { type Look, openLook } from '../../src/desk/look.ts';
import { JOBS, type JobWorld, type Work } from '../../src/desk/work/jobs.ts';
import { openStandings, type Remembered } from '../../src/desk/work/standing.ts';
import type { Language } from '../../src/language/index.ts';
import type { OpenedRooms } from '../../src/pipeline/rooms.ts';
import type { Api } from './client.ts';
import type { Studio } from './pages.ts';
import { draftWaitingRoom } from './ports/drafts.ts';
import type { FileMemory } from './ports/file-memory.ts';
import { apiReleases } from './ports/releases.ts';
import { apiRuns } from './ports/runs.ts';
import { apiShelf } from './ports/shelf.ts';
import type { Wire } from './request.ts';

/** What lives as long as the process. */
export interface StudioOrder {
  readonly fetch: Wire;
  readonly rooms: () => Promise<OpenedRooms>;
  readonly languages: () => Promise<ReadonlyMap<string, Language>>;
  readonly files: FileMemory;
  readonly standings: Map<string, Remembered>;
}

export function openStudio(order: StudioOrder, api: Api): Studio {
  const { fetch: send, rooms, languages } = order;
  const shelf = apiShelf({ api, fetch: send, memory: order.files });
  const releases = apiReleases({ api, fetch: send, memory: order.files });
  const standings = openStandings(shelf, order.standings, REMEMBERED);
  const work = inThisProcess({ rooms, languages, shelf, standings, releases });
  const delivery = { api, fetch: send };
  const desk: Desk = {
    shelf,
    work,
    look: lookOnce(openLook(shelf, work)),
    runs: apiRuns(api),
    releases,
    waiting: draftWaitingRoom(delivery),
    languages,
    arrivals: {
      kind: 'elsewhere',
      open: () => api.openUpload(),
      takeUpload: (upload) => api.takeUpload(upload),
    },
  };
  return { desk, delivery };
}

/** Patterns of whoever comes to this process. */
const REMEMBERED = 8;

/** What is known is known of this request: asking for the state of every pattern would tell nothing. */
const lookOnce = (look: Look): Look =>
  Object.assign((name: string) => look(name), { known: () => Promise.resolve(undefined) });

/** A function serves one request at a time: nothing waits while it works. */
const inThisProcess = (world: JobWorld): Work => ({
  ask: (job, ask) => JOBS[job](ask, world),
});
