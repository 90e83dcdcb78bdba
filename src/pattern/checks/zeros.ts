/** Numbers that work nothing in any size: `p0`, `[k2, p2] 0 times`. A 0 in a list of sizes is usual. */
import { numbersOfLine } from '../needle/vary.ts';
import type { LineLook, LineRemark } from './line-checks.ts';

/** Names under which a tree keeps how often something is worked. */
const COUNTS = new Set(['times', 'count', 'rows', 'over', 'every']);

export function zeroNumbers({ line }: LineLook): readonly LineRemark[] {
  return numbersOfLine(line).flatMap(({ path, sized }): readonly LineRemark[] => {
    const [room] = path;
    const name = path.at(-1);
    const [span] = sized.spans;
    if (room !== 'sentences' || typeof name !== 'string' || !COUNTS.has(name) || !span) return [];
    // "to last 0 sts" reads oddly and works; only what is worked no times is blamed.
    if (path.includes('goal') || path.includes('until')) return [];
    if (!sized.values.every((value) => value === 0)) return [];
    return [{ kind: 'zero', span }];
  });
}
