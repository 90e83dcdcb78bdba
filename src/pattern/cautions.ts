/**
 * Which caution texts a pattern must carry, as rules over what the bundle says of the wearer, notions
 * and fibres. Takes bundle data, gives ids whose texts stand in every language. The texts refer to
 * local rules and qualified people; nothing here is legal advice and nothing claims compliance.
 */
import type { BundleData } from './bundle/schema.ts';

export type CautionId = 'smallParts' | 'cords' | 'cot' | 'sleepwear' | 'fibre' | 'needles';

interface CautionRule {
  readonly id: CautionId;
  /** Where the rule comes from, for the editor's packet. */
  readonly source: string;
  applies(data: BundleData): boolean;
}

const CHILDREN = new Set(['baby', 'toddler', 'child', 'teen']);
const SMALL_CHILDREN = new Set(['baby', 'toddler']);
const SMALL_PARTS = new Set(['buttons', 'beads', 'pompom']);
/** Fibres of animals; an unknown name counts as one, because silence would be the worse mistake. */
const PLANT_AND_MADE =
  /cotton|linen|flax|hemp|bamboo|viscose|lyocell|modal|nylon|polyamide|polyester|acrylic|elastane|ramie|jute|metallic/i;

const RULES: readonly CautionRule[] = [
  {
    id: 'smallParts',
    source: 'EN 71-1 for toys; common practice for clothing of children under three',
    applies: (data) => SMALL_CHILDREN.has(data.wearer.age) && hasPart(data, SMALL_PARTS),
  },
  {
    id: 'cords',
    source: 'EN 14682:2014; 16 CFR 1120 (ASTM F1816)',
    applies: (data) => CHILDREN.has(data.wearer.age) && hasPart(data, new Set(['cords', 'ribbon'])),
  },
  {
    id: 'cot',
    source: 'Safe-sleep advice of CPSC and AAP',
    applies: (data) => data.wearer.age === 'baby' || data.wearer.features.includes('cot'),
  },
  {
    id: 'sleepwear',
    source: '16 CFR 1615 and 1616',
    applies: (data) => CHILDREN.has(data.wearer.age) && data.wearer.features.includes('sleepwear'),
  },
  {
    id: 'fibre',
    source: 'Common practice; lanolin is a known contact allergen (from memory)',
    applies: (data) =>
      data.yarns.some((yarn) => yarn.fibres.some(({ fibre }) => !PLANT_AND_MADE.test(fibre))),
  },
  {
    id: 'needles',
    source: 'Common practice (from memory)',
    applies: (data) => SMALL_CHILDREN.has(data.wearer.age),
  },
];

/** A feature the wearer's garment has, said of the garment or listed among the notions. */
function hasPart(data: BundleData, parts: ReadonlySet<string>): boolean {
  return (
    data.wearer.features.some((feature) => parts.has(feature)) ||
    data.notions.some((notion) => parts.has(notion.kind))
  );
}

/** The cautions that apply, in the order they are printed. */
export const cautionsFor = (data: BundleData): readonly CautionId[] =>
  RULES.filter((rule) => rule.applies(data)).map((rule) => rule.id);

export const cautionSource = (id: CautionId): string =>
  RULES.find((rule) => rule.id === id)?.source ?? '';
