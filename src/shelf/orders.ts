/**
 * Changes of a bundle as a request words them: the shapes of `functions/api/openapi.json`, read the same on
 * this machine and in the cloud. What the words bring is decided by the shelf.
 */
import { z } from 'zod';
import { DESK_LIMITS } from '../base/limits.ts';
import type { Acceptance, Correction, Replacement } from './shelf.ts';

const tag = z.string().regex(/^[0-9a-f]{32}$/);
const file = z.string().min(1).max(200);
const pointer = z.string().max(400);

export const starterOrder = z.strictObject({ starter: z.string().max(80) });

export const correction = z.strictObject({
  file,
  pointer,
  value: z.string().max(DESK_LIMITS.valueLetters),
  tag,
}) satisfies z.ZodType<Correction>;

export const acceptance = z.strictObject({
  code: z.string().max(100),
  where: pointer,
  reason: z.string().min(1).max(2_000),
  tag,
}) satisfies z.ZodType<Acceptance>;

export const replacement = z
  .strictObject({ file, tag: tag.optional(), text: z.string(), said: z.string().max(400) })
  .transform(({ text, tag: from, ...told }) => ({
    ...told,
    tag: from,
    bytes: new TextEncoder().encode(text),
  })) satisfies z.ZodType<Replacement>;
