/**
 * Files as one zip that is made while it is sent: nothing is compressed, for documents and pictures are so
 * already, and no more than a piece of one file is held. Takes paths and their bytes in pieces, gives the
 * zip in pieces. The same files give the same bytes: no entry carries a clock.
 */
import { Zip, ZipPassThrough } from 'fflate';

/** The second day of the first year of the format: in every zone of the earth it is that year already. */
export const ZIP_TIME = new Date(1980, 0, 2);

export interface ZipEntry {
  readonly path: string;
  /** Called once, when the entry's turn has come. */
  readonly read: () => AsyncIterable<Uint8Array>;
}

export async function* zipInPieces(entries: Iterable<ZipEntry>): AsyncGenerator<Uint8Array> {
  let ready: Uint8Array[] = [];
  const take = (): readonly Uint8Array[] => {
    const taken = ready.filter(({ length }) => length > 0);
    ready = [];
    return taken;
  };
  const zip = new Zip((error, piece) => {
    if (error) throw error;
    ready.push(piece);
  });
  for (const { path, read } of entries) {
    const file = new ZipPassThrough(path);
    file.mtime = ZIP_TIME;
    zip.add(file);
    for await (const piece of read()) {
      file.push(piece);
      yield* take();
    }
    file.push(new Uint8Array(), true);
  }
  zip.end();
  yield* take();
}

/** Of one entry besides its bytes: two headers and a descriptor (APPNOTE.TXT 6.3.10, 4.3.7, 4.3.9, 4.3.12). */
const ENTRY_BYTES = 30 + 16 + 46;
/** The end of the directory, 4.3.16. */
const END_BYTES = 22;

/** Size of the zip of these files, before it is made. */
export function zipSizeBytes(
  files: readonly { readonly path: string; readonly sizeBytes: number }[],
): number {
  const entries = files.map(
    ({ path, sizeBytes }) => ENTRY_BYTES + 2 * Buffer.byteLength(path) + sizeBytes,
  );
  return entries.reduce((sum, each) => sum + each, END_BYTES);
}
