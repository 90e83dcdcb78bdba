/**
 * How much a version number must rise for what changed: a correction raises the last number, a new size
 * or language the middle one, a pattern that lost a size or was rebuilt the first (Semantic Versioning
 * 2.0.0; what counts as which is a house choice). Takes both patterns' data, gives advice or nothing.
 */
import type { BundleData } from '../../pattern/bundle/schema.ts';
import { compareVersions as orderOf } from '../manifest.ts';

export type Step = 'major' | 'minor' | 'patch';

export interface VersionAdvice {
  readonly problem: string;
  /** The smallest version that will do. */
  readonly least: string;
}

export function stepFor(old: BundleData, now: BundleData): Step {
  const lostSize = old.sizes.some((size) => !now.sizes.includes(size));
  const lostPiece = old.pieces.some(({ id }) => !now.pieces.some((piece) => piece.id === id));
  if (lostSize || lostPiece) return 'major';
  const added =
    now.sizes.length > old.sizes.length ||
    now.languages.some((tag) => !old.languages.includes(tag));
  return added ? 'minor' : 'patch';
}

export function leastVersion(version: string, step: Step): string {
  const [major = 0, minor = 0, patch = 0] = version.split('.').map(Number);
  if (step === 'major') return `${major + 1}.0.0`;
  if (step === 'minor') return `${major}.${minor + 1}.0`;
  return `${major}.${minor}.${patch + 1}`;
}

/** Advice where the new version is too small for the change; undefined where it will do. */
export function adviseVersion(old: BundleData, now: BundleData): VersionAdvice | undefined {
  const step = stepFor(old, now);
  const least = leastVersion(old.version, step);
  if (orderOf(now.version, least) >= 0) return undefined;
  const why = {
    major: 'a size or a piece is gone',
    minor: 'a size or a language was added',
    patch: 'the pattern changed',
  }[step];
  return { problem: `version ${now.version} is too small: ${why} since ${old.version}`, least };
}
