/**
 * Bobbles, knots, brioche and the twists that are worked without a cable needle. A brioche stitch is
 * counted together with its yarn over, as the technique counts it: `sl1yo` takes one and makes one.
 */
import { entries } from './rows.ts';

export const BOBBLES = entries('bobble', { face: 'mixed' }, [
  ['MB', 1, 1, 'bobble', { otherSide: 'MB', also: ['make bobble', 'bobble'] }],
  ['MB3', 1, 1, 'bobble', { otherSide: 'MB3', also: ['make 3-st bobble', '3-st bobble', 'small bobble'] }],
  ['MB5', 1, 1, 'bobble', { otherSide: 'MB5', also: ['make 5-st bobble', '5-st bobble', 'large bobble'] }],
  ['MB7', 1, 1, 'bobble', { otherSide: 'MB7', also: ['make 7-st bobble', '7-st bobble'] }],
  ['MK', 1, 1, 'knot', { also: ['make knot', 'knot'] }],
  ['nupp', 1, 1, 'nupp', { also: ['make nupp'] }],
  ['nupp start', 1, 5, 'nupp', { also: ['start nupp', 'nupp inc'] }],
]); // prettier-ignore

const brioche = { face: 'mixed' } as const;

export const BRIOCHE = entries('brioche', brioche, [
  ['brk', 1, 1, 'brioche-knit', { counted: true, otherSide: 'brp', also: ['brioche knit', 'bk', 'burp knit'] }],
  ['brp', 1, 1, 'brioche-purl', { counted: true, otherSide: 'brk', also: ['brioche purl', 'bp', 'burp'] }],
  ['sl1yo', 1, 1, 'brioche-slip', { otherSide: 'sl1yo', also: ['yfsl1yo', 'sl1yof', 'slyo', 'sl1 yo', 'yf sl1yo', 'yfsl1yof'] }],
  ['bark', 1, 1, 'brioche-knit', { counted: true, otherSide: 'barp', also: ['brioche almost knit'] }],
  ['barp', 1, 1, 'brioche-purl', { counted: true, otherSide: 'bark', also: ['brioche almost purl'] }],
  ['brkyobrk', 1, 3, 'brioche-increase-3', { otherSide: 'brpyobrp', also: ['br2st inc', 'brk-yo-brk'] }],
  ['brpyobrp', 1, 3, 'brioche-increase-3', { otherSide: 'brkyobrk', also: ['brp-yo-brp'] }],
  ['brkyobrkyobrk', 1, 5, 'brioche-increase-5', { also: ['br4st inc', 'brk-yo-brk-yo-brk'] }],
  ['brLsl', 3, 1, 'brioche-lean-left', { lean: 'left', also: ['brlsl dec', 'brioche left dec'] }],
  ['brRsl', 3, 1, 'brioche-lean-right', { lean: 'right', also: ['brrsl dec', 'brioche right dec'] }],
  ['brcdd', 3, 1, 'brioche-centred', { lean: 'centre', also: ['br2st dec', 'brioche centred dec'] }],
  ['br4st dec', 5, 1, 'brioche-centred-5', { lean: 'centre', also: ['br4stdec', 'brc4d'] }],
]); // prettier-ignore

const twist = { left: 1, right: 1, purlBehind: false, twisted: false } as const;

/** Two stitches crossed without a cable needle; on paper they are a crossing of one over one. */
export const TWISTS = entries('cable', {}, [
  ['LT', 2, 2, 'twist-left', { lean: 'left', crossing: { ...twist, lean: 'left' }, also: ['left twist', 'tw2l', 't2l', 'c2l', 'twist 2 left', 'tw 2 l', 'tw2 left'] }],
  ['RT', 2, 2, 'twist-right', { lean: 'right', crossing: { ...twist, lean: 'right' }, also: ['right twist', 'tw2r', 't2r', 'c2r', 'twist 2 right', 'tw 2 r', 'tw2 right', 'tw2'] }],
  ['LPT', 2, 2, 'twist-left', { lean: 'left', face: 'mixed', crossing: { ...twist, lean: 'left', purlBehind: true }, also: ['left purl twist', 'ltp'] }],
  ['RPT', 2, 2, 'twist-right', { lean: 'right', face: 'mixed', crossing: { ...twist, lean: 'right', purlBehind: true }, also: ['right purl twist', 'rtp'] }],
]); // prettier-ignore
