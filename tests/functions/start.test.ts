import type { S3ObjectCreatedNotificationEvent } from 'aws-lambda';
import { describe, expect, it } from 'vitest';
import {
  planStart,
  readArrival,
  readListed,
  readSettings,
  SETTINGS_NAME,
  writeSettings,
} from '../../functions/starter/start.ts';
import { readUpload, writeUpload } from '../../src/store/upload.ts';
import { objectCreated } from './events.ts';

const HASH = 'f'.repeat(64);

describe('an event of a new object', () => {
  it('names the upload, its version and its size', () => {
    expect(readArrival(objectCreated('ada/hats/skerry hat.zip', 'v1'))).toEqual({
      studio: 'ada',
      upload: { bucket: 'uploads', key: 'ada/hats/skerry hat.zip', version: 'v1' },
      sizeBytes: 2048,
      mark: 'v1',
    });
  });

  it('starts nothing where the object is no zip', () => {
    expect(readArrival(objectCreated('ada/cover.png', 'v1'))).toBeUndefined();
    expect(readArrival(objectCreated('ada/HAT.ZIP', 'v1'))).toBeDefined();
  });

  it.each(['hat.zip', 'Ada/hat.zip', '../hat.zip', 'a_b/hat.zip', '/hat.zip', '-/hat.zip'])(
    'is refused aloud where %s lies in no studio’s folder',
    (key) => {
      expect(() => readArrival(objectCreated(key, 'v1'))).toThrow(/lies in no studio’s folder/);
    },
  );

  it('starts nothing for a bundle that waits for its batch, or to be laid on the shelf', () => {
    expect(readArrival(objectCreated('ada/batches/spring/hat.zip', 'v1'))).toBeUndefined();
    expect(readArrival(objectCreated('ada/desk/hat.zip', 'v1'))).toBeUndefined();
    expect(readArrival(objectCreated('ada/hats/desk/hat.zip', 'v1'))).toBeDefined();
    expect(readArrival(objectCreated('desk/hat.zip', 'v1'))).toBeDefined();
  });

  it.each([
    [
      'an event of another kind',
      { ...objectCreated('ada/a.zip', 'v1'), 'detail-type': 'Object Deleted' },
    ],
    ['nothing', undefined],
    ['an event of the direct notification', { Records: [] }],
  ])('%s is refused', (_title, event) => {
    expect(() => readArrival(event)).toThrow();
  });

  it('without a version is told apart by its sequencer', () => {
    const event = objectCreated('ada/a.zip', 'v1');
    const { 'version-id': _version, ...object } = event.detail.object;
    const bare = { ...event, detail: { ...event.detail, object } };
    expect(readArrival(bare)).toMatchObject({ mark: event.detail.object.sequencer });
  });
});

describe('an object of a batch', () => {
  const listed = (key: string, etag = '"1"') =>
    readListed({ object: { Key: key, Size: 5, Etag: etag } }, 'uploads');
  it('is read as an upload without a version', () => {
    expect(listed('ada/batches/spring/hat.zip')).toEqual({
      studio: 'ada',
      upload: { bucket: 'uploads', key: 'ada/batches/spring/hat.zip' },
      sizeBytes: 5,
      mark: '"1"',
    });
    expect(listed('ada/batches/spring/')).toBeUndefined();
    expect(() => listed('hat.zip')).toThrow(/lies in no studio’s folder/);
  });
});

describe('what was ordered with an upload', () => {
  const order = { languages: ['de'], editions: [{ kind: 'one-size' as const, size: 'Größe 1' }] };
  it('is read back, and is everything where nothing was said', () => {
    const said = writeSettings(order);
    expect(said).toMatch(/^[\w-]+$/);
    expect(readSettings({ [SETTINGS_NAME]: said })).toEqual(order);
    expect(readSettings({})).toEqual({});
  });
  it.each(['', 'e30x', Buffer.from('{"languages":[]}').toString('base64url')])(
    'is refused as %j',
    (said) => {
      expect(() => readSettings({ [SETTINGS_NAME]: said })).toThrow(/cannot be read/);
    },
  );
  it('is part of what the run is started with', () => {
    const arrival = readArrival(objectCreated('ada/a.zip', 'v1'));
    expect(arrival && planStart(arrival, HASH, order).input).toEqual({
      studio: 'ada',
      source: 's3://uploads/ada/a.zip?version=v1',
      settings: order,
    });
  });
});

describe('the name of a run', () => {
  const start = (event: S3ObjectCreatedNotificationEvent, hash = HASH) => {
    const arrival = readArrival(event);
    return arrival && planStart(arrival, hash, {}).name;
  };

  it('fits what Step Functions allows', () => {
    const longest = start(objectCreated(`ada/${'x/'.repeat(500)}a.zip`, 'v'.repeat(1024)));
    expect(longest).toMatch(/^[0-9a-f-]{1,80}$/);
  });

  it('is the same for the same event, however often and late it comes', () => {
    const event = objectCreated('ada/a.zip', 'v1');
    const repeated = { ...event, id: 'another id', time: '2027-01-01T00:00:00Z' };
    expect(start(repeated)).toBe(start(event));
  });

  it('differs by content, by upload and by place', () => {
    const names = [
      start(objectCreated('ada/a.zip', 'v1')),
      start(objectCreated('ada/a.zip', 'v1'), 'e'.repeat(64)),
      start(objectCreated('ada/a.zip', 'v2')),
      start(objectCreated('ada/b.zip', 'v1')),
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
