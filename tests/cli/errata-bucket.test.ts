/**
 * Corrections between versions that lie in a bucket: the real SDK against the strict S3 of the tests, over
 * the network as `castoff errata s3://…` goes. What is said is what the folder form says of the same two.
 */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type S3Front, startS3Front } from '../store/s3-front/server.ts';
import { castoff, change, copyStarter, filesBelow } from './desk-side.ts';

const RELEASES = 's3://northfold/releases';
const OLD = `${RELEASES}/breakwater-hat/1.0.0`;
const TWO = ['--languages', 'en-US,de'];
const SLIP = ['Next 1 (4, 1, 4, 1) rnds', 'Next 1 (4, 1, 5, 1) rnds'] as const;

let front: S3Front;
let folder: string;
let bundle: string;
const before = { ...process.env };
beforeAll(async () => {
  front = await startS3Front();
  front.createBucket('northfold');
  process.env['AWS_ENDPOINT_URL_S3'] = front.endpoint;
  process.env['AWS_REGION'] = 'us-east-1';
  process.env['AWS_ACCESS_KEY_ID'] = front.keys.accessKeyId;
  process.env['AWS_SECRET_ACCESS_KEY'] = front.keys.secretAccessKey;
  ({ folder, bundle } = await copyStarter('breakwater-hat'));
  await change(bundle, ...SLIP);
  const first = await castoff(folder, 'publish', 'bundle', '--to', RELEASES, ...TWO);
  expect(first).toMatchObject({ code: 0, err: '' });
  await change(bundle, SLIP[1], SLIP[0]);
}, 120_000);
afterAll(async () => {
  process.env = before;
  await front.close();
});

describe('castoff errata with releases in a bucket', () => {
  it('refuses the old number, and says the smallest that will do', async () => {
    const said = await castoff(folder, 'errata', OLD, 'bundle', ...TWO);
    expect(said.out).toContain('Next 1 (4, 1, 4, 1) rnds');
    expect(said.code).toBe(1);
    expect(said.err).toContain('version 1.0.0 is too small');
    expect(said.err).toContain('raise "version" in pattern.json to 1.0.1');
    const refused = await castoff(folder, 'publish', 'bundle', '--to', RELEASES, ...TWO);
    expect(refused.code).not.toBe(0);
    expect(refused.err).toContain('raise "version" in pattern.json above 1.0.0');
  }, 120_000);

  it('compares a release with a bundle, and two releases, alike', async () => {
    await change(bundle, '"version": "1.0.0"', '"version": "1.0.1"');
    const ahead = await castoff(folder, 'errata', OLD, 'bundle', '--to', 'sheets', ...TWO);
    expect(ahead).toMatchObject({ code: 0, err: '' });
    expect(ahead.out).toMatch(/Sizes: L$/m);
    expect(await filesBelow(`${folder}/sheets`)).toHaveLength(8);
    const second = await castoff(folder, 'publish', 'bundle', '--to', RELEASES, ...TWO);
    expect(second).toMatchObject({ code: 0, err: '' });
    const both = await castoff(folder, 'errata', OLD, OLD.replace('1.0.0', '1.0.1'), ...TWO);
    expect(both).toMatchObject({ code: 0, err: '' });
    expect(ahead.out.startsWith(both.out)).toBe(true);
  }, 120_000);

  it('says which version is not there, and which word names none', async () => {
    const missing = await castoff(folder, 'errata', OLD.replace('1.0.0', '3.0.0'), 'bundle');
    expect(missing.err).toContain('breakwater-hat 3.0.0 is not released');
    const vague = await castoff(folder, 'errata', `${RELEASES}/breakwater-hat`, 'bundle');
    expect(vague.err).toContain('write s3://bucket/folder/pattern/1.0.0');
  });
});
