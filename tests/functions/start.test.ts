import type { S3ObjectCreatedNotificationEvent } from 'aws-lambda';
import { describe, expect, it } from 'vitest';
import { planStart, readArrival } from '../../functions/starter/start.ts';
import { readUpload, writeUpload } from '../../src/store/upload.ts';
import { objectCreated } from './events.ts';

const HASH = 'f'.repeat(64);

describe('an event of a new object', () => {
  it('names the upload, its version and its size', () => {
    expect(readArrival(objectCreated('ada/hats/skerry hat.zip', 'v1'))).toEqual({
      upload: { bucket: 'uploads', key: 'ada/hats/skerry hat.zip', version: 'v1' },
      sizeBytes: 2048,
      mark: 'v1',
    });
  });

  it('starts nothing where the object is no zip', () => {
    expect(readArrival(objectCreated('ada/cover.png', 'v1'))).toBeUndefined();
    expect(readArrival(objectCreated('ada/HAT.ZIP', 'v1'))).toBeDefined();
  });

  it.each([
    [
      'an event of another kind',
      { ...objectCreated('a.zip', 'v1'), 'detail-type': 'Object Deleted' },
    ],
    ['nothing', undefined],
    ['an event of the direct notification', { Records: [] }],
  ])('%s is refused', (_title, event) => {
    expect(() => readArrival(event)).toThrow();
  });

  it('without a version is told apart by its sequencer', () => {
    const event = objectCreated('a.zip', 'v1');
    const { 'version-id': _version, ...object } = event.detail.object;
    const bare = { ...event, detail: { ...event.detail, object } };
    expect(readArrival(bare)).toMatchObject({ mark: event.detail.object.sequencer });
  });
});

describe('the name of a run', () => {
  const start = (event: S3ObjectCreatedNotificationEvent, hash = HASH) => {
    const arrival = readArrival(event);
    return arrival && planStart(arrival, hash).name;
  };

  it('fits what Step Functions allows', () => {
    const longest = start(objectCreated(`${'x/'.repeat(500)}a.zip`, 'v'.repeat(1024)));
    expect(longest).toMatch(/^[0-9a-f-]{1,80}$/);
  });

  it('is the same for the same event, however often and late it comes', () => {
    const event = objectCreated('a.zip', 'v1');
    const repeated = { ...event, id: 'another id', time: '2027-01-01T00:00:00Z' };
    expect(start(repeated)).toBe(start(event));
  });

  it('differs by content, by upload and by place', () => {
    const names = [
      start(objectCreated('a.zip', 'v1')),
      start(objectCreated('a.zip', 'v1'), 'e'.repeat(64)),
      start(objectCreated('a.zip', 'v2')),
      start(objectCreated('b.zip', 'v1')),
    ];
    expect(new Set(names).size).toBe(4);
  });
});

describe('an upload as a reference', () => {
  it.each([
    { bucket: 'uploads', key: 'ada/skerry hat.zip', version: 'v1' },
    { bucket: 'uploads', key: 'ä/100%?x=1&y#z+.zip', version: 'a/b?c=d' },
    { bucket: 'uploads', key: 'a.zip' },
  ])('%j is read back as it was written', (upload) => {
    expect(readUpload(writeUpload(upload))).toEqual(upload);
  });

  it('that names none is a fault', () => {
    expect(() => readUpload('/etc/passwd')).toThrow(/names no upload/);
  });
});
