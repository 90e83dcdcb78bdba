/**
 * The world of deployed functions: the buckets behind the store port, one room for each studio in each of
 * them, sources of bundles, the topic that tells studios. The name of the studio is the only way into a
 * room: a step, a run or a caller of another studio cannot even name what lies in this one.
 */
import { PublishCommand, SNSClient } from '@aws-sdk/client-sns';
import { assert } from '../src/base/assert.ts';
import type { RunEnd } from '../src/pipeline/payloads.ts';
import type { Ports, Progress, Rooms } from '../src/pipeline/ports.ts';
import { openClient } from '../src/store/s3-client.ts';
import { s3Store } from '../src/store/s3.ts';
import type { Store } from '../src/store/store.ts';
import { environment } from './environment.ts';
import { readSource } from './sources.ts';
import { count, log, traced } from './telemetry.ts';

export interface StudioStores {
  readonly work: Store;
  readonly releases: Store;
  /** Bundles somebody is at work on. */
  readonly shelf: Store;
}

/** The rooms of a studio: below its own name in each bucket. */
export function openStudio(studio: string, client = traced(openClient())): StudioStores {
  return {
    work: s3Store(client, { bucket: environment('WORK_BUCKET'), prefix: studio }),
    releases: s3Store(client, { bucket: environment('RELEASES_BUCKET'), prefix: studio }),
    shelf: s3Store(client, { bucket: environment('SHELF_BUCKET'), prefix: studio }),
  };
}

/** Rooms of the program are opened once; the world of each studio is made when it is first asked for. */
export function openWorld(rooms: Rooms): (studio: string) => Ports {
  const client = traced(openClient());
  let topic: SNSClient | undefined;
  return (studio) => {
    const { shelf, ...stores } = openStudio(studio, client);
    return {
      rooms,
      ...stores,
      readBundle: (source) => readSource(source, { client, shelf }),
      log,
      tell: async (end) => {
        topic ??= traced(new SNSClient({ maxAttempts: 4 }));
        await topic.send(new PublishCommand(newsOf(end)));
        count(COUNTED[end.outcome]);
      },
      progress: tellProgress,
    };
  };
}

const COUNTED: Readonly<Record<RunEnd['outcome'], string>> = {
  released: 'RunsReleased',
  blocked: 'RunsBlocked',
  failed: 'RunsFailed',
  cancelled: 'RunsStopped',
};

/** Subscribers filter by the attributes: their studio, and whether a person must act. */
const newsOf = (end: RunEnd) => ({
  TopicArn: environment('NEWS_TOPIC_ARN'),
  Subject: `Castoff: ${end.pattern ?? 'a run'} ${end.version ?? ''} ${end.outcome}`.replaceAll(
    '  ',
    ' ',
  ),
  Message: JSON.stringify(end),
  MessageAttributes: {
    studio: { DataType: 'String', StringValue: end.studio },
    outcome: { DataType: 'String', StringValue: end.outcome },
  },
});

function tellProgress({ step, state, language = '', edition = '' }: Progress): void {
  log.info('progress', { step, state, language, edition });
  if (state === 'made') count(step === 'pictures' ? 'PicturesMade' : 'DocumentsMade');
  if (state === 'reused') count(step === 'pictures' ? 'PicturesReused' : 'DocumentsReused');
}

const shut = (): never => {
  assert(false, 'this step works without the rooms');
};

/** For steps that touch no pattern: a step cannot come to depend on the press by accident. */
export const NO_ROOMS: Rooms = {
  fingerprint: '',
  pictureSizes: [],
  check: shut,
  checkLanguage: shut,
  preparePicture: shut,
  compose: shut,
  proof: shut,
  mark: shut,
  unreviewed: [],
  companions: shut,
  parcels: shut,
  sayHistory: shut,
};
