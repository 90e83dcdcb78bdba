/**
 * A process that works for the desk: takes jobs as messages, answers each, and goes when the desk goes.
 * Started with the folder of the program's data, the program's name, the folder of the patterns and that
 * of their releases; opens its rooms only for a job that needs them.
 */
import path from 'node:path';
import { once } from '../../base/once.ts';
import { folderRoom } from '../../shelf/folder-room.ts';
import { folderReleases } from '../releases.ts';
import { CREW_JOBS, type CrewJobName } from './crew-jobs.ts';
import { type Asked, carryFault, type Said } from './messages.ts';
import { openStandings } from './standing.ts';

const [, , root = '', program = '', folder = '', released = ''] = process.argv;
const shelf = folderRoom(folder);
const standings = openStandings(shelf);
const releases = folderReleases(released);
const stops = new Map<number, AbortController>();

const rooms = once(async () => {
  const { openRooms } = await import('../../pipeline/rooms.ts');
  return openRooms({ root, program });
});

const languages = once(async () => {
  const { loadLanguages } = await import('../../language/index.ts');
  return loadLanguages(path.join(root, 'locales'));
});

// Ctrl-C reaches the whole group; only the desk decides when its workers go.
process.on('SIGINT', () => undefined);
process.on('disconnect', () => process.exit());
process.on('message', (asked: Asked) => {
  if (asked.kind === 'stop') stops.get(asked.id)?.abort();
  else void work(asked.id, asked.job, asked.ask);
});

async function work(id: number, name: CrewJobName, ask: unknown): Promise<void> {
  const stop = new AbortController();
  stops.set(id, stop);
  const say = (said: Said) => process.send?.(said);
  try {
    // Each job finds what it was asked: the crew is typed by the same table.
    const job = CREW_JOBS[name] as (asked: unknown, world: object) => Promise<unknown>;
    const answer = await job(ask, {
      rooms,
      languages,
      shelf,
      standings,
      releases,
      signal: stop.signal,
      told: (event: Extract<Said, { kind: 'told' }>['event']) => say({ kind: 'told', id, event }),
    });
    say({ kind: 'done', id, answer });
  } catch (error) {
    say({ kind: 'fault', id, fault: carryFault(error) });
  } finally {
    stops.delete(id);
  }
}
