/**
 * The accessible page of a pattern: the print document's words and order as one web page that carries
 * its pictures in itself, so that it still opens when it has been mailed, moved or kept for years. Takes
 * an edition and pictures light enough for a screen; gives the text of one file.
 */
import type { EditionOrder } from '../press/edition/order.ts';
import { buildEdition } from '../press/edition/edition.ts';
import type { Templates } from '../press/edition/templates.ts';
import { writeHtml } from '../press/html/write-html.ts';

export interface ScreenPicture {
  readonly bytes: Uint8Array;
  readonly mediaType: string;
}

/** `screen`: by the file name in the bundle, for each picture that the edition places. */
export function writePage(
  order: EditionOrder,
  screen: ReadonlyMap<string, ScreenPicture>,
  templates: Templates,
  mark?: string,
): string {
  const { document: unmarked } = buildEdition(order, templates);
  const document = mark === undefined ? unmarked : { ...unmarked, mark };
  const sources = new Map(
    [...order.pictures].map(([file, { hash }]) => [hash, addressOf(screen.get(file))]),
  );
  return writeHtml(document, { source: (hash) => sources.get(hash) ?? '' });
}

/** RFC 2397. */
function addressOf(picture: ScreenPicture | undefined): string {
  if (!picture) return '';
  const { buffer, byteOffset, length } = picture.bytes;
  const packed = Buffer.from(buffer, byteOffset, length).toString('base64');
  return `data:${picture.mediaType};base64,${packed}`;
}
