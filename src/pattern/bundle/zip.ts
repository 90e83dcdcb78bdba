/**
 * Reads a bundle from a zip (APPNOTE.TXT 6.3). Takes its bytes, gives the bytes of every file. The
 * directory is judged whole before anything is inflated; each file must then have exactly the size and
 * the checksum the directory promised. Links, encryption and zips within zips are refused.
 */
import { crc32 } from 'node:zlib';
import type { Entry, ZipFile } from 'yauzl';
import yauzl from 'yauzl';
import { Fault } from '../../base/fault.ts';
import { BUNDLE_LIMITS } from '../../base/limits.ts';
import { Intake, zipTooLarge } from './intake.ts';
import { isClutter } from './paths.ts';

export async function readZip(
  bytes: Uint8Array,
  place: string,
): Promise<ReadonlyMap<string, Uint8Array>> {
  if (bytes.length > BUNDLE_LIMITS.zipBytes) throw zipTooLarge(place, bytes.length);
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  if (buffer.toString('latin1', 0, 2) !== 'PK') throw noZip(place);
  try {
    const zip = await yauzl.fromBufferPromise(buffer, {
      lazyEntries: true,
      strictFileNames: true,
      autoClose: false,
    });
    const entries = await readDirectory(zip, new Intake(place));
    const files = new Map<string, Uint8Array>();
    for (const [name, entry] of entries) files.set(name, await inflate(zip, entry, name));
    return files;
  } catch (cause) {
    if (cause instanceof Fault) throw cause;
    const reason = cause instanceof Error ? cause.message : String(cause);
    throw new Fault('input', `the zip cannot be read: ${reason}`, {
      place,
      remedy: 'pack the folder again as an ordinary zip, without a password',
      cause,
    });
  }
}

const noZip = (place: string): Fault =>
  new Fault('input', 'the file is no zip', {
    place,
    remedy: 'name the folder that holds pattern.json, or a zip of it',
  });

async function readDirectory(zip: ZipFile, intake: Intake): Promise<ReadonlyMap<string, Entry>> {
  if (zip.entryCount > BUNDLE_LIMITS.files * 4) {
    throw intake.refuse(
      'the zip',
      `lists ${zip.entryCount} files; at most ${BUNDLE_LIMITS.files} are read`,
    );
  }
  const entries = new Map<string, Entry>();
  for await (const entry of zip.eachEntry()) {
    const path = entry.fileName;
    const kind = kindOf(entry);
    if (kind === 'link') throw intake.refuse(path, 'is a link');
    if (entry.isEncrypted()) throw intake.refuse(path, 'is encrypted');
    if (kind === 'folder' || isClutter(path)) continue;
    if (!entry.canDecodeFileData())
      throw intake.refuse(path, 'is packed in a way that is not read');
    const name = intake.accept(path, {
      bytes: entry.uncompressedSize,
      packedBytes: entry.compressedSize,
    });
    entries.set(name, entry);
  }
  return entries;
}

/** Unix file type in the upper half of the external attributes: 0o120000 is a symbolic link. */
function kindOf(entry: Entry): 'file' | 'folder' | 'link' {
  const unixType = (entry.externalFileAttributes >>> 16) & 0o170000;
  if (entry.fileName.endsWith('/')) return 'folder';
  if (unixType !== 0 && unixType !== 0o100000) return unixType === 0o040000 ? 'folder' : 'link';
  return 'file';
}

async function inflate(zip: ZipFile, entry: Entry, name: string): Promise<Uint8Array> {
  const stream = await zip.openReadStreamPromise(entry);
  const chunks: Buffer[] = [];
  for await (const chunk of stream) chunks.push(chunk as Buffer);
  const bytes = Buffer.concat(chunks);
  if (crc32(bytes) !== entry.crc32 >>> 0) {
    throw new Fault('input', `${name} is damaged: its checksum is not the one the zip states`, {
      place: name,
      remedy: 'pack or download the zip again',
    });
  }
  if (bytes.length >= 4 && bytes.readUInt32LE(0) === LOCAL_FILE_HEADER) {
    throw new Fault('input', `${name} is a zip inside the zip`, {
      place: name,
      remedy: 'unpack it, and pack its files directly',
    });
  }
  return bytes;
}

const LOCAL_FILE_HEADER = 0x04034b50;
