/**
 * The deployment on loopback: buckets, state machines and the topic as servers, the functions in this
 * process with the real SDK, their environment set as the stack sets it. The rooms are those of the tests.
 */
import { zipSync } from 'fflate';
import { vi } from 'vitest';
import { stepHandler } from '../../functions/step-handler.ts';
import { openWorld, type StudioStores } from '../../functions/world.ts';
import type { MachineEnd } from '../../src/pipeline/machine/run.ts';
import type { StepName } from '../../src/pipeline/ports.ts';
import { s3Store } from '../../src/store/s3.ts';
import type { StudioRooms } from '../pipeline/studio.ts';
import { skerryFiles, studioRooms } from '../pipeline/studio.ts';
import { clientOf } from '../store/client.ts';
import type { S3Front } from '../store/s3-front/server.ts';
import { startS3Front } from '../store/s3-front/server.ts';
import { objectCreated } from './events.ts';
import type { LoopbackMachines } from './step-functions.ts';
import { startMachines } from './step-functions.ts';
import type { LoopbackTopic } from './topic.ts';
import { startTopic } from './topic.ts';

export interface Cloud {
  readonly front: S3Front;
  readonly machines: LoopbackMachines;
  readonly topic: LoopbackTopic;
  rooms: StudioRooms;
  /** What the functions wrote to the log since the last `clear`. */
  readonly lines: string[];
  /** Empty buckets, no news, rooms that find nothing. */
  clear(): void;
  /** Uploads a bundle; gives the event that S3 sends for that very version. */
  upload(key: string, content?: ReadonlyMap<string, Uint8Array> | Uint8Array): Promise<unknown>;
  /** Tells the starter of an event, and waits for the run. */
  endOf(event: unknown): Promise<{ readonly run: string; readonly end: MachineEnd | undefined }>;
  studio(name: string): StudioStores;
  close(): Promise<void>;
}

export async function startCloud(): Promise<Cloud> {
  const front = await startS3Front();
  const topic = await startTopic();
  const machines = await startMachines((step, input) =>
    stepHandler(step as StepName, async () => openWorld(cloud.rooms))(input),
  );
  for (const [name, value] of Object.entries(environmentOf(front, machines, topic)))
    vi.stubEnv(name, value);
  // Its clients read the environment when they are made.
  const { handler: starter } = await import('../../functions/starter/handler.ts');
  const lines: string[] = [];
  const bucket = (name: string, prefix: string) =>
    s3Store(clientOf(front), { bucket: name, prefix });

  const cloud: Cloud = {
    front,
    machines,
    topic,
    rooms: studioRooms(),
    lines,
    clear() {
      lines.length = 0;
      for (const stream of [process.stdout, process.stderr]) {
        vi.spyOn(stream, 'write').mockImplementation((line) => lines.push(String(line)) > 0);
      }
      topic.told.length = 0;
      cloud.rooms = studioRooms();
      for (const name of ['work', 'releases', 'shelf']) front.createBucket(name);
      front.createBucket('uploads', { versioned: true });
    },
    upload: (key, content = skerryFiles()) => upload(front, key, content),
    async endOf(event) {
      const { run = '' } = (await starter(event)) ?? {};
      return { run, end: await machines.runs.get(run) };
    },
    studio: (name) => ({
      work: bucket('work', name),
      releases: bucket('releases', name),
      shelf: bucket('shelf', name),
    }),
    async close() {
      vi.unstubAllEnvs();
      await machines.close();
      await topic.close();
      await front.close();
    },
  };
  return cloud;
}

/** What a deployed function is told by its surroundings. */
export const environmentOf = (
  front: S3Front,
  machines: LoopbackMachines,
  topic: LoopbackTopic,
): Readonly<Record<string, string>> => ({
  AWS_REGION: 'eu-west-1',
  AWS_ACCESS_KEY_ID: front.keys.accessKeyId,
  AWS_SECRET_ACCESS_KEY: front.keys.secretAccessKey,
  AWS_ENDPOINT_URL_S3: front.endpoint,
  AWS_ENDPOINT_URL_SFN: machines.endpoint,
  AWS_ENDPOINT_URL_SNS: topic.endpoint,
  UPLOADS_BUCKET: 'uploads',
  WORK_BUCKET: 'work',
  RELEASES_BUCKET: 'releases',
  SHELF_BUCKET: 'shelf',
  STATE_MACHINE_ARN: 'arn:aws:states:eu-west-1:111122223333:stateMachine:Publish',
  NEWS_TOPIC_ARN: 'arn:aws:sns:eu-west-1:111122223333:News',
  STUDIO_CLAIM: 'studio',
  DESK_ADDRESS: 'https://desk.northfold.example',
});

async function upload(
  front: S3Front,
  key: string,
  content: ReadonlyMap<string, Uint8Array> | Uint8Array,
): Promise<unknown> {
  let version = '';
  const client = clientOf(front);
  client.middlewareStack.add(
    (next) => async (args) => {
      const result = await next(args);
      version = (result.output as { VersionId?: string }).VersionId ?? '';
      return result;
    },
    { step: 'initialize' },
  );
  const bytes = content instanceof Uint8Array ? content : zipSync(Object.fromEntries(content));
  await s3Store(client, { bucket: 'uploads', prefix: '' }).put(key, bytes);
  return objectCreated(key, version, bytes.length);
}
