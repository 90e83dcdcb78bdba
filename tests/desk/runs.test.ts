/**
 * Runs over a crew that the test holds in its hand: what is written down, what a restart of the desk
 * takes up again, and what it must not.
 */
import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import os from 'node:os';
import path from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { Fault } from '../../src/base/fault.ts';
import { DESK_LIMITS } from '../../src/base/limits.ts';
import { LocalRuns } from '../../src/desk/local-runs.ts';
import type { Crew } from '../../src/desk/work/crew.ts';
import type { PublishEnd, PublishJob } from '../../src/desk/work/publishing.ts';
import { folderRoom } from '../../src/shelf/folder-room.ts';

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(path.join(os.tmpdir(), 'runs-'));
  await mkdir(path.join(folder, 'hat'));
  await writeFile(path.join(folder, 'hat', 'pattern.json'), '{}');
});
afterEach(() => rm(folder, { recursive: true, force: true }));

interface Held {
  readonly asked: PublishJob[];
  end(how: PublishEnd | Fault): Promise<void>;
}

let clock = 0;
async function openRuns(): Promise<{ runs: LocalRuns; held: Held }> {
  const asked: PublishJob[] = [];
  let settle: (how: PublishEnd | Fault) => void = () => undefined;
  const crew = {
    ask: (_: string, job: PublishJob) => {
      asked.push(job);
      return new Promise<PublishEnd>((resolve, reject) => {
        settle = (how) => (how instanceof Fault ? reject(how) : resolve(how));
      });
    },
    close: () => undefined,
  } as unknown as Crew;
  const runs = await LocalRuns.open({
    folder,
    shelf: folderRoom(folder),
    releases: path.join(folder, 'releases'),
    records: path.join(folder, '.desk', 'runs'),
    crew,
    newId: () => `id-${(clock += 1)}`,
    now: () => new Date(Date.UTC(2026, 0, 1) + (clock += 1000)),
  });
  const end = async (how: PublishEnd | Fault) => {
    settle(how);
    const [run] = await runs.of('hat');
    const stream = await runs.listen(run?.run ?? '');
    await new Promise<void>((resolve) => stream.open(() => undefined, resolve));
  };
  return { runs, held: { asked, end } };
}

const released: PublishEnd = {
  outcome: 'released', findings: [], pattern: 'hat', version: '1.0.0', made: 3, reused: 1,
}; // prettier-ignore

describe('a run on the desk', () => {
  it('ends as released, in the editions that were chosen', async () => {
    const { runs, held } = await openRuns();
    const { run } = await runs.start('hat', {
      editions: [{ kind: 'standard' }, { kind: 'large' }],
    });
    await held.end(released);
    expect(held.asked[0]?.settings.editions).toEqual([{ kind: 'standard' }, { kind: 'large' }]);
    expect(await runs.get(run)).toMatchObject({ state: 'released', version: '1.0.0', made: 3 });
  });

  it('says why it broke off', async () => {
    const { runs, held } = await openRuns();
    const { run } = await runs.start('hat', {});
    await held.end(new Fault('store', 'the work broke off', { remedy: 'try again' }));
    expect(await runs.get(run)).toMatchObject({ state: 'failed', remedy: 'try again' });
  });

  it('is taken up again when the desk was closed in the middle', async () => {
    const first = await openRuns();
    const { run } = await first.runs.start('hat', { editions: [{ kind: 'ink-saving' }] });
    first.runs.close();

    const second = await openRuns();
    expect(await second.runs.get(run)).toMatchObject({ state: 'working', resumed: 1 });
    expect(second.held.asked[0]?.settings.editions).toEqual([{ kind: 'ink-saving' }]);
    await second.held.end(released);
    expect((await second.runs.get(run)).state).toBe('released');
  });

  it('is not taken up for a pattern that changed meanwhile', async () => {
    const first = await openRuns();
    const { run } = await first.runs.start('hat', {});
    first.runs.close();
    await writeFile(path.join(folder, 'hat', 'pattern.json'), '{ "changed": 1 }');
    const second = await openRuns();
    expect((await second.runs.get(run)).state).toBe('lost');
    expect(second.held.asked).toEqual([]);
  });

  it('is not taken up for ever', async () => {
    const first = await openRuns();
    const { run } = await first.runs.start('hat', {});
    for (let time = 1; time <= DESK_LIMITS.resumes; time += 1)
      expect((await (await openRuns()).runs.get(run)).state).toBe('working');
    expect((await (await openRuns()).runs.get(run)).state).toBe('lost');
  });
});
