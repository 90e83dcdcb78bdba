/**
 * Decreases, single, double and more, by the side they lean to as seen from the side that is worked.
 * `otherSide` pairs a knitted decrease with the purled one that shows it when worked from the back.
 * Those of any width (`k7tog`, `p4sso`) are read by rule in `rules.ts`.
 */
import { entries } from './rows.ts';

export const DECREASES = entries('decrease', {}, [
  ['k2tog', 2, 1, 'lean-right', { lean: 'right', otherSide: 'p2tog', also: ['knit 2 together', 'knit two together', 'k two tog', 'k 2 together', 'narrow'] }],
  ['ssk', 2, 1, 'lean-left', { lean: 'left', otherSide: 'ssp', also: ['slip slip knit', 'slip, slip, knit', 's1 s1 k', 'ss k'] }],
  ['skp', 2, 1, 'lean-left', { lean: 'left', otherSide: 'ssp', also: ['skpo', 'sl1-k1-psso', 's1k1psso', 'sl1k1psso', 'skpsso', 'sk1p'] }],
  ['k2tog tbl', 2, 1, 'lean-left', { lean: 'left', otherSide: 'p2tog tbl', also: ['k2togtbl', 'k2tog-tbl', 'ktogb', 'k2togb', 'knit 2 together tbl', 'knit 2 together through back loops'] }],
  ['ksp', 2, 1, 'lean-right', { lean: 'right', otherSide: 'p2tog', also: ['kspo', 'k1-sl-psso'] }],
  ['p2tog', 2, 1, 'lean-right-purl', { lean: 'right', face: 'purl', otherSide: 'k2tog', also: ['purl 2 together', 'purl two together', 'p two tog', 'p 2 together'] }],
  ['ssp', 2, 1, 'lean-left-purl', { lean: 'left', face: 'purl', otherSide: 'ssk', also: ['slip slip purl', 'slip, slip, purl'] }],
  ['p2tog tbl', 2, 1, 'lean-left-purl', { lean: 'left', face: 'purl', otherSide: 'k2tog tbl', also: ['p2togtbl', 'p2tog-tbl', 'p2togb', 'purl 2 together tbl', 'purl 2 together through back loops'] }],
  ['spp', 2, 1, 'lean-left-purl', { lean: 'left', face: 'purl', otherSide: 'ssk', also: ['sppo', 'sl1-p1-psso'] }],
  ['dec', 2, 1, 'lean-right', { otherSide: 'dec', also: ['decrease'] }],
  ['k3tog', 3, 1, 'lean-right-3', { lean: 'right', otherSide: 'p3tog', also: ['knit 3 together', 'knit three together', 'k 3 together'] }],
  ['sssk', 3, 1, 'lean-left-3', { lean: 'left', otherSide: 'sssp', also: ['slip slip slip knit', 's3k'] }],
  ['sk2p', 3, 1, 'lean-left-3', { lean: 'left', otherSide: 'sssp', also: ['sk2po', 'sk2togp', 'sl1-k2tog-psso', 'sl1k2togpsso', 's1k2togpsso', 'sktp'] }],
  ['k3tog tbl', 3, 1, 'lean-left-3', { lean: 'left', otherSide: 'p3tog tbl', also: ['k3togtbl', 'k3tog-tbl', 'k3togb'] }],
  ['s2kp', 3, 1, 'centred-3', { lean: 'centre', otherSide: 's2pp', also: ['s2kp2', 's2kpo', 's2k', 'cdd', 'sl2-k1-p2sso', 's2k1p2sso', 'sl2k1p2sso', 'sl2tog-k1-p2sso', 'sl2togk1p2sso', 'centred double decrease', 'centered double decrease', 'centred double dec', 'centered double dec'] }],
  ['p3tog', 3, 1, 'lean-right-3-purl', { lean: 'right', face: 'purl', otherSide: 'k3tog', also: ['purl 3 together', 'purl three together', 'p 3 together'] }],
  ['sssp', 3, 1, 'lean-left-3-purl', { lean: 'left', face: 'purl', otherSide: 'sssk', also: ['slip slip slip purl'] }],
  ['sp2p', 3, 1, 'lean-left-3-purl', { lean: 'left', face: 'purl', otherSide: 'sssk', also: ['sp2po', 'sl1-p2tog-psso'] }],
  ['p3tog tbl', 3, 1, 'lean-left-3-purl', { lean: 'left', face: 'purl', otherSide: 'k3tog tbl', also: ['p3togtbl', 'p3tog-tbl', 'p3togb'] }],
  ['s2pp', 3, 1, 'centred-3-purl', { lean: 'centre', face: 'purl', otherSide: 's2kp', also: ['s2pp2', 'cddp', 'sl2-p1-p2sso', 'centred double decrease purlwise', 'centered double decrease purlwise'] }],
  ['k4tog', 4, 1, 'lean-right-4', { lean: 'right', otherSide: 'p4tog' }],
  ['ssssk', 4, 1, 'lean-left-4', { lean: 'left', otherSide: 'p4tog tbl' }],
  ['sk3p', 4, 1, 'lean-left-4', { lean: 'left', otherSide: 'p4tog tbl', also: ['sk3po', 'sl1-k3tog-psso'] }],
  ['k4tog tbl', 4, 1, 'lean-left-4', { lean: 'left', otherSide: 'p4tog tbl' }],
  ['p4tog', 4, 1, 'lean-right-4-purl', { lean: 'right', face: 'purl', otherSide: 'k4tog' }],
  ['p4tog tbl', 4, 1, 'lean-left-4-purl', { lean: 'left', face: 'purl', otherSide: 'k4tog tbl' }],
  ['k5tog', 5, 1, 'lean-right-5', { lean: 'right', otherSide: 'p5tog' }],
  ['k5tog tbl', 5, 1, 'lean-left-5', { lean: 'left', otherSide: 'p5tog tbl' }],
  ['s3k2p', 5, 1, 'centred-5', { lean: 'centre', otherSide: 'p5tog', also: ['sl3-k2tog-p3sso', 's3k2togp3sso', 's3k2p3', 'cd4d', 'centred quadruple decrease', 'centered quadruple decrease'] }],
  ['p5tog', 5, 1, 'lean-right-5-purl', { lean: 'right', face: 'purl', otherSide: 'k5tog' }],
  ['p5tog tbl', 5, 1, 'lean-left-5-purl', { lean: 'left', face: 'purl', otherSide: 'k5tog tbl' }],
]); // prettier-ignore

/** Several stitches worked together several times: the count stays, the stitches gather. */
export const CLUSTERS = entries('other', { face: 'mixed' }, [
  ['k2tog-k1', 2, 2, 'gather-2', { also: ['k2tog but leave on needle then k first st again', 'k2tog k1'] }],
  ['p2tog-k2tog', 2, 2, 'gather-2', { also: ['p2tog then k2tog in same sts', 'p2tog and k2tog same 2 sts'] }],
  ['k3tog-yo-k3tog', 3, 3, 'gather-3', { otherSide: 'p3tog-yo-p3tog', also: ['k3tog yo k3tog in same 3 sts'] }],
  ['p3tog-yo-p3tog', 3, 3, 'gather-3', { otherSide: 'k3tog-yo-k3tog', also: ['p3tog yo p3tog in same 3 sts'] }],
  ['k3tog-k1-k3tog', 3, 3, 'gather-3', { also: ['k3tog k1 k3tog in same 3 sts'] }],
  ['p3tog-k1-p3tog', 3, 3, 'gather-3', { also: ['p3tog k1 p3tog in same 3 sts'] }],
]); // prettier-ignore
