/**
 * A pattern as it lies there now, looked at with every check. Takes its name on the shelf; gives its texts, findings
 * and the worked pattern, and remembers them as long as no file changes, so that a page costs nothing
 * twice. The work is done elsewhere; no photograph is kept here.
 */
import type { Finding } from '../findings/finding.ts';
import type { Shelf } from '../shelf/shelf.ts';
import type { Work } from './work/jobs.ts';
import type { LookedAt } from './work/standing.ts';

export interface Looked extends LookedAt {
  /** The state of the bundle this was seen in. */
  readonly seen: string;
  /** Findings of one language, or of all together; each asked for once. */
  languages(tag?: string): Promise<readonly Finding[]>;
}

export interface Look {
  (name: string): Promise<Looked>;
  /** What is known of the bundle as it is now, without looking at it. */
  known(name: string): Promise<Looked | undefined>;
}

interface Known {
  readonly seen: string;
  readonly looked: Promise<Looked>;
}

/** Worked patterns of a long shelf are let go again, the one longest unused first. */
const REMEMBERED = 24;

export function openLook(shelf: Pick<Shelf, 'state'>, work: Work): Look {
  const all = new Map<string, Known>();
  const remember = (name: string, known: Known) => {
    all.delete(name);
    all.set(name, known);
    for (const old of [...all.keys()].slice(0, -REMEMBERED)) all.delete(old);
  };
  const find = async (name: string): Promise<Known | string> => {
    const seen = await shelf.state(name);
    const before = all.get(name);
    return before?.seen === seen ? before : seen;
  };
  const look = async (name: string): Promise<Looked> => {
    const found = await find(name);
    if (typeof found !== 'string') {
      remember(name, found);
      return found.looked;
    }
    const looked = lookAt(name, found, work);
    remember(name, { seen: found, looked });
    // What could not be read is tried again the next time.
    looked.catch(() => all.delete(name));
    return looked;
  };
  const known = async (name: string) => {
    const found = await find(name);
    return typeof found === 'string' ? undefined : found.looked;
  };
  return Object.assign(look, { known });
}

async function lookAt(name: string, seen: string, work: Work): Promise<Looked> {
  const looked = await work.ask('look', { name });
  const said = new Map<string, Promise<readonly Finding[]>>();
  const inOne = (tag: string) => {
    const before = said.get(tag);
    if (before) return before;
    const asked = work.ask('languages', { name, tag });
    said.set(tag, asked);
    asked.catch(() => said.delete(tag));
    return asked;
  };
  const languages = async (tag?: string) => {
    if (tag !== undefined) return inOne(tag);
    const all = looked.bundle?.data.languages ?? [];
    return (await Promise.all(all.map(inOne))).flat();
  };
  return { ...looked, seen, languages };
}
