/**
 * What would be found if a change were made: the pattern with one file as it would be, checked like any
 * other. Takes the pattern as it stands and the file; gives the findings it has not now. Writes nothing.
 */
import type { Finding } from '../../findings/finding.ts';
import { loadBundle, PATTERN_FILE } from '../../pattern/bundle/load.ts';
import { checkPattern } from '../../pattern/checks/index.ts';
import type { Standing } from './standing.ts';

export function tryPattern(
  { files, findings }: Pick<Standing, 'files' | 'findings'>,
  pattern: Uint8Array,
): readonly Finding[] {
  const then = loadBundle(new Map([...files, [PATTERN_FILE, pattern]]));
  const all = [...then.findings, ...(then.bundle ? checkPattern(then.bundle).findings : [])];
  const known = new Set(findings.map(identityOf));
  return all.filter((each) => !known.has(identityOf(each)));
}

/** The same fault at the same place, in the same sizes. */
const identityOf = ({ code, where, sizes }: Finding): string =>
  JSON.stringify([code, where.pointer, where.span ?? null, sizes ?? null]);
