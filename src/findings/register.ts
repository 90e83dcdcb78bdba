/**
 * Every finding code, once. A family file maps codes to entries; this register joins the families,
 * gives the type of all codes and builds findings whose facts fit their code. Codes are
 * `family/kebab-name` and are never reused. To add one: a line in a family, a document that raises it.
 */
import type { Entry, Facts, Finding, Place, Wording } from './finding.ts';
import type { Saying } from './saying.ts';
import { bundleFamily } from './families/bundle.ts';
import { notationFamily } from './families/notation.ts';
import { countFamily } from './families/count.ts';
import { measureFamily } from './families/measure.ts';
import { chartFamily } from './families/chart.ts';
import { joinFamily } from './families/join.ts';
import { gradeFamily } from './families/grade.ts';
import { referenceFamily } from './families/reference.ts';
import { languageFamily } from './families/language.ts';
import { pressFamily } from './families/press.ts';
import { stageFamily } from './families/stage.ts';
import { translationFamily } from './families/translation.ts';

export const REGISTER = {
  ...bundleFamily,
  ...notationFamily,
  ...countFamily,
  ...measureFamily,
  ...chartFamily,
  ...joinFamily,
  ...gradeFamily,
  ...referenceFamily,
  ...languageFamily,
  ...pressFamily,
  ...translationFamily,
  ...stageFamily,
} as const;

export type FindingCode = keyof typeof REGISTER;
export type FactsOf<Code extends FindingCode> =
  (typeof REGISTER)[Code] extends Entry<infer F> ? F : never;

/** Builds a finding; the facts must be those its code is worded from. */
export function finding<Code extends FindingCode>(
  code: Code,
  where: Place,
  facts: FactsOf<Code>,
  more: Pick<Finding, 'related'> & { sizes?: readonly string[] } = {},
): Finding {
  const { severity } = REGISTER[code];
  const { sizes = [], ...rest } = more;
  return { code, severity, where, sizes, facts, ...rest };
}

/** The wording of any finding of the register: in English, or as `saying` puts it. */
export function wordingOf(item: Finding, saying?: Saying): Wording {
  const known = (REGISTER as Readonly<Record<string, Entry<never>>>)[item.code];
  if (!known) return { headline: JSON.stringify(item.facts) };
  const english = known.word(item.facts as never);
  return saying ? saying.wording(item, english) : english;
}

export type { Facts };
