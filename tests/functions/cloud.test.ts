/**
 * The deployed path on loopback: an event of S3 reaches the starter, the starter a state machine, the
 * machine the functions, each with the real SDK over HTTP. The rooms are those of the tests.
 */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { stepHandler } from '../../functions/step-handler.ts';
import { openWorld } from '../../functions/world.ts';
import { finding } from '../../src/findings/register.ts';
import { failureKey, recallFindings } from '../../src/pipeline/claims.ts';
import { recallEnd } from '../../src/pipeline/ends.ts';
import { currentVersion, findRelease } from '../../src/release/commit.ts';
import { s3Store } from '../../src/store/s3.ts';
import type { Store } from '../../src/store/store.ts';
import { skerryFiles, studioRooms } from '../pipeline/studio.ts';
import { witness } from '../release/witness.ts';
import { clientOf } from '../store/client.ts';
import type { Cloud } from './cloud.ts';
import { startCloud } from './cloud.ts';

let cloud: Cloud;
let work: Store;
let releases: Store;
beforeAll(async () => {
  cloud = await startCloud();
});
afterAll(() => cloud.close());
beforeEach(() => {
  cloud.clear();
  ({ work, releases } = cloud.studio('ada'));
});
const upload: Cloud['upload'] = (key, content) => cloud.upload(key, content);
const endOf: Cloud['endOf'] = (event) => cloud.endOf(event);

describe('an upload', () => {
  it('becomes a release', async () => {
    const { end } = await endOf(await upload('ada/skerry.zip'));
    expect(end).toMatchObject({ status: 'succeeded', state: 'Released' });
    expect(await witness(releases, 'skerry-hat')).toBe('1.0.0');
    expect(cloud.rooms.worked.filter((each) => each.startsWith('compose'))).toHaveLength(2);
  });

  it('told twice runs once', async () => {
    const event = await upload('ada/skerry.zip');
    const before = cloud.machines.runs.size;
    const [first, second] = await Promise.all([endOf(event), endOf(event)]);
    expect(second.run).toBe(first.run);
    const late = await endOf(event);
    expect(late.run).toBe(first.run);
    expect(cloud.machines.runs.size).toBe(before + 1);
  });

  it('told late means the version it was sent for', async () => {
    const first = await upload('ada/skerry.zip');
    const second = await upload('ada/skerry.zip', skerryFiles({ version: '1.1.0' }));
    await endOf(second);
    expect(await currentVersion(releases, 'skerry-hat')).toBe('1.1.0');
    expect((await endOf(first)).end).toMatchObject({ state: 'Released' });
    expect(await witness(releases, 'skerry-hat')).toBe('1.1.0');
  });

  it('with a finding ends well, releases nothing, and keeps what was found', async () => {
    const slip = finding('bundle/shape', { file: 'pattern.json', pointer: '/x' }, { problem: 'p' });
    cloud.rooms = studioRooms({ findings: () => [slip] });
    const { run, end } = await endOf(await upload('ada/skerry.zip'));
    expect(end).toMatchObject({ status: 'succeeded', state: 'Blocked' });
    expect(await recallFindings(work, run)).toEqual([slip]);
    expect(await currentVersion(releases, 'skerry-hat')).toBeUndefined();
  });

  it('that is no zip ends in a record a person can read', async () => {
    const { run, end } = await endOf(
      await upload('ada/no.zip', new TextEncoder().encode('no zip')),
    );
    expect(end).toMatchObject({ status: 'failed', error: 'Castoff.Refused' });
    const record = await work.get(failureKey(run));
    expect(JSON.parse(new TextDecoder().decode(record?.bytes))).toMatchObject({
      kind: 'input',
      place: 'the zip',
      remedy: 'name the folder that holds pattern.json, or a zip of it',
    });
  });

  it('that conflicts with a release fails with the advice', async () => {
    await endOf(await upload('ada/skerry.zip'));
    const changed = await upload('ada/skerry.zip', skerryFiles({ sizes: ['S', 'M', 'XL'] }));
    const { run, end } = await endOf(changed);
    expect(end).toMatchObject({ status: 'failed', error: 'Castoff.Refused' });
    const record = await work.get(failureKey(run));
    expect(JSON.parse(new TextDecoder().decode(record?.bytes))).toMatchObject({
      run,
      kind: 'conflict',
      message: 'skerry-hat 1.0.0 is released already with other content: the bundle was changed',
      remedy: 'a released version never changes; raise "version" in pattern.json above 1.0.0',
    });
  });

  it('survives a bucket that is busy now and then', async () => {
    let requests = 0;
    cloud.front.trouble = () => {
      requests += 1;
      return requests % 17 === 0 ? { kind: 'busy', status: 503 } : undefined;
    };
    const event = await upload('ada/skerry.zip');
    const { end } = await endOf(event);
    cloud.front.trouble = () => undefined;
    expect(end).toMatchObject({ state: 'Released' });
    expect(await witness(releases, 'skerry-hat')).toBe('1.0.0');
  });
});

describe('what is told', () => {
  it('is a log of one record a line, with no text of the pattern', async () => {
    await endOf(await upload('ada/skerry.zip'));
    const records = cloud.lines
      .flatMap((written) => written.split('\n'))
      .filter(Boolean)
      .map((line) => JSON.parse(line) as Readonly<Record<string, unknown>>);
    const logged = records.filter(({ level }) => level !== undefined);
    expect(logged.length).toBeGreaterThan(5);
    for (const each of logged) expect(each).toMatchObject({ level: 'INFO', service: 'castoff' });
    expect(cloud.lines.join('')).not.toMatch(/windy|Voss|Mütze|CO 80/);
    const metrics = records.flatMap((each) => ('_aws' in each ? Object.keys(each) : []));
    for (const name of ['RunsStarted', 'PicturesMade', 'DocumentsMade', 'RunsReleased'])
      expect(metrics).toContain(name);
  });

  it('is news to the studio, with what it filters by', async () => {
    const { run } = await endOf(await upload('ada/skerry.zip'));
    expect(cloud.topic.told).toEqual([
      {
        subject: 'Castoff: skerry-hat 1.0.0 released',
        message: {
          run,
          studio: 'ada',
          outcome: 'released',
          findings: 0,
          blocking: 0,
          pattern: 'skerry-hat',
          version: '1.0.0',
          made: 8,
          reused: 0,
        },
        attributes: ['outcome released', 'studio ada'],
      },
    ]);
  });

  it.each(['blocked', 'failed'])('is news where a run is %s', async (outcome) => {
    const slip = finding('bundle/shape', { file: 'pattern.json', pointer: '/x' }, { problem: 'p' });
    cloud.rooms = studioRooms({ findings: () => [slip] });
    const bundle = outcome === 'failed' ? new TextEncoder().encode('no zip') : skerryFiles();
    const { run } = await endOf(await upload('ada/skerry.zip', bundle));
    const end = await recallEnd(work, run);
    expect(end).toMatchObject({ outcome, studio: 'ada' });
    expect(cloud.topic.told).toMatchObject([
      { message: end, attributes: [`outcome ${outcome}`, 'studio ada'] },
    ]);
  });
});

describe('two studios with one pattern', () => {
  it('release it side by side and see nothing of each other', async () => {
    await endOf(await upload('ada/skerry.zip'));
    const { end } = await endOf(
      await upload('bo/skerry.zip', skerryFiles({ sizes: ['S', 'M', 'XL'] })),
    );
    expect(end).toMatchObject({ state: 'Released' });
    const all = s3Store(clientOf(cloud.front), { bucket: 'releases', prefix: '' });
    const tops = new Set<string>();
    for await (const { key } of all.list('')) tops.add(key.split('/')[0] ?? '');
    expect([...tops].sort()).toEqual(['ada', 'bo']);
    const of = async (studio: string) => {
      const store = cloud.studio(studio).releases;
      expect(await witness(store, 'skerry-hat')).toBe('1.0.0');
      return findRelease(store, 'skerry-hat', '1.0.0');
    };
    expect((await of('ada'))?.bundle).not.toBe((await of('bo'))?.bundle);
  });

  it('leave a run that names no studio nowhere to go', async () => {
    const step = stepHandler('failed', async () => openWorld(cloud.rooms));
    for (const studio of [undefined, '', '..', 'Ada', 'a/b', 'ada/../bo']) {
      const input = { run: 'r', studio, failure: { Error: 'x', Cause: 'y' } };
      await expect(step(input)).rejects.toMatchObject({ name: 'Castoff.Broken' });
    }
  });
});
