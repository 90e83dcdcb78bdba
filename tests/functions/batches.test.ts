/**
 * The two other state machines as they are deployed: a batch of bundles, and the daily clearing up. Their
 * definitions are run here with the functions of the cloud over buckets on loopback; the services that
 * they call by themselves (a listing, the start of a run) are answered as the Developer Guide has it.
 */
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { readDefinition } from '../../src/pipeline/machine/definition.ts';
import type { MachineEnd, MachineHost } from '../../src/pipeline/machine/run.ts';
import { runMachine } from '../../src/pipeline/machine/run.ts';
import many from '../../src/pipeline/many.asl.json' with { type: 'json' };
import tidy from '../../src/pipeline/tidy.asl.json' with { type: 'json' };
import { currentVersion } from '../../src/release/commit.ts';
import { tidyStore } from '../../src/release/tidy.ts';
import { s3Store } from '../../src/store/s3.ts';
import { skerryFiles } from '../pipeline/studio.ts';
import { witness } from '../release/witness.ts';
import { clientOf } from '../store/client.ts';
import type { Cloud } from './cloud.ts';
import { startCloud } from './cloud.ts';

let cloud: Cloud;
beforeAll(async () => {
  cloud = await startCloud();
});
afterAll(() => cloud.close());
beforeEach(() => cloud.clear());

type Tasks = Readonly<Record<string, (input: never) => Promise<unknown>>>;

function run(definition: unknown, input: unknown, tasks: Tasks): Promise<MachineEnd> {
  const host: MachineHost = {
    executionName: 'by-hand',
    concurrency: 3,
    task: (name, parameters) => {
      const task = tasks[name];
      if (task === undefined) throw new Error(`nobody works ${name}`);
      return task(parameters as never);
    },
    sleep: () => Promise.resolve(),
    random: () => 0,
  };
  return runMachine(readDefinition(definition), input, host);
}

const named = (name: string): Error => Object.assign(new Error(name), { name });

describe('a batch', () => {
  const uploads = () => s3Store(clientOf(cloud.front), { bucket: 'uploads', prefix: '' });

  /** ListObjectsV2 as a Distributed Map hands its items on: `Key`, `Size`, `Etag`. */
  async function list({ Prefix }: { Prefix: string }): Promise<unknown> {
    const found: unknown[] = [];
    for await (const { key, sizeBytes } of uploads().list(Prefix)) {
      found.push({ Key: key, Size: sizeBytes, Etag: (await uploads().get(key))?.tag });
    }
    return found;
  }

  const started = new Set<string>();

  async function startAndWait({ Name, Input }: { Name: string; Input: unknown }): Promise<unknown> {
    if (started.has(Name)) throw named('StepFunctions.ExecutionAlreadyExistsException');
    started.add(Name);
    await fetch(cloud.machines.endpoint, {
      method: 'POST',
      headers: { 'x-amz-target': 'AWSStepFunctions.StartExecution' },
      body: JSON.stringify({
        stateMachineArn: process.env['STATE_MACHINE_ARN'],
        name: Name,
        input: JSON.stringify(Input),
      }),
    });
    const end = await cloud.machines.runs.get(Name);
    if (end?.status !== 'succeeded') throw named('States.TaskFailed');
    return end.output;
  }

  async function publishMany(): Promise<MachineEnd> {
    const { handler: plan } = await import('../../functions/plan/handler.ts');
    const tasks = { listObjectsV2: list, plan, startExecution: startAndWait };
    return run(many, { prefix: 'ada/batches/spring/' }, tasks as Tasks);
  }

  it('publishes every bundle in a run of its own, beside what is no bundle', async () => {
    await cloud.upload('ada/batches/spring/one.zip');
    await cloud.upload('ada/batches/spring/two.zip', skerryFiles({ version: '1.1.0' }));
    await cloud.upload('ada/batches/spring/notes.txt', new TextEncoder().encode('for myself'));
    await cloud.upload('ada/batches/autumn/later.zip', skerryFiles({ version: '2.0.0' }));
    const before = cloud.machines.runs.size;
    expect(await publishMany()).toMatchObject({ status: 'succeeded', state: 'AllDone' });
    expect(cloud.machines.runs.size).toBe(before + 2);
    const { releases } = cloud.studio('ada');
    expect(await currentVersion(releases, 'skerry-hat')).toBe('1.1.0');
  });

  it('started twice publishes nothing twice', async () => {
    await cloud.upload('ada/batches/spring/one.zip');
    await publishMany();
    const before = cloud.machines.runs.size;
    expect(await publishMany()).toMatchObject({ status: 'succeeded', state: 'AllDone' });
    expect(cloud.machines.runs.size).toBe(before);
  });

  it('goes on past a bundle that cannot be read', async () => {
    await cloud.upload('ada/batches/spring/a-broken.zip', new TextEncoder().encode('no zip'));
    await cloud.upload('ada/batches/spring/b-good.zip', skerryFiles({ version: '1.2.0' }));
    expect(await publishMany()).toMatchObject({ status: 'succeeded', state: 'AllDone' });
    expect(await witness(cloud.studio('ada').releases, 'skerry-hat')).toBe('1.2.0');
  });
});

describe('the daily clearing up', () => {
  /** The clock of the bucket cannot be set, so that of the clearing up is. */
  async function tidyAll(now: Date): Promise<MachineEnd> {
    const { handler: studios } = await import('../../functions/studios/handler.ts');
    const tidyOne = ({ studio, owner }: { studio: string; owner: string }) =>
      tidyStore(cloud.studio(studio).releases, { now, owner });
    return run(tidy, {}, { studios, tidy: tidyOne } as unknown as Tasks);
  }
  const inDays = (days: number): Date => new Date(Date.now() + days * 86_400_000);

  it('lists on one day, deletes on a later one, and leaves every release whole', async () => {
    await cloud.endOf(await cloud.upload('ada/skerry.zip'));
    const { releases } = cloud.studio('ada');
    const lost = `artifacts/${'0'.repeat(64)}`;
    await releases.put(lost, new TextEncoder().encode('of a run that died'));
    expect(await tidyAll(inDays(2))).toMatchObject({ status: 'succeeded', state: 'Done' });
    expect(await releases.has(lost)).toBe(true);
    expect(await tidyAll(inDays(4))).toMatchObject({ status: 'succeeded', state: 'Done' });
    expect(await releases.has(lost)).toBe(false);
    expect(await witness(releases, 'skerry-hat')).toBe('1.0.0');
  });

  it('goes on to the next studio where one room cannot be cleared', async () => {
    await cloud.endOf(await cloud.upload('ada/skerry.zip'));
    await cloud.endOf(await cloud.upload('berta/skerry.zip'));
    const cleared: string[] = [];
    const { handler: studios } = await import('../../functions/studios/handler.ts');
    const tidyOne = ({ studio }: { studio: string }) => {
      if (studio === 'ada') throw named('Castoff.Refused');
      cleared.push(studio);
      return Promise.resolve({});
    };
    const end = await run(tidy, {}, { studios, tidy: tidyOne } as unknown as Tasks);
    expect(end).toMatchObject({ status: 'succeeded', state: 'Done' });
    expect(cleared).toEqual(['berta']);
  });
});
