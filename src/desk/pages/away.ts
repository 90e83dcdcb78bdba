/**
 * A pattern put away and taken back. A page asks once before it leaves the shelf, so that no slip of a hand
 * does it; the shelf lists what was put away, each with its way back.
 */
import { Fault } from '../../base/fault.ts';
import { type Answer, page, seeOther } from '../answer.ts';
import type { Asked, Desk } from '../desk.ts';
import type { Wording } from '../wording.ts';
import { frameOf } from './frame.ts';

export const askPutAway = (desk: Desk, asked: Asked): Promise<Answer> => askingPage(desk, asked);

async function askingPage(desk: Desk, asked: Asked, refused?: Fault): Promise<Answer> {
  const { words, wording } = asked;
  const name = words['name'] ?? '';
  const looked = await desk.look(name);
  const view = {
    ...frameOf(looked, name, 'findings', wording.say),
    slip: refused && { ...wording.fault(refused), typed: '' },
  };
  return page(wording.render('put-away', view), refused ? 409 : 200);
}

export async function putAway(desk: Desk, asked: Asked): Promise<Answer> {
  const name = asked.words['name'] ?? '';
  try {
    await desk.shelf.putAway(name);
  } catch (error) {
    if (error instanceof Fault && error.kind === 'conflict') return askingPage(desk, asked, error);
    throw error;
  }
  return seeOther(`/?away=${encodeURIComponent(name)}`);
}

export async function takeBack(desk: Desk, { words }: Asked): Promise<Answer> {
  const name = await desk.shelf.takeBack(words['name'] ?? '');
  return seeOther(`/patterns/${encodeURIComponent(name)}`);
}

/** What was put away, for the shelf; `done` tells of the one that just was. */
export async function awayView(desk: Desk, { call, wording }: Asked): Promise<object> {
  const away = await desk.shelf.away();
  const just = away.find(({ name }) => name === call.query.get('away'))?.name;
  return {
    away: away.map((each) => entryOf(each, wording)),
    done: just === undefined ? '' : wording.say('away.done', { name: just }),
  };
}

const entryOf = ({ name, at }: { name: string; at: string }, { say, day }: Wording) => ({
  name,
  since: say('away.since', { day: day(at.slice(0, 10)) }),
  address: `/patterns/${encodeURIComponent(name)}/back`,
});
