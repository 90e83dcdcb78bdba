/**
 * Workers of the desk as real processes: one that breaks off fails its job alone and is replaced, one
 * that keeps silent is ended when it is asked to stop, and none outlives the desk.
 */
import path from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { type Crew, openCrew } from '../../src/desk/work/crew.ts';

const file = path.join(import.meta.dirname, 'breaking-worker.mjs');
let crew: Crew;
const open = () => (crew = openCrew({ file, execArgv: [], args: [] }));
afterEach(() => crew.close());

const job = (folder: string) => ({ folder, releases: '', token: '', settings: {} });

describe('the crew', () => {
  it('carries maps and answers between processes', async () => {
    const looked = await open().ask('look', { name: 'answers' });
    expect(looked.texts).toBeInstanceOf(Map);
  });

  it('tells readably that a worker broke off, and hires another for the next job', async () => {
    open();
    await expect(crew.ask('look', { name: 'breaks' })).rejects.toMatchObject({
      name: 'Fault',
      retryable: true,
      message: expect.stringContaining('broke off') as unknown,
    });
    expect((await crew.ask('look', { name: 'answers' })).findings).toEqual([]);
  });

  it('ends a run that does not hear, and lets other work go on', async () => {
    open();
    const stop = new AbortController();
    const run = crew.ask('publish', job('silent'), { signal: stop.signal });
    stop.abort();
    await expect(run).rejects.toMatchObject({ kind: 'cancelled' });
    expect((await crew.ask('look', { name: 'answers' })).findings).toEqual([]);
  });

  it('fails what waits when the desk is closed, and takes nothing more', async () => {
    open();
    const waiting = crew.ask('look', { name: 'silent' });
    crew.close();
    await expect(waiting).rejects.toMatchObject({ name: 'Fault' });
    await expect(crew.ask('look', { name: 'answers' })).rejects.toMatchObject({
      kind: 'cancelled',
    });
  });
});
