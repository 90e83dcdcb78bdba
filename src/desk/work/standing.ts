/**
 * A pattern as it lies on the shelf now, loaded and worked in every size. Takes the shelf; gives the same
 * answer as long as no file changes, so that a page costs nothing twice. Knows nothing of pages.
 */
import type { Finding } from '../../findings/finding.ts';
import { loadBundle } from '../../pattern/bundle/load.ts';
import type { BundleFiles } from '../../pattern/bundle/unpack.ts';
import { checkPattern } from '../../pattern/checks/index.ts';
import type { Bundle, CheckedPattern } from '../../pattern/pattern.ts';
import type { Shelf } from '../../shelf/shelf.ts';
import { unreadFault } from '../unread.ts';

/** What a pattern comes to: its bundle without the bytes of photographs, worked in every size. */
export interface LookedAt {
  readonly bundle: Bundle | undefined;
  readonly checked: CheckedPattern | undefined;
  readonly findings: readonly Finding[];
  /** Bytes of the JSON files, by path in the bundle. */
  readonly texts: BundleFiles;
}

/** As a job works on it: with its photographs. */
export interface Standing extends LookedAt {
  readonly files: BundleFiles;
}

export interface Standings {
  of(name: string): Promise<Standing>;
  /** A fault where the pattern cannot be read yet. */
  readable(name: string): Promise<CheckedPattern>;
}

/** Patterns at which the last jobs looked; a desk has one or two open. */
const REMEMBERED = 2;

export interface Remembered {
  readonly state: string;
  readonly standing: Promise<Standing>;
}

/** `memory` may outlive the shelf where a state names the content of a bundle for good. */
export function openStandings(
  shelf: Pick<Shelf, 'files' | 'state'>,
  memory = new Map<string, Remembered>(),
  most = REMEMBERED,
): Standings {
  const of = async (name: string): Promise<Standing> => {
    const state = await shelf.state(name);
    const before = memory.get(name);
    if (before?.state === state) return before.standing;
    const standing = shelf.files(name).then(lookAt);
    memory.delete(name);
    memory.set(name, { state, standing });
    // What could not be read is tried again the next time.
    standing.catch(() => memory.delete(name));
    for (const old of [...memory.keys()].slice(0, -most)) memory.delete(old);
    return standing;
  };
  return {
    of,
    async readable(name) {
      const { checked } = await of(name);
      if (checked) return checked;
      throw unreadFault();
    },
  };
}

function lookAt(files: BundleFiles): Standing {
  const texts = new Map([...files].filter(([name]) => name.endsWith('.json')));
  const { bundle, findings } = loadBundle(files);
  const checked = bundle && checkPattern(bundle);
  const all = [...findings, ...(checked?.findings ?? [])];
  return { files, texts, bundle, checked, findings: all };
}

/** What travels between processes and is kept for pages: photographs stay where they were read. */
export function withoutPhotos({ bundle, checked, findings, texts }: Standing): LookedAt {
  const bare = bundle && { ...bundle, photos: new Map<string, Uint8Array>() };
  return {
    bundle: bare,
    checked: checked && bare && { ...checked, pattern: { ...checked.pattern, bundle: bare } },
    findings,
    texts,
  };
}
