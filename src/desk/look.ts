/**
 * A pattern as it lies there now, looked at with every check. Takes its folder; gives its texts, findings
 * and the worked pattern, and remembers them as long as no file changes, so that a page costs nothing
 * twice. The work is done elsewhere; no photograph is kept here.
 */
import type { Finding } from '../findings/finding.ts';
import { signatureOf } from './signature.ts';
import type { Crew } from './work/crew.ts';
import type { LookedAt } from './work/jobs.ts';

export interface Looked extends LookedAt {
  /** The state of the folder this was seen in. */
  readonly seen: string;
  /** Findings of the languages; asked for once. */
  languages(): Promise<readonly Finding[]>;
}

export interface Look {
  (folder: string): Promise<Looked>;
  /** What is known of the folder as it is now, without looking at it. */
  known(folder: string): Promise<Looked | undefined>;
}

interface Known {
  readonly seen: string;
  readonly looked: Promise<Looked>;
}

/** Worked patterns of a long shelf are let go again, the one longest unused first. */
const REMEMBERED = 24;

export function openLook(crew: Crew): Look {
  const all = new Map<string, Known>();
  const remember = (folder: string, known: Known) => {
    all.delete(folder);
    all.set(folder, known);
    for (const old of [...all.keys()].slice(0, -REMEMBERED)) all.delete(old);
  };
  const find = async (folder: string): Promise<Known | string> => {
    const seen = await signatureOf(folder);
    const before = all.get(folder);
    return before?.seen === seen ? before : seen;
  };
  const look = async (folder: string): Promise<Looked> => {
    const found = await find(folder);
    if (typeof found !== 'string') {
      remember(folder, found);
      return found.looked;
    }
    const looked = lookAt(folder, found, crew);
    remember(folder, { seen: found, looked });
    // What could not be read is tried again the next time.
    looked.catch(() => all.delete(folder));
    return looked;
  };
  const known = async (folder: string) => {
    const found = await find(folder);
    return typeof found === 'string' ? undefined : found.looked;
  };
  return Object.assign(look, { known });
}

async function lookAt(folder: string, seen: string, crew: Crew): Promise<Looked> {
  const looked = await crew.ask('look', { folder });
  let said: Promise<readonly Finding[]> | undefined;
  const languages = () => {
    said ??= crew.ask('languages', { folder });
    said.catch(() => (said = undefined));
    return said;
  };
  return { ...looked, seen, languages };
}
