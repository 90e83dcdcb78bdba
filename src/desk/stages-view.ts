/**
 * What a release may be for, as a page offers it: a proof, a test copy, for sale, and what stands against
 * each as the pattern lies there now. Takes what was looked at; the rules are those of `release/stage.ts`,
 * by which a run decides too, so that no page promises what a run then refuses.
 */
import type { Finding } from '../findings/finding.ts';
import { wordingOf } from '../findings/register.ts';
import type { Language } from '../language/index.ts';
import type { BundleData } from '../pattern/bundle/schema.ts';
import { languagesOf } from '../pipeline/steps/check.ts';
import type { Made } from '../release/made.ts';
import { readMadeName } from '../release/made.ts';
import {
  knownUnreviewed,
  openLanguages,
  reviewsAt,
  type ReviewOrder,
  type Stage,
  STAGES,
  standsAgainst,
  unreviewedAmong,
} from '../release/stage.ts';
import { checkHeldOver } from '../translation/index.ts';
import { idOf } from './findings-view.ts';
import type { Looked } from './look.ts';
import type { Say, Wording } from './wording.ts';

/** Findings named at one stage; the rest are counted. */
const NAMED = 5;

/** What was chosen on the form, or is proposed before anything was. */
export interface ChosenStage {
  readonly stage: Stage;
  /** Languages that are knowingly offered unreviewed; never any by itself. */
  readonly knowingly: readonly string[];
}

export interface StagesOrder {
  readonly looked: Pick<Looked, 'bundle' | 'findings'>;
  readonly languages: ReadonlyMap<string, Language>;
  readonly chosen: ChosenStage;
  readonly address: string;
  readonly wording: Pick<Wording, 'say' | 'saying'>;
}

/** What the reviews of a release are judged by. A pattern that holds every language over offers none. */
export function reviewOrderOf(
  data: BundleData,
  languages: ReadonlyMap<string, Language>,
  allowed: readonly string[],
): ReviewOrder {
  const held = new Set(data.heldOver?.map(({ language }) => language));
  const offered = data.languages.every((tag) => held.has(tag)) ? [] : languagesOf(data, {});
  return { data, languages: offered, unreviewed: unreviewedAmong(languages.values()), allowed };
}

export function stagesView({ looked, languages, chosen, address, wording }: StagesOrder) {
  const { say } = wording;
  const data = looked.bundle?.data;
  if (!data) return [];
  const own = [...looked.findings, ...checkHeldOver(data)];
  const order = reviewOrderOf(data, languages, []);
  const nameOf = (tag: string) => languages.get(tag)?.settings.name ?? tag;
  const open = new Set(openOf(order));
  let before: readonly Finding[] = [];
  return STAGES.map((stage) => {
    const reviews = new Set(reviewsAt(stage, order).map(({ code }) => code));
    const stands = standsAgainst(stage, own, order).filter(({ code }) => !reviews.has(code));
    const further = stands.filter((each) => !before.includes(each));
    const above = stands.length - further.length;
    before = stands;
    return {
      stage,
      name: say(`stage.${stage}`),
      about: say(`stage.${stage}.about`),
      chosen: chosen.stage === stage,
      clear: stands.length === 0,
      standing: standingOf(stands.length, above, say),
      findings: further.slice(0, NAMED).map((each) => ({
        says: wordingOf(each, wording.saying).headline,
        address: `${address}#${idOf(each)}`,
      })),
      more: Math.max(0, further.length - NAMED),
      unreviewed: stage === 'sale' ? [...open].map((tag) => ({ tag, name: nameOf(tag), ticked: chosen.knowingly.includes(tag) })) : [], // prettier-ignore
      known: stage === 'sale' ? knownUnreviewed(order).map(nameOf).join(', ') : '',
    };
  });
}

function standingOf(count: number, above: number, say: Say): string {
  if (count === 0) return say('stage.clear');
  const against = say('stage.against', { count });
  return above === 0 ? against : `${against} ${say('stage.above', { count: above })}`;
}

/** Languages that would go on sale unreviewed without that being a choice. */
const openOf = (order: ReviewOrder): readonly string[] => {
  const known = knownUnreviewed(order);
  return openLanguages(order).filter((tag) => !known.includes(tag));
};

/** Those of them that a form left open. */
export const leftOpen = (
  data: BundleData,
  languages: ReadonlyMap<string, Language>,
  { stage, knowingly }: ChosenStage,
): readonly string[] => (stage === 'sale' ? openOf(reviewOrderOf(data, languages, knowingly)) : []);

/** The stage after the one this version was made at last; nothing goes on sale by itself. */
export function nextStage(
  version: string,
  versions: readonly string[],
  copies: readonly string[],
): Stage {
  if (versions.includes(version)) return 'sale';
  const own = copies.map(readMadeName).filter((made) => made?.version === version);
  if (own.some((made) => made?.stage === 'test')) return 'sale';
  return own.some((made) => made?.stage === 'proof') ? 'test' : 'proof';
}

/** "Version 1.0.0", "Proof 2 of version 1.0.0"; a run has no number before it is done. */
export function sayMade({ version, stage, copy }: Made, say: Say): string {
  if (stage === undefined) return say('made.sale', { version });
  const kind = say(`stage.${stage}`);
  const named = copy === undefined ? kind : say('made.numbered', { kind, copy: String(copy) });
  return version === '' ? named : say('made.of', { made: named, version });
}
