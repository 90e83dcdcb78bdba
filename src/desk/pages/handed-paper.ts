/**
 * A spreadsheet or a translator's file that was handed in at the shelf: finds the pattern it belongs to
 * and shows there what it changes. Where several could be meant it waits, and the reader says which;
 * nothing is written here.
 */
import { Fault } from '../../base/fault.ts';
import { someAtOnce } from '../../base/some-at-once.ts';
import { PATTERN_FILE } from '../../pattern/bundle/load.ts';
import type { Dropped } from '../../shelf/handed-in.ts';
import type { Answer } from '../answer.ts';
import { page } from '../answer.ts';
import { type Asked, type Desk, fieldOf } from '../desk.ts';
import type { WaitingRoom } from '../waiting.ts';
import type { Paper } from '../work/papers.ts';
import { proposePaper } from './papers.ts';

export async function takePaper(desk: Desk, asked: Asked, dropped: Dropped): Promise<Answer> {
  const { say, minute, render } = asked.wording;
  const bytes = new Uint8Array(await dropped.arrayBuffer());
  const paper = { bytes, name: dropped.name.replace(/^.*\//, '') };
  const { part, pattern } = await desk.work.ask('paperOrigin', { paper });
  const candidates = await candidatesFor(desk, pattern);
  const [only] = candidates;
  if (!only) throw noPatternFor(pattern, paper.name);
  if (candidates.length === 1) return proposePaper(desk, onPage(asked, only.name), part, paper);
  const waits = await waitFor(desk.waiting, paper);
  const lead = pattern === undefined ? say('paper.noPattern') : say('paper.several', { pattern });
  const told = candidates.map(({ changed, ...each }) => ({ ...each, changed: changed && say('paper.changed', { when: minute(changed) }) })); // prettier-ignore
  const title = say('paper.which');
  return page(render('which-pattern', { title, file: paper.name, lead, waits, candidates: told }));
}

/** The reader has said which pattern is meant; the paper goes on waiting, should it be another. */
export async function choosePattern(desk: Desk, asked: Asked): Promise<Answer> {
  const form = await asked.call.form();
  const name = fieldOf(form, 'name');
  await desk.shelf.state(name);
  const paper = await paperWaiting(desk.waiting, fieldOf(form, 'waits'));
  const { part } = await desk.work.ask('paperOrigin', { paper });
  return proposePaper(desk, onPage(asked, name), part, paper);
}

const onPage = (asked: Asked, name: string): Asked => ({
  ...asked,
  words: { ...asked.words, name },
});

function noPatternFor(pattern: string | undefined, place: string): Fault {
  if (pattern === undefined)
    return new Fault('missing', 'no pattern lies here yet that the file could belong to', {
      place,
      remedy: 'begin from a starter or hand in a bundle first, then hand the file in again',
    });
  return new Fault('missing', `the file was made from ${pattern}, which does not lie here`, {
    place,
    remedy: 'hand in its bundle first, or hand the file in on the page of the pattern you mean',
  });
}

// ---------------------------------------------------------------- which pattern

interface Candidate {
  /** On the shelf. */
  readonly name: string;
  /** As the pattern says itself; empty where it cannot be read. */
  readonly id: string;
  readonly version: string;
  /** When it was last changed at the desk; empty where it never was. */
  readonly changed: string;
}

/** Patterns looked into at the same time. */
const AT_ONCE = 8;

/** All that lie there, or those that call themselves so. */
async function candidatesFor(
  desk: Desk,
  pattern: string | undefined,
): Promise<readonly Candidate[]> {
  const all = await someAtOnce(await desk.shelf.names(), AT_ONCE, async (name) => {
    const bytes = await desk.shelf.file(name, PATTERN_FILE).catch(() => undefined);
    return { name, ...namesIn(bytes) };
  });
  const meant = all.filter(({ id }) => pattern === undefined || id === pattern);
  return someAtOnce(meant, AT_ONCE, async (each) => {
    const history = await desk.shelf.history(each.name).catch(() => []);
    return { ...each, changed: history.at(-1)?.at ?? '' };
  });
}

/** What a pattern calls itself: of a file that may be as broken as a file can be. */
function namesIn(bytes: Uint8Array | undefined): Pick<Candidate, 'id' | 'version'> {
  let data: unknown;
  try {
    data = JSON.parse(new TextDecoder().decode(bytes));
  } catch {
    data = undefined;
  }
  const of = (key: string): string => {
    const value = (data as Readonly<Record<string, unknown>> | null | undefined)?.[key];
    return typeof value === 'string' ? value : '';
  };
  return { id: of('id'), version: of('version') };
}

// ---------------------------------------------------------------- waiting

/** Papers wait where changes do, as text, and for no pattern yet: none has an empty name. */
const NO_PATTERN = '';

const waitFor = (room: WaitingRoom, { bytes, name }: Paper): Promise<string> =>
  room.put({
    pattern: NO_PATTERN,
    replacement: {
      file: name,
      tag: undefined,
      bytes: new TextEncoder().encode(Buffer.from(bytes).toString('base64')),
      said: '',
    },
  });

async function paperWaiting(room: WaitingRoom, waits: string): Promise<Paper> {
  const { file, bytes } = await room.look(waits, NO_PATTERN);
  const kept = Buffer.from(new TextDecoder().decode(bytes), 'base64');
  return { name: file, bytes: new Uint8Array(kept) };
}
