/**
 * Cloth folded round an edge: what of it is seen from above, and how high it lies. Shared by every
 * piece that lies flat with its back behind it.
 */

export interface Folded {
  /** From the middle outwards, with its sign. */
  readonly across: number;
  readonly height: number;
}

/**
 * `along` is measured in the cloth from the middle, `half` from the middle to the far side of the
 * fold, `lift` out of the cloth. `share` 1 folds wholly, 0 leaves the cloth flat.
 */
export function foldOver(along: number, half: number, radius: number, lift: number, share = 1): Folded {
  const straight = half - (radius * Math.PI) / 2;
  const past = Math.abs(along) - straight;
  if (past <= 0) return { across: along, height: radius + lift };
  const angle = Math.min(past / radius, Math.PI * 0.6);
  const bent = straight + (radius + lift) * Math.sin(angle);
  const across = bent * share + Math.abs(along) * (1 - share);
  const height = (radius + lift) * Math.cos(angle) * share + (radius + lift) * (1 - share);
  return { across: Math.sign(along) * across, height };
} // prettier-ignore
