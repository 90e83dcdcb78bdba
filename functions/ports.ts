/**
 * The world of a deployed step: two buckets behind the store port, uploads by version, a log. Takes the
 * rooms the step needs; those that need none bring rooms that stop it, so that a step cannot come to
 * depend on the press by accident.
 */
import { assert } from '../src/base/assert.ts';
import { BUNDLE_LIMITS } from '../src/base/limits.ts';
import { unpackBundle } from '../src/pattern/bundle/unpack.ts';
import type { Ports, Rooms } from '../src/pipeline/ports.ts';
import { openClient } from '../src/store/s3-client.ts';
import { fetchVersion, s3Store } from '../src/store/s3.ts';
import { readUpload } from '../src/store/upload.ts';
import { environment } from './environment.ts';
import { log } from './log.ts';

export function openPorts(rooms: Rooms): Ports {
  const client = openClient();
  return {
    rooms,
    readBundle: async (reference) =>
      unpackBundle(await fetchVersion(client, readUpload(reference), BUNDLE_LIMITS.zipBytes)),
    work: s3Store(client, { bucket: environment('WORK_BUCKET'), prefix: '' }),
    releases: s3Store(client, { bucket: environment('RELEASES_BUCKET'), prefix: '' }),
    log,
    progress: ({ step, state, language = '', edition = '' }) => {
      log.info('progress', { step, state, language, edition });
    },
  };
}

const shut = (): never => {
  assert(false, 'this step works without the rooms');
};

/** For steps that touch no pattern. */
export const NO_ROOMS: Rooms = {
  fingerprint: '',
  pictureSizes: [],
  check: shut,
  checkLanguage: shut,
  preparePicture: shut,
  compose: shut,
  proof: shut,
  companionTexts: shut,
};
