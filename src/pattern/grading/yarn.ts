/**
 * Yarn for every size: a blocked swatch's area and weight give weight per area, the pieces' areas give
 * the total, an allowance is added, and whole balls are bought. Takes areas and a swatch, gives grams
 * and balls; compares them with what the bundle states. Method: common practice.
 */
export interface SwatchWeight {
  readonly widthInches: number;
  readonly lengthInches: number;
  readonly grams: number;
}

export interface YarnWish {
  readonly swatch: SwatchWeight;
  /** Area of all pieces in this stitch pattern and colour, by size, in square inches. */
  readonly areasSquareInches: readonly number[];
  /** 0.05 to 0.10 is usual. */
  readonly allowance: number;
  readonly ball: { readonly grams: number; readonly metres: number };
}

export interface YarnNeed {
  readonly grams: number;
  readonly metres: number;
  readonly balls: number;
}

export const gramsPerSquareInch = ({ widthInches, lengthInches, grams }: SwatchWeight): number =>
  grams / (widthInches * lengthInches);

/** Grams, metres and whole balls by size. */
export function yarnNeeds(wish: YarnWish): readonly YarnNeed[] {
  const density = gramsPerSquareInch(wish.swatch);
  return wish.areasSquareInches.map((area) => {
    const grams = area * density * (1 + wish.allowance);
    return {
      grams,
      metres: (grams / wish.ball.grams) * wish.ball.metres,
      balls: Math.ceil(grams / wish.ball.grams - 1e-9),
    };
  });
}

/** Area of a piece from its rows: each row is as wide as its stitches and as high as one row. */
export function fabricAreaSquareInches(
  rows: readonly { readonly stitches: number }[],
  stitchesPerInch: number,
  rowsPerInch: number,
): number {
  return rows.reduce((sum, row) => sum + row.stitches / stitchesPerInch / rowsPerInch, 0);
}
