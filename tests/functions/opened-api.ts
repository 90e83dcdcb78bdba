/**
 * The API for the tests of one file: the deployment on loopback with its callers, bundles handed in as a
 * browser does. Each test begins with empty buckets.
 */
import { zipSync } from 'fflate';
import { afterAll, beforeAll, beforeEach, expect } from 'vitest';
import { present } from '../../src/base/assert.ts';
import { skerryFiles } from '../pipeline/studio.ts';
import { type Callers, openCallers } from './callers.ts';
import type { Cloud } from './cloud.ts';
import { startCloud } from './cloud.ts';
import { objectCreated } from './events.ts';

export interface Opened {
  readonly upload: string;
  readonly url: string;
  readonly fields: Readonly<Record<string, string>>;
}

export const bundle = (version = '1.0.0'): Uint8Array =>
  zipSync(Object.fromEntries(skerryFiles({ version })));

/** Posts the form as a browser does: the fields, then the file. */
export async function post(
  { url, fields }: Opened,
  bytes: Uint8Array = bundle(),
  changes: Readonly<Record<string, string | undefined>> = {},
): Promise<{ readonly status: number; readonly event: unknown }> {
  const form = new FormData();
  for (const [name, value] of Object.entries({ ...fields, ...changes })) {
    if (value !== undefined) form.append(name, value);
  }
  form.append('file', new Blob([Uint8Array.from(bytes)]), 'bundle.zip');
  const { status, headers } = await fetch(url, { method: 'POST', body: form, redirect: 'manual' });
  const version = headers.get('x-amz-version-id') ?? '';
  return { status, event: objectCreated(fields['key'] ?? '', version, bytes.length) };
}

/** The deployment and its callers: opened before all tests of a file, closed behind them. */
export class OpenedApi {
  #cloud: Cloud | undefined;
  #callers: Callers | undefined;

  constructor() {
    beforeAll(async () => {
      this.#cloud = await startCloud();
      this.#callers = await openCallers();
    });
    afterAll(() => this.cloud.close());
    beforeEach(() => this.cloud.clear());
  }

  get cloud(): Cloud {
    return present(this.#cloud, 'the cloud');
  }

  get callers(): Callers {
    return present(this.#callers, 'the callers');
  }

  readonly ask: Callers['ask'] = (...asked) => this.callers.ask(...asked);

  /** Asks with JSON; fails the test where the answer is another than expected. */
  readonly tell = async <T>(
    request: string,
    value: unknown,
    { studio = 'ada', status = 201 } = {},
  ): Promise<T> => {
    const answer = await this.ask(request, studio, JSON.stringify(value));
    expect(answer.status, JSON.stringify(answer.value)).toBe(status);
    return answer.value as T;
  };

  readonly open = async (studio = 'ada', order?: unknown): Promise<Opened> => {
    const body = order === undefined ? '' : JSON.stringify(order);
    const answer = await this.ask('POST /uploads', studio, body);
    expect(answer.status).toBe(201);
    return answer.value as Opened;
  };

  /** A bundle handed in through the API, and its run to the end. */
  readonly publish = async (studio = 'ada', order?: unknown) => {
    const opened = await this.open(studio, order);
    const { status, event } = await post(opened);
    expect(status).toBe(204);
    const { run } = await this.cloud.endOf(event);
    return { ...opened, run };
  };

  /** A bundle handed in to lie on the shelf; gives the name it got there. */
  readonly lay = async (studio = 'ada', zip = bundle(), name?: string): Promise<string> => {
    const opened = await this.open(studio, { into: 'shelf' });
    expect((await post(opened, zip)).status).toBe(204);
    const named = name !== undefined && { name };
    const order = { upload: opened.upload, ...named };
    return (await this.tell<{ bundle: string }>('POST /bundles', order, { studio })).bundle;
  };
}
