/**
 * The desk of this machine: patterns in a folder, releases in it, the slow work in processes of its own.
 * Takes the folder and who works; gives the routes that the server calls.
 */
import path from 'node:path';
import { Fault } from '../base/fault.ts';
import { once } from '../base/once.ts';
import { loadLanguages } from '../language/index.ts';
import { clearLeftovers, folderRoom } from '../shelf/folder-room.ts';
import { readHandedIn } from '../shelf/handed-in.ts';
import { openShelf } from '../shelf/open-shelf.ts';
import type { Shelf } from '../shelf/shelf.ts';
import { answerApi } from './api/routes.ts';
import type { Desk } from './desk.ts';
import { LocalRuns } from './local-runs.ts';
import { openLook } from './look.ts';
import { folderReleases } from './releases.ts';
import { openPages } from './routes.ts';
import type { Runs } from './runs.ts';
import type { Routes } from './server.ts';
import { openWaitingRoom } from './waiting.ts';
import { openCrew, type WorkerStart } from './work/crew.ts';

export interface DeskOrder {
  /** Holds the patterns, one folder each; releases go to `releases/` in it. */
  readonly folder: string;
  /** Holds `templates/desk`, `templates/starters` and `locales`. */
  readonly root: string;
  /** How a process is started that does what takes longer than a page may wait. */
  readonly worker: WorkerStart;
  readonly newId: () => string;
  readonly now: () => Date;
}

export interface OpenDesk extends Routes {
  /** Runs at work go on when the desk is opened again. */
  stop(): void;
}

export async function openLocalDesk(order: DeskOrder): Promise<OpenDesk> {
  const { folder, root, worker, newId, now } = order;
  await clearLeftovers(folder);
  const released = path.join(folder, 'releases');
  const room = folderRoom(folder);
  const whole = openShelf({ room, starters: path.join(root, 'templates', 'starters'), now });
  const crew = openCrew({ ...worker, args: [...worker.args, folder, released] });
  const records = path.join(folder, '.desk', 'runs');
  const runs = await LocalRuns.open({
    folder,
    shelf: whole,
    releases: released,
    records,
    crew,
    newId,
    now,
  });
  const shelf = withoutRunsAtWork(whole, runs);
  const desk: Desk = {
    shelf,
    work: crew,
    look: openLook(shelf, crew),
    runs,
    releases: folderReleases(released),
    waiting: openWaitingRoom(newId),
    languages: once(() => loadLanguages(path.join(root, 'locales'))),
    arrivals: {
      kind: 'here',
      folder,
      async take(dropped) {
        const { wanted, files } = await readHandedIn(dropped);
        return room.keep(wanted, files);
      },
    },
  };
  const pages = await openPages({ templates: path.join(root, 'templates', 'desk') });
  return {
    answer: async (call) =>
      (await pages.forAnybody(call)) ??
      (await answerApi(desk, call, now())) ??
      pages.answer(desk, call),
    refuse: (call, fault, status) => pages.refuse(call, fault, status),
    stop() {
      runs.close();
      crew.close();
    },
  };
}

/** A run reads its pattern where it lies, so that it must have ended before the pattern is put away. */
const withoutRunsAtWork = (shelf: Shelf, runs: Pick<Runs, 'of'>): Shelf => ({
  ...shelf,
  async putAway(name) {
    if ((await runs.of(name)).some(({ state }) => state === 'working'))
      throw new Fault('conflict', 'this pattern is being published at this very moment', {
        place: name,
        remedy: 'wait until the run has ended, or stop it; then put the pattern away',
      });
    return shelf.putAway(name);
  },
});
