/**
 * Puts a file in its place in one step: written beside it first, then renamed, so that a reader sees the
 * old file or the new one. Where that fails the old one is as it was, and nothing is left beside it.
 */
import { randomUUID } from 'node:crypto';
import { rename, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { Fault } from '../base/fault.ts';

/** `mode`: the rights of the new file; those of any new file where left out. */
export async function replaceFile(target: string, bytes: Uint8Array, mode?: number): Promise<void> {
  const beside = path.join(path.dirname(target), `.${path.basename(target)}.${randomUUID()}`);
  try {
    await writeFile(beside, bytes, { flag: 'wx', ...(mode !== undefined && { mode }) });
    await rename(beside, target);
  } catch (cause) {
    await rm(beside, { force: true });
    throw new Fault('store', `${target} could not be written; it is as it was`, {
      place: target,
      cause,
    });
  }
}
