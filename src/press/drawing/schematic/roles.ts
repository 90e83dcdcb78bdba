/**
 * Which measurements describe which outline. A bundle maps roles to its measurements; the check that
 * reads this table finds roles that an outline does not know and required ones that are missing.
 * `around` lengths go round the body or limb and are drawn folded, at half their length.
 */
import type { BundleData } from '../../../pattern/bundle/schema.ts';

export type OutlineKind = BundleData['schematic'][number]['outline'];

export interface OutlineRole {
  readonly role: string;
  readonly required: boolean;
  readonly direction: 'across' | 'along' | 'around';
  readonly about: string;
}

const role = (
  name: string,
  direction: OutlineRole['direction'],
  about: string,
  required: 'required' | 'optional' = 'optional',
): OutlineRole => ({ role: name, required: required === 'required', direction, about });

const UPPER_BODY: readonly OutlineRole[] = [
  role('length', 'along', 'From the lower edge to the top of the shoulder', 'required'),
  role('hemDepth', 'along', 'Depth of the ribbing or border at the lower edge'),
  role('sideLength', 'along', 'From the lower edge to the underarm'),
  role('armhole', 'along', 'From the underarm to the top of the shoulder'),
  role('raglan', 'along', 'Instead of the armhole: from the underarm to the neck edge of a raglan'),
  role('crossBack', 'across', 'Between the armholes; as wide as the body where it is not given'),
  role(
    'neck',
    'across',
    'Width of the neck opening; without it the upper edge is straight, or the piece one front of two',
  ),
  role('neckDepth', 'along', 'From the top of the shoulder to the lowest point of the neck'),
  role('backNeckDepth', 'along', 'The same for the back neck, where both are shown'),
  role('shoulder', 'across', 'Width of one shoulder'),
  role('shoulderDrop', 'along', 'How far the shoulder falls from the neck to its tip'),
];

export const OUTLINE_ROLES: Readonly<Record<OutlineKind, readonly OutlineRole[]>> = {
  rectangle: [
    role('width', 'across', 'From side to side', 'required'),
    role('length', 'along', 'From the lower to the upper edge', 'required'),
    role('hemDepth', 'along', 'Depth of the border at the lower edge'),
  ],
  trapezoid: [
    role('bottom', 'across', 'Lower edge', 'required'),
    role('top', 'across', 'Upper edge', 'required'),
    role('length', 'along', 'From the lower to the upper edge', 'required'),
    role('hemDepth', 'along', 'Depth of the border at the lower edge'),
  ],
  triangle: [
    role('width', 'across', 'Along the long edge', 'required'),
    role('length', 'along', 'From the long edge to the tip', 'required'),
  ],
  body: [
    role('width', 'across', 'From side to side at the chest, one piece', 'required'),
    role('hem', 'across', 'Lower edge, where it is not as wide as the chest'),
    ...UPPER_BODY,
  ],
  bodyRound: [
    role('circumference', 'around', 'Round the chest', 'required'),
    role('hem', 'around', 'Round the lower edge, where it differs from the chest'),
    ...UPPER_BODY,
  ],
  sleeve: [
    role('cuff', 'across', 'Lower edge', 'required'),
    role('upperArm', 'across', 'Widest place', 'required'),
    role('length', 'along', 'From the lower edge to the underarm', 'required'),
    role('cuffDepth', 'along', 'Depth of the ribbing or border'),
    role('capDepth', 'along', 'Height of the sleeve cap; a straight upper edge without it'),
    role('capTop', 'across', 'Upper edge of the cap'),
  ],
  hat: [
    role('circumference', 'around', 'Round the widest place', 'required'),
    role('height', 'along', 'From the lower edge to the top', 'required'),
    role('brim', 'around', 'Round the lower edge, where it differs'),
    role('brimDepth', 'along', 'Depth of the brim'),
    role('crownDepth', 'along', 'From the first decrease to the top'),
  ],
  mitten: [
    role('hand', 'around', 'Round the hand above the thumb', 'required'),
    role('length', 'along', 'From the lower edge to the tip', 'required'),
    role('cuff', 'around', 'Round the cuff'),
    role('cuffDepth', 'along', 'Depth of the cuff'),
    role('toThumb', 'along', 'From the lower edge to where the thumb parts'),
    role('thumb', 'around', 'Round the thumb'),
    role('thumbLength', 'along', 'Length of the thumb'),
    role('tipDepth', 'along', 'From the first decrease to the tip'),
  ],
  sock: [
    role('foot', 'around', 'Round the ball of the foot', 'required'),
    role('footLength', 'across', 'From the heel to the toe', 'required'),
    role('legLength', 'along', 'From the sole to the upper edge', 'required'),
    role('leg', 'around', 'Round the leg'),
    role('cuffDepth', 'along', 'Depth of the cuff'),
    role('toeDepth', 'across', 'From the first decrease to the tip of the toe'),
  ],
  yoke: [
    role('neck', 'around', 'Round the neck edge', 'required'),
    role('bottom', 'around', 'Round the lower edge of the yoke', 'required'),
    role('depth', 'along', 'From the neck edge to the lower edge', 'required'),
    role('neckband', 'along', 'Depth of the neckband'),
  ],
};

/** What is wrong with the roles a bundle gives for an outline. */
export function roleProblems(outline: OutlineKind, given: readonly string[]) {
  const roles = OUTLINE_ROLES[outline];
  return {
    missing: roles.filter((entry) => entry.required && !given.includes(entry.role)),
    unknown: given.filter((name) => !roles.some((entry) => entry.role === name)),
  };
}
