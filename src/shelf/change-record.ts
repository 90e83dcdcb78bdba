/**
 * A change as it is written: in a file of a history, in the head of a bundle, on the wire. One shape, to
 * which each place adds what it needs to take the change back.
 */
import { z } from 'zod';
import type { Change } from './shelf.ts';

export const changeRecord = z.strictObject({
  number: z.number(),
  at: z.string(),
  file: z.string(),
  pointer: z.string(),
  before: z.string(),
  after: z.string(),
  tag: z.string(),
  undoes: z.number().optional(),
}) satisfies z.ZodType<Change>;
