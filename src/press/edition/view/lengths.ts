/** Inches of a stated length, for drawings: the stated inches, or the centimetres converted. */
import { CENTIMETRES_PER_INCH } from '../../../base/brand.ts';
import type { LengthOver } from '../../../language/index.ts';
import { type Sized, sizedOf } from '../../../pattern/bundle/size-list.ts';

export function bothInches({ inches, centimetres }: LengthOver): Sized {
  if (inches) return inches;
  if (!centimetres) return sizedOf(null);
  const values = centimetres.values.map((value) =>
    value === null ? null : value / CENTIMETRES_PER_INCH,
  );
  return { values, spans: [] };
}
