/**
 * How a stated number follows, in one cell of a sheet: a gauge, the parts of a length, the areas a yarn is
 * worked over. Written so that a returned sheet can be reckoned without the bundle; the schema reads it
 * back strictly, because a sheet may come from anywhere.
 */
import { z } from 'zod';

const amount = z.number().min(0).max(1e6);

export const basisSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('gauge'),
    gauge: z.string(),
    stitches: amount.positive(),
    rows: amount.positive(),
  }),
  z.strictObject({
    kind: z.literal('count'),
    /** The place as the designer's findings name it: "Hat: crown, round 7". */
    place: z.string().max(200),
  }),
  z.strictObject({
    kind: z.literal('length'),
    parts: z
      .array(
        z.strictObject({
          /** `length`: knitted to a length, whatever the gauge. */
          by: z.enum(['stitches', 'rows', 'length']),
          gauge: z.string(),
          inches: amount,
        }),
      )
      .max(200)
      .readonly(),
  }),
  z.strictObject({
    kind: z.literal('yarn'),
    /** Square inches, one for each size of the pattern. */
    areas: z.array(amount).max(60).readonly(),
    /** As stated, one for each size. */
    grams: z.array(amount.nullable()).max(60).readonly(),
    ballGrams: amount.positive(),
  }),
]);

export type Basis = z.output<typeof basisSchema>;
export type LengthPart = Extract<Basis, { kind: 'length' }>['parts'][number];
