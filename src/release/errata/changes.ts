/**
 * What changed between two versions of a pattern, in the knitter's terms: which line of which piece, in
 * which sizes, what it said and what it says. Takes two checked patterns and a language; what prints the
 * same is no change, whatever the bundle says behind it. Knows no page.
 */
import type { Language } from '../../language/index.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import { compareFacts, type FactChange } from './facts.ts';
import { compareInstructions, type LineChange } from './lines.ts';
import { compareTexts, type TextChange } from './texts.ts';

export type { FactChange, FactKind } from './facts.ts';
export type { LineChange, SaidLine } from './lines.ts';
export type { TextChange } from './texts.ts';

export type Change = LineChange | FactChange | TextChange;

/** Changes that a knitter must act on; the others are matters of wording. */
export const isCorrection = (change: Change): boolean =>
  change.kind !== 'text' || change.effect === 'work';

type ByLanguage = Map<Language, readonly Change[]>;
/** The line of the history and the sheet ask for the same; saying every size of both is dear. */
const compared = new WeakMap<CheckedPattern, WeakMap<CheckedPattern, ByLanguage>>();

export function compareVersions(
  old: CheckedPattern,
  now: CheckedPattern,
  language: Language,
): readonly Change[] {
  const later = compared.get(old) ?? new WeakMap<CheckedPattern, ByLanguage>();
  compared.set(old, later);
  const known: ByLanguage = later.get(now) ?? new Map();
  later.set(now, known);
  const changes = known.get(language) ?? [
    ...compareInstructions(old, now, language),
    ...compareFacts(old, now, language),
    ...compareTexts(old, now, language),
  ];
  known.set(language, changes);
  return changes;
}
