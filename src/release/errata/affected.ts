/**
 * Which buyers' versions have the errors that a new version corrects. Takes what changed since the last
 * version and, for each earlier one, what changed since that; a version that read as the new one does in
 * every corrected place never had the errors.
 */
import { type Change, isCorrection } from './changes.ts';

export interface ComparedVersion {
  readonly version: string;
  /** What changed from it to the new version. */
  readonly changes: readonly Change[];
}

export interface Concerned {
  /** In the order given. */
  readonly affected: readonly string[];
  readonly unaffected: readonly string[];
}

/** The version before the new one comes first; what its buyers must correct is looked for in all. */
export function concernedVersions(compared: readonly ComparedVersion[]): Concerned {
  const [last] = compared;
  const corrected = new Set(last?.changes.filter(isCorrection).map(nameOf));
  const has = ({ changes }: ComparedVersion): boolean =>
    changes.some((change) => isCorrection(change) && corrected.has(nameOf(change)));
  const all = (affected: boolean) =>
    compared.filter((each) => has(each) === affected).map(({ version }) => version);
  return { affected: all(true), unaffected: corrected.size === 0 ? [] : all(false) };
}

/** What is corrected, whatever stood there before. */
function nameOf(change: Change): string {
  if (change.kind === 'line') {
    const { piece, section, label, is } = change;
    return ['line', piece, section, label, is === '' ? change.was : is].join('\n');
  }
  if (change.kind === 'text') return ['text', change.key].join('\n');
  return [change.kind, change.name, change.is].join('\n');
}
