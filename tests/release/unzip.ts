/** A zip read whole by yauzl, with what its directory says of each entry. */
import { type Entry, fromBuffer } from 'yauzl';

export interface Unzipped {
  readonly bytes: Buffer;
  readonly entry: Entry;
}

/** Every entry with its bytes; yauzl holds sizes and names to what the directory says. */
export const unzip = (zip: Uint8Array): Promise<ReadonlyMap<string, Unzipped>> =>
  new Promise((resolve, reject) => {
    fromBuffer(Buffer.from(zip), { lazyEntries: true }, (error, file) => {
      if (error) return reject(error);
      const found = new Map<string, Unzipped>();
      file.on('error', reject);
      file.on('end', () => resolve(found));
      file.on('entry', (entry: Entry) => {
        file.openReadStream(entry, (refused, stream) => {
          if (refused) return reject(refused);
          const chunks: Buffer[] = [];
          stream.on('data', (chunk: Buffer) => chunks.push(chunk));
          stream.on('error', reject);
          stream.on('end', () => {
            found.set(entry.fileName, { bytes: Buffer.concat(chunks), entry });
            file.readEntry();
          });
        });
      });
      file.readEntry();
    });
  });
