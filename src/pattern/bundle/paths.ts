/**
 * Names of files inside a bundle. A name comes from a zip of unknown origin: it may climb out of the
 * folder, be absolute, hide control or direction characters, or equal another but for letter case.
 * Takes a name, gives it in normal form C, or the reason it is refused.
 */
import { BUNDLE_LIMITS } from '../../base/limits.ts';
import { findRefused } from './characters.ts';

/** Names Windows keeps for devices, whatever the extension (Microsoft, "Naming Files, Paths"). */
const DEVICES = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i;
const FORBIDDEN_MARKS = /[\\:*?"<>|]/;

/** What operating systems leave in folders and zips; skipped without a word. */
const CLUTTER = /(^|\/)(__MACOSX|\.[^/]*|Thumbs\.db|desktop\.ini)(\/|$)/;

export const isClutter = (name: string): boolean => CLUTTER.test(name) && !name.includes('..');

export function checkName(name: string): { readonly name: string } | { readonly problem: string } {
  const tidy = name.normalize('NFC');
  const refused = findRefused(tidy, { prose: false });
  if (refused) return { problem: `holds ${refused.character}, ${refused.name}` };
  if (tidy.startsWith('/') || /^[A-Za-z]:/.test(tidy)) return { problem: 'is an absolute path' };
  if (tidy.includes('\\')) return { problem: 'holds a backslash' };
  const steps = tidy.split('/');
  if (steps.includes('..')) return { problem: 'climbs out of the bundle' };
  if (steps.some((step) => step === '' || step === '.')) return { problem: 'has an empty step' };
  if (tidy.length > BUNDLE_LIMITS.pathLength) {
    return { problem: `is longer than ${BUNDLE_LIMITS.pathLength} characters` };
  }
  if (steps.length > BUNDLE_LIMITS.pathDepth) {
    return { problem: `is deeper than ${BUNDLE_LIMITS.pathDepth} folders` };
  }
  if (FORBIDDEN_MARKS.test(tidy)) return { problem: 'holds one of : * ? " < > |' };
  if (steps.some((step) => DEVICES.test(step) || /[. ]$/.test(step))) {
    return { problem: 'is a name that not every computer can store' };
  }
  return { name: tidy };
}

/**
 * Folds a name so that two names that look alike, or are one on some disks, become equal: letter case,
 * compatibility forms, and the Greek and Cyrillic letters that look like Latin ones
 * (from the confusables table of Unicode Technical Standard #39, the letters of file names only).
 */
export function skeletonOf(name: string): string {
  const folded = name.normalize('NFKC').toLowerCase();
  return Array.from(folded, (letter) => LOOK_ALIKES.get(letter) ?? letter).join('');
}

const LOOK_ALIKES: ReadonlyMap<string, string> = new Map(
  Object.entries({
    а: 'a', е: 'e', о: 'o', р: 'p', с: 'c', у: 'y', х: 'x', і: 'i', ј: 'j', ѕ: 's', ԁ: 'd', һ: 'h',
    ԛ: 'q', ԝ: 'w', к: 'k', м: 'm', т: 't', в: 'b', н: 'h', α: 'a', ο: 'o', ρ: 'p', ν: 'v', ι: 'i',
    κ: 'k', υ: 'u', χ: 'x', ɡ: 'g', ı: 'i', '‐': '-', '‑': '-', '–': '-', '−': '-',
  }),
); // prettier-ignore
