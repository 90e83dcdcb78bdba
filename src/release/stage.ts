/**
 * The stages a release goes through: a proof for the editor, a test copy for test knitters, and what is
 * for sale. Each asks for all the stage before it asks for, and a little more. Takes findings, what the
 * bundle says of its languages and the stage; says what still stands in the way. The order of the list is
 * the order of promotion.
 */
import type { Finding } from '../findings/finding.ts';
import { blocks } from '../findings/finding.ts';
import { finding } from '../findings/register.ts';
import { type Language, text } from '../language/index.ts';
import type { BundleData } from '../pattern/bundle/schema.ts';

export const STAGES = ['proof', 'test', 'sale'] as const;
export type Stage = (typeof STAGES)[number];
/** A stage whose documents are marked on every page. */
export type MarkedStage = Exclude<Stage, 'sale'>;

/**
 * Whether a finding stops a release at this stage. A proof may hold warnings nobody has answered yet: it
 * is made so that they are looked at. Whoever casts on from a test copy, or buys, must not meet them.
 */
export const stopsAt = (stage: Stage, item: Finding): boolean =>
  stage === 'proof' ? item.severity === 'error' : blocks(item);

/** "Proof for editing. Not for sale.", as it stands at the head of every page. */
export const markOf = (language: Language, stage: MarkedStage): string =>
  text(language, `stage.${stage}`);

export interface ReviewOrder {
  readonly data: Pick<BundleData, 'languages' | 'reviewed' | 'unreviewed'>;
  /** Languages of this release. */
  readonly languages: readonly string[];
  /** Languages of the house whose words no knitter has looked through. */
  readonly unreviewed: readonly string[];
  /** Said for this run only: languages, or `all`. */
  readonly allowed: readonly string[];
}

/** All that stops a release at this stage, of the findings of its pattern and its languages. */
export const standsAgainst = (
  stage: Stage,
  findings: readonly Finding[],
  order: ReviewOrder,
): readonly Finding[] =>
  [...findings, ...reviewsAt(stage, order)].filter((each) => stopsAt(stage, each));

/** Whoever proofs or tests may well be the first to look through a language. */
export const reviewsAt = (stage: Stage, order: ReviewOrder): readonly Finding[] =>
  stage === 'sale' ? checkReviews(order) : [];

/** Languages of the house whose words no knitter has looked through. */
export const unreviewedAmong = (languages: Iterable<Language>): readonly string[] =>
  [...languages]
    .filter(({ settings }) => settings.review.state === 'unreviewed')
    .map(({ tag }) => tag);

/** Languages of this release that nobody has reviewed, whether offered knowingly or not. */
export function openLanguages({ data, languages, unreviewed }: ReviewOrder): readonly string[] {
  const reviewed = new Set(data.reviewed?.map(({ language }) => language));
  return languages.filter((tag) => unreviewed.includes(tag) && !reviewed.has(tag));
}

/** Languages of this release that nobody has reviewed, and that it knowingly offers so. */
export const knownUnreviewed = (order: ReviewOrder): readonly string[] =>
  openLanguages(order).filter((tag) => isAllowed(order, tag));

/** For sale every language is reviewed, or is said to be not: a choice, never an oversight. */
export const checkReviews = (order: ReviewOrder): readonly Finding[] =>
  openLanguages(order)
    .filter((tag) => !isAllowed(order, tag))
    .map((language) => {
      const pointer = `/languages/${order.data.languages.indexOf(language)}`;
      return finding('stage/unreviewed', { file: 'pattern.json', pointer }, { language });
    });

const isAllowed = ({ data, allowed }: ReviewOrder, tag: string): boolean =>
  allowed.includes('all') || allowed.includes(tag) || (data.unreviewed ?? []).includes(tag);
