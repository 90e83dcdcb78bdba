/**
 * Files of a packet in a folder. An editor or a knitter may have written into the one that is there, so
 * nothing is ever written over; all names are looked at before the first file is made.
 */
import { access, mkdir, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { Fault } from '../base/fault.ts';
import type { PacketFile } from '../packet/files.ts';

export async function refuseTaken(folder: string, names: readonly string[]): Promise<void> {
  for (const name of names) {
    const place = path.join(folder, name);
    const isThere = await access(place).then(
      () => true,
      () => false,
    );
    if (isThere)
      throw new Fault('usage', `${name} is there already, perhaps with remarks in it`, {
        place,
        remedy: 'name another folder with --to, or move it away',
      });
  }
}

export async function writePacket(folder: string, files: readonly PacketFile[]): Promise<void> {
  await refuseTaken(
    folder,
    files.map(({ name }) => name),
  );
  for (const { name, bytes } of files) {
    const place = path.join(folder, name);
    await mkdir(path.dirname(place), { recursive: true });
    await writeFile(place, bytes, { flag: 'wx' });
  }
}
