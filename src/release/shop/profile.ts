/**
 * What one kind of shop takes: how long its texts may be, which forms of them it reads, which pictures
 * it shows. Profiles are data in `templates/shop/`; a designer's own is one more file there. Takes parsed
 * files, gives profiles and the picture sizes they ask for together.
 */
import { z } from 'zod';
import { Fault } from '../../base/fault.ts';
import { SHOP_LIMITS } from '../../base/limits.ts';
import type { ShopUse } from '../../press/pictures/uses.ts';

const slug = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)
  .max(40);
const letters = z.number().int().min(10).max(100_000);

const picture = z.strictObject({
  name: slug,
  shape: z.enum(['square', 'whole']),
  pixels: z.number().int().min(64).max(SHOP_LIMITS.picturePixels),
  format: z.enum(['jpeg', 'webp', 'avif']),
  mostBytes: z.number().int().min(10_000).optional(),
});

const profile = z.strictObject({
  name: slug,
  about: z.string().max(200),
  /** The most letters of each text; `tags` is how many there may be. */
  texts: z.strictObject({
    title: letters,
    short: letters,
    description: letters,
    tags: z.number().int().min(0).max(200),
    tag: letters,
  }),
  formats: z.array(z.enum(['text', 'html', 'json-ld'])).min(1),
  /** Whether the documents themselves go into the parcel. */
  documents: z.boolean(),
  mostPictures: z.number().int().min(1).max(200),
  pictures: z.array(picture).min(1).max(12),
});

export type ShopProfile = z.output<typeof profile>;

/** Profiles by file name, in its order. A profile that cannot be read is a `Fault` naming the file. */
export function readProfiles(files: ReadonlyMap<string, unknown>): readonly ShopProfile[] {
  return [...files]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([file, value]) => {
      const parsed = profile.safeParse(value);
      if (parsed.success) return parsed.data;
      const [issue] = parsed.error.issues;
      throw new Fault('input', `${file}: ${issue?.path.join('.')} ${issue?.message}`, {
        place: `templates/shop/${file}`,
        remedy: 'another profile in that folder shows the shape',
      });
    });
}

/** The picture sizes all profiles ask for, each once. Two sizes of one name must be one size. */
export function shopUses(profiles: readonly ShopProfile[]): readonly ShopUse[] {
  const uses = new Map<string, ShopUse>();
  for (const { name: shop, pictures } of profiles) {
    for (const { mostBytes, ...wanted } of pictures) {
      const use: ShopUse = {
        kind: 'shop',
        ...wanted,
        ...(mostBytes !== undefined && { mostBytes }),
      };
      const known = uses.get(use.name);
      if (known && JSON.stringify(known) !== JSON.stringify(use)) {
        throw new Fault('input', `the picture size ${use.name} is another one in ${shop}`, {
          place: `templates/shop/${shop}.json`,
          remedy: 'give one of the two another name',
        });
      }
      uses.set(use.name, use);
    }
  }
  return [...uses.values()];
}
