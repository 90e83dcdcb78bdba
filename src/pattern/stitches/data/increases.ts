/**
 * Increases: yarn overs, make one in its directions, lifted stitches, several from one, and the
 * generic `inc`. The four British yarn overs depend on the neighbouring stitches and make the same
 * new stitch, so they are written forms of one entry; which to print is chosen from the neighbours.
 */
import { entries } from './rows.ts';

export const INCREASES = entries('increase', {}, [
  ['yo', 0, 1, 'yarn-over', { otherSide: 'yo', also: ['yarn over', 'yarn-over', 'yoh', 'yfwd', 'yfd', 'yrn', 'yon', 'yfrn', 'yfon', 'y2rn', 'wfd', 'wrn', 'won', 'wool forward', 'wool fwd', 'yarn forward', 'yarn fwd', 'yarn round needle', 'yarn over needle', 'yarn forward and round needle'] }],
  ['backwards yo', 0, 1, 'yarn-over', { otherSide: 'backwards yo', also: ['byo', 'backward yo', 'reverse yo', 'ryo', 'backwards yarn over'] }],
  ['m1', 0, 1, 'make-one', { otherSide: 'm1p', also: ['m 1', 'make 1', 'make one', 'm1k', 'm1 st', 'raise 1'] }],
  ['m1L', 0, 1, 'make-one-left', { lean: 'left', otherSide: 'm1pL', also: ['m1-l', 'm1 l', 'm1 left', 'make 1 left', 'make one left', 'ml1'] }],
  ['m1R', 0, 1, 'make-one-right', { lean: 'right', otherSide: 'm1pR', also: ['m1-r', 'm1 r', 'm1 right', 'make 1 right', 'make one right', 'mr1'] }],
  ['m1p', 0, 1, 'make-one-purl', { face: 'purl', otherSide: 'm1', also: ['m1 p', 'm1-p', 'm1 pwise', 'm1 purlwise', 'make 1 purl', 'make one purl', 'make 1 purlwise', 'm1 purl', 'mp1'] }],
  ['m1pL', 0, 1, 'make-one-left-purl', { lean: 'left', face: 'purl', otherSide: 'm1L', also: ['m1lp', 'm1p-l', 'm1p left', 'm1l-p', 'm1l p', 'make 1 left purlwise', 'make 1 purl left'] }],
  ['m1pR', 0, 1, 'make-one-right-purl', { lean: 'right', face: 'purl', otherSide: 'm1R', also: ['m1rp', 'm1p-r', 'm1p right', 'm1r-p', 'm1r p', 'make 1 right purlwise', 'make 1 purl right'] }],
  ['m1 loop', 0, 1, 'loop-cast-on', { also: ['m1 backward loop', 'bli', 'backward loop inc', 'backward loop increase', 'loop inc', 'e-loop', 'm1 e-loop', 'make 1 away'] }],
  ['m1 open', 0, 1, 'make-one-open', { also: ['m1 eyelet', 'm1o', 'open m1'] }],
  ['LLI', 0, 1, 'lifted-left', { lean: 'left', otherSide: 'LLPI', also: ['kll', 'left lifted inc', 'left lifted increase', 'lifted inc left', 'k1ll', 'llinc'] }],
  ['RLI', 0, 1, 'lifted-right', { lean: 'right', otherSide: 'RLPI', also: ['krl', 'right lifted inc', 'right lifted increase', 'lifted inc right', 'k1rl', 'rlinc'] }],
  ['LLPI', 0, 1, 'lifted-left-purl', { lean: 'left', face: 'purl', otherSide: 'LLI', also: ['llip', 'pll', 'left lifted purl inc', 'left lifted purl increase', 'llinc purl'] }],
  ['RLPI', 0, 1, 'lifted-right-purl', { lean: 'right', face: 'purl', otherSide: 'RLI', also: ['rlip', 'prl', 'right lifted purl inc', 'right lifted purl increase', 'rlinc purl'] }],
  ['inc', 1, 2, 'increase-2', { otherSide: 'inc', also: ['increase'] }],
  ['kfb', 1, 2, 'increase-2', { lean: 'left', otherSide: 'pfb', also: ['k1fb', 'k1f&b', 'kf&b', 'k1 f&b', 'k f&b', 'kf/b', 'knit front and back', 'k front and back', 'knit into front and back', 'k into front and back', 'k1-k1tbl', 'inc kwise', 'inc k'] }],
  ['pfb', 1, 2, 'increase-2-purl', { face: 'purl', otherSide: 'kfb', also: ['p1fb', 'p1f&b', 'pf&b', 'p1 f&b', 'p f&b', 'purl front and back', 'p front and back', 'purl into front and back', 'p into front and back', 'p1-p1tbl', 'inc pwise', 'inc p'] }],
  ['kbf', 1, 2, 'increase-2', { lean: 'right', also: ['k1bf', 'knit back and front', 'k back and front'] }],
  ['pbf', 1, 2, 'increase-2-purl', { face: 'purl', also: ['p1bf', 'purl back and front', 'p back and front'] }],
  ['k1-p1', 1, 2, 'increase-2', { face: 'mixed', also: ['kp', 'k1p1 inc'] }],
  ['p1-k1', 1, 2, 'increase-2', { face: 'mixed', also: ['pk', 'p1k1 inc'] }],
  ['kfbf', 1, 3, 'increase-3', { otherSide: 'pfbf', also: ['k1fbf', 'kf/b/f', 'knit front back front', 'knit front back and front'] }],
  ['pfbf', 1, 3, 'increase-3-purl', { face: 'purl', otherSide: 'kfbf', also: ['p1fbf', 'pfbp', 'purl front back front', 'purl front back and front'] }],
  ['k1-yo-k1', 1, 3, 'increase-3', { otherSide: 'p1-yo-p1', also: ['kyok', 'k-yo-k', 'k1yok1', 'kyk'] }],
  ['p1-yo-p1', 1, 3, 'increase-3-purl', { face: 'purl', otherSide: 'k1-yo-k1', also: ['pyop', 'p-yo-p', 'p1yop1', 'pyp'] }],
  ['k1-p1-k1', 1, 3, 'increase-3', { face: 'mixed', otherSide: 'p1-k1-p1', also: ['kpk', 'k-p-k', 'k1p1k1 inc'] }],
  ['p1-k1-p1', 1, 3, 'increase-3', { face: 'mixed', otherSide: 'k1-p1-k1', also: ['pkp', 'p-k-p', 'p1k1p1 inc'] }],
  ['k1-k1tbl-k1', 1, 3, 'increase-3', { also: ['k-ktbl-k'] }],
  ['yo-k1-yo', 1, 3, 'increase-3', { otherSide: 'yo-p1-yo', also: ['yoky', 'yo-k-yo'] }],
  ['yo-p1-yo', 1, 3, 'increase-3-purl', { face: 'purl', otherSide: 'yo-k1-yo', also: ['yo-p-yo'] }],
  ['cdi', 1, 3, 'increase-3', { lean: 'centre', also: ['central double inc', 'central double increase', 'centred double inc', 'centred double increase', 'centered double inc', 'centered double increase'] }],
  ['kfbfb', 1, 4, 'increase-4', { also: ['k1fbfb', 'kf/b/f/b'] }],
  ['kfbfbf', 1, 5, 'increase-5', { also: ['k1fbfbf', 'kf/b/f/b/f'] }],
  ['k1-yo-k1-yo-k1', 1, 5, 'increase-5', { otherSide: 'p1-yo-p1-yo-p1', also: ['kyokyok', 'k-yo-k-yo-k'] }],
  ['p1-yo-p1-yo-p1', 1, 5, 'increase-5-purl', { face: 'purl', otherSide: 'k1-yo-k1-yo-k1', also: ['pyopyop', 'p-yo-p-yo-p'] }],
  ['k1-p1-k1-p1-k1', 1, 5, 'increase-5', { face: 'mixed', also: ['kpkpk', 'k-p-k-p-k'] }],
  ['k1-yo-k1-yo-k1-yo-k1', 1, 7, 'increase-7', { also: ['kyokyokyok', 'k-yo-k-yo-k-yo-k'] }],
  ['k1-p1-k1-p1-k1-p1-k1', 1, 7, 'increase-7', { face: 'mixed', also: ['kpkpkpk', 'k-p-k-p-k-p-k'] }],
]); // prettier-ignore
