/**
 * Stitches that keep the count: knit, purl, twisted, slipped, elongated, wrapped, and the generic
 * `work` (as established). Abbreviations follow common US usage (the trade council's master list);
 * British forms stand beside them. `k1b` is read in its US sense, the stitch below.
 */
import { entries } from './rows.ts';

const counted = { counted: true } as const;

export const BASICS = entries('basic', counted, [
  ['k', 1, 1, 'knit', { otherSide: 'p', also: ['knit', 'k st', 'knit st'] }],
  ['p', 1, 1, 'purl', { otherSide: 'k', face: 'purl', also: ['purl', 'p st', 'purl st'] }],
  [
    'work', 1, 1, 'work',
    { otherSide: 'work', face: 'mixed', also: ['patt'] },
  ],
  ['edge', 1, 1, 'edge', { otherSide: 'edge', face: 'mixed', also: ['edge st', 'selv', 'selv st', 'selvedge st', 'selvage st'] }],
]); // prettier-ignore

export const TWISTED = entries('twisted', counted, [
  [
    'k tbl', 1, 1, 'knit-twisted',
    { otherSide: 'p tbl', also: ['ktbl', 'k through back loop', 'knit tbl', 'k in back of st', 'k into back of st', 'k into back of next st'] },
  ],
  [
    'p tbl', 1, 1, 'purl-twisted',
    { otherSide: 'k tbl', face: 'purl', also: ['ptbl', 'p through back loop', 'purl tbl', 'p in back of st', 'p into back of st', 'p into back of next st'] },
  ],
]); // prettier-ignore

export const SLIPPED = entries('slipped', counted, [
  ['sl', 1, 1, 'slip-back', { otherSide: 'sl', also: ['slip', 's', 'sl st', 'slip st'] }],
  ['sl pwise', 1, 1, 'slip-back', { otherSide: 'sl pwise', also: ['sl purlwise', 'slip purlwise', 'slip pwise', 'sl-p', 'sl as if to p', 'sl as if to purl'] }],
  ['sl kwise', 1, 1, 'slip-knitwise', { otherSide: 'sl kwise', also: ['sl knitwise', 'slip knitwise', 'slip kwise', 'sl-k', 'sl as if to k', 'sl as if to knit'] }],
  ['sl wyib', 1, 1, 'slip-back', { otherSide: 'sl wyif', also: ['slip wyib', 'sl with yarn in back', 'slip with yarn in back', 'sl ybk', 'sl wyab'] }],
  ['sl wyif', 1, 1, 'slip-front', { otherSide: 'sl wyib', face: 'mixed', also: ['slip wyif', 'sl with yarn in front', 'slip with yarn in front'] }],
  ['sl pwise wyib', 1, 1, 'slip-back', { otherSide: 'sl pwise wyif', also: ['sl wyib pwise', 'sl purlwise wyib', 'slip purlwise wyib', 'sl purlwise with yarn in back', 'slip purlwise with yarn in back'] }],
  ['sl pwise wyif', 1, 1, 'slip-front', { otherSide: 'sl pwise wyib', face: 'mixed', also: ['sl wyif pwise', 'sl purlwise wyif', 'slip purlwise wyif', 'sl purlwise with yarn in front', 'slip purlwise with yarn in front'] }],
  ['sl kwise wyib', 1, 1, 'slip-knitwise', { otherSide: 'sl kwise wyif', also: ['sl wyib kwise', 'sl knitwise wyib', 'slip knitwise wyib', 'sl knitwise with yarn in back', 'slip knitwise with yarn in back'] }],
  ['sl kwise wyif', 1, 1, 'slip-front', { otherSide: 'sl kwise wyib', face: 'mixed', also: ['sl wyif kwise', 'sl knitwise wyif', 'slip knitwise wyif', 'sl knitwise with yarn in front', 'slip knitwise with yarn in front'] }],
  ['sl2tog kwise', 2, 2, 'slip-knitwise', { counted: false, also: ['sl2tog', 'sl 2 tog', 'sl 2 tog kwise', 'sl2 tog kwise', 'sl 2 tog knitwise', 'sl2tog knitwise', 'sl 2 as if to k2tog', 'sl 2 sts as if to k2tog', 'sl2 as if to k2tog'] }],
]); // prettier-ignore

export const BELOW = entries('basic', counted, [
  [
    'k below', 1, 1, 'knit-below',
    { otherSide: 'p below', also: ['kb', 'k b', 'k in st below', 'k into st below', 'k in row below', 'k into row below', 'k in next st below', 'k into next st below', 'knit below', 'knit in st below', 'k 1 below'] },
  ],
  [
    'p below', 1, 1, 'purl-below',
    { otherSide: 'k below', face: 'purl', also: ['p b', 'p in st below', 'p into st below', 'p in row below', 'p into row below', 'p in next st below', 'p into next st below', 'purl below', 'purl in st below'] },
  ],
]); // prettier-ignore

export const WRAPS = entries('wrap', counted, [
  ['k with wrap', 1, 1, 'knit', { otherSide: 'p with wrap', also: ['kw', 'k wrapped st', 'k st with wrap', 'k tog with wrap', 'k wrap and st tog', 'k st tog with wrap', 'knit with wrap'] }],
  ['p with wrap', 1, 1, 'purl', { otherSide: 'k with wrap', face: 'purl', also: ['pw', 'p wrapped st', 'p st with wrap', 'p tog with wrap', 'p wrap and st tog', 'p st tog with wrap', 'purl with wrap'] }],
  ['k double st', 1, 1, 'knit', { otherSide: 'p double st', also: ['kds', 'k ds', 'knit ds', 'knit double st', 'knit double stitch', 'k double stitch'] }],
  ['p double st', 1, 1, 'purl', { otherSide: 'k double st', face: 'purl', also: ['pds', 'p ds', 'purl ds', 'purl double st', 'purl double stitch', 'p double stitch'] }],
  ['k dropping wraps', 1, 1, 'knit', { otherSide: 'p dropping wraps', also: ['k dropping extra wraps', 'k dropping extra loops', 'knit dropping wraps', 'knit dropping extra wraps'] }],
  ['p dropping wraps', 1, 1, 'purl', { otherSide: 'k dropping wraps', face: 'purl', also: ['p dropping extra wraps', 'p dropping extra loops', 'purl dropping wraps', 'purl dropping extra wraps'] }],
]); // prettier-ignore

/** Yarn moved without a stitch, stitches dropped, beads and loops. */
export const OTHERS = entries('other', {}, [
  ['yf', 0, 0, 'yarn-front', { also: ['yarn to front', 'bring yarn to front', 'move yarn to front'] }],
  ['yb', 0, 0, 'yarn-back', { also: ['ybk', 'yarn back', 'yarn to back', 'take yarn to back', 'bring yarn to back', 'move yarn to back'] }],
  ['drop', 1, 0, 'drop', { counted: true, also: ['drop st', 'drop next st', 'drop next', 'drop yo'] }],
  ['psso', 0, -1, 'pass-over', { lean: 'left', also: ['pass slipped st over', 'pass st over', 'pass sl st over', 'pass 1 st over', 'pass slipped stitch over', 'psoo'] }],
  ['pyo', 0, -1, 'pass-over', { lean: 'left', also: ['pass yo over', 'pyoso', 'pass yarn over over'] }],
  ['bead', 1, 1, 'bead', { otherSide: 'bead', also: ['place bead', 'k with bead', 'k1 with bead', 'k bead'] }],
  ['loop st', 1, 1, 'loop', { also: ['ml', 'make loop', 'loop'] }],
]); // prettier-ignore
