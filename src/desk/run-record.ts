/**
 * Runs as they are written down: one file for each, whole or not at all, so that a desk that was closed
 * knows what was at work. Takes a folder and records, gives them back; knows nothing of how they go on.
 */
import { mkdir, readdir, readFile, rename, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { z } from 'zod';
import { settings } from '../pipeline/payloads.ts';

/** What is told of a run, wherever it is written down. */
export const runFacts = {
  run: z.string(),
  state: z.enum(['working', 'released', 'blocked', 'failed', 'lost', 'cancelled']),
  findings: z.number(),
  blocking: z.number(),
  pattern: z.string().optional(),
  version: z.string().optional(),
  /** Where it is not for sale. */
  stage: z.enum(['proof', 'test']).optional(),
  copy: z.number().optional(),
  made: z.number().optional(),
  reused: z.number().optional(),
  message: z.string().optional(),
  remedy: z.string().optional(),
};

const record = z.object({
  ...runFacts,
  /** The name on the shelf. */
  source: z.string(),
  started: z.string(),
  settings: settings.default({}),
  /** The state of the bundle as it was. */
  seen: z.string().optional(),
  /** How often a restart of the desk took it up again. */
  resumed: z.number().default(0),
  setAside: z.string().optional(),
});
export type Run = z.output<typeof record>;

export async function readRuns(records: string): Promise<readonly Run[]> {
  const names = await readdir(records).catch(() => []);
  const runs = names
    .filter((name) => name.endsWith('.json') && !name.startsWith('.'))
    .sort()
    .map(async (name) => {
      const text = await readFile(path.join(records, name), 'utf8');
      return record.parse(JSON.parse(text));
    });
  return Promise.all(runs);
}

/** `token` names the file beside it that is built first. */
export async function writeRun(records: string, run: Run, token: string): Promise<void> {
  await mkdir(records, { recursive: true });
  const building = path.join(records, `.${token}`);
  await writeFile(building, `${JSON.stringify(run, null, 2)}\n`);
  await rename(building, path.join(records, `${run.run}.json`));
}
