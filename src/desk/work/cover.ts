/**
 * The cover of a pattern, small enough for the shelf. Takes the shelf and a name; reads the pattern no
 * further than to the list of its photographs, so that a long shelf is not checked for its pictures.
 */
import { JSON_LIMITS } from '../../base/limits.ts';
import { followPointer } from '../../base/span.ts';
import { readJson } from '../../pattern/bundle/json.ts';
import { PATTERN_FILE, photoFile } from '../../pattern/bundle/load.ts';
import { preparePicture, type ShopUse } from '../../press/pictures/index.ts';
import type { Shelf } from '../../shelf/shelf.ts';

export interface Cover {
  readonly bytes: Uint8Array;
  readonly mediaType: string;
}

/** Twice the width it has on the page, for screens with fine dots. */
const SMALL: ShopUse = {
  kind: 'shop',
  name: 'shelf',
  shape: 'square',
  pixels: 192,
  format: 'jpeg',
};

/** Nothing where the pattern has no photograph that can be opened. */
export async function makeCover(
  shelf: Pick<Shelf, 'file'>,
  name: string,
): Promise<Cover | undefined> {
  const pattern = new TextDecoder().decode(await shelf.file(name, PATTERN_FILE));
  const file = coverIn(followPointer(readJson(pattern, JSON_LIMITS.depth).value, '/photos'));
  const photo = file === undefined ? undefined : await shelf.file(name, photoFile(file));
  if (!photo) return undefined;
  const place = { file: PATTERN_FILE, pointer: '/photos' };
  const { picture } = await preparePicture(photo, SMALL, place);
  return picture && { bytes: picture.bytes, mediaType: picture.mediaType };
}

/** The photograph that is the cover, or else the first. */
function coverIn(photos: unknown): string | undefined {
  if (!Array.isArray(photos)) return undefined;
  const known = photos.flatMap((each) => {
    const [file, role] = ['/file', '/role'].map((at) => followPointer(each, at));
    return typeof file === 'string' ? [{ file, role }] : [];
  });
  return (known.find(({ role }) => role === 'cover') ?? known[0])?.file;
}
