/**
 * Which caution texts a pattern must carry, as rules over what the bundle says of the wearer, notions
 * and fibres. Takes bundle data, gives ids whose texts stand in every language. The texts refer to
 * local rules and qualified people; nothing here is legal advice and nothing claims compliance.
 */
import type { BundleData } from './bundle/schema.ts';

export type CautionId = 'smallParts' | 'cords' | 'cot' | 'sleepwear' | 'fibre' | 'needles';
type Age = BundleData['wearer']['age'];
type Part = BundleData['wearer']['features'][number] | BundleData['notions'][number]['kind'];

/** A rule applies where every condition it names holds; a condition it does not name always does. */
export interface CautionRule {
  readonly id: CautionId;
  /** Where the rule comes from, for the editor's packet. */
  readonly source: string;
  readonly ages?: readonly Age[];
  /** Any of these, said of the garment or listed among the notions. */
  readonly parts?: readonly Part[];
  /** Any fibre that is not known to be of plants or made. */
  readonly animalFibre?: true;
}

const CHILDREN: readonly Age[] = ['baby', 'toddler', 'child', 'teen'];
const SMALL_CHILDREN: readonly Age[] = ['baby', 'toddler'];

/** In the order in which they are printed. Two rules of one caution: either is enough. */
export const CAUTION_RULES: readonly CautionRule[] = [
  {
    id: 'smallParts',
    source: 'EN 71-1 for toys; common practice for clothing of children under three',
    ages: SMALL_CHILDREN,
    parts: ['buttons', 'beads', 'pompom'],
  },
  {
    id: 'cords',
    source: 'EN 14682:2014; 16 CFR 1120 (ASTM F1816)',
    ages: CHILDREN,
    parts: ['cords', 'ribbon'],
  },
  { id: 'cot', source: 'Safe-sleep advice of CPSC and AAP', ages: ['baby'] },
  { id: 'cot', source: 'Safe-sleep advice of CPSC and AAP', parts: ['cot'] },
  { id: 'sleepwear', source: '16 CFR 1615 and 1616', ages: CHILDREN, parts: ['sleepwear'] },
  {
    id: 'fibre',
    source: 'Common practice; lanolin is a known contact allergen (from memory)',
    animalFibre: true,
  },
  { id: 'needles', source: 'Common practice (from memory)', ages: SMALL_CHILDREN },
];

/** Fibres of animals; an unknown name counts as one, because silence would be the worse mistake. */
const PLANT_AND_MADE =
  /cotton|linen|flax|hemp|bamboo|viscose|lyocell|modal|nylon|polyamide|polyester|acrylic|elastane|ramie|jute|metallic/i;

const hasAnimalFibre = ({ yarns }: BundleData): boolean =>
  yarns.some(({ fibres }) => fibres.some(({ fibre }) => !PLANT_AND_MADE.test(fibre)));

/** A feature the wearer's garment has, said of the garment or listed among the notions. */
function partsOf({ wearer, notions }: BundleData): ReadonlySet<Part> {
  return new Set<Part>([...wearer.features, ...notions.map(({ kind }) => kind)]);
}

function applies({ ages, parts, animalFibre }: CautionRule, data: BundleData): boolean {
  const has = partsOf(data);
  return (
    (ages?.includes(data.wearer.age) ?? true) &&
    (parts?.some((part) => has.has(part)) ?? true) &&
    (animalFibre === undefined || hasAnimalFibre(data))
  );
}

/** The cautions that apply, in the order they are printed. */
export const cautionsFor = (data: BundleData): readonly CautionId[] => [
  ...new Set(CAUTION_RULES.filter((rule) => applies(rule, data)).map(({ id }) => id)),
];

export const cautionSource = (id: CautionId): string =>
  CAUTION_RULES.find((rule) => rule.id === id)?.source ?? '';
