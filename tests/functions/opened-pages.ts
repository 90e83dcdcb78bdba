/**
 * The pages in the cloud as browsers meet them, for the tests of one file: the deployment on loopback, the
 * pages over its real API, an issuer to sign in at. Each test begins with empty buckets unless it says not.
 */
import { afterAll, beforeAll, beforeEach, expect } from 'vitest';
import type { Pages } from '../../functions/pages/pages.ts';
import { present } from '../../src/base/assert.ts';
import type { Rooms } from '../../src/pipeline/ports.ts';
import { openRooms } from '../../src/pipeline/rooms.ts';
import { type Browser, HOME, openBrowser } from './browser.ts';
import { type CloudDesk, openCloudDesk } from './cloud-desk.ts';
import { type Cloud, startCloud } from './cloud.ts';
import type { TestIssuer } from './issuer.ts';

export class OpenedPages {
  #cloud: Cloud | undefined;
  #desk: CloudDesk | undefined;
  /** The hour, where it is not that of the clock. */
  clock: Date | undefined;

  /** `keeps`: what lies in the buckets stays from test to test. */
  constructor({ keeps = false } = {}) {
    beforeAll(async () => {
      this.#cloud = await startCloud();
      this.#cloud.clear();
      const real = await openRooms({ root: process.cwd(), program: 'pages' });
      const rooms = async () => besides(this.cloud.rooms, real);
      const now = () => this.clock ?? new Date();
      this.#desk = await openCloudDesk({ home: HOME, rooms, now });
    });
    afterAll(() => this.cloud.close());
    beforeEach(() => {
      if (!keeps) this.cloud.clear();
      this.clock = undefined;
      Object.assign(this.issuer, { slip: {}, terms: {}, silent: false });
    });
  }

  get cloud(): Cloud {
    return present(this.#cloud, 'the cloud');
  }

  get #opened(): CloudDesk {
    return present(this.#desk, 'the pages');
  }

  get pages(): Pages {
    return this.#opened.pages;
  }

  get issuer(): TestIssuer {
    return this.#opened.issuer;
  }

  /** What the pages asked the API for. */
  get asked(): string[] {
    return this.#opened.asked;
  }

  /** A browser that nobody has signed in with. */
  readonly browser = (): Browser => openBrowser(this.pages, this.cloud.front.endpoint);

  readonly signIn = async (studio: unknown = 'ada', to = '/'): Promise<Browser> => {
    const browser = this.browser();
    const first = await browser.get(to);
    const away = await browser.get(first.location);
    const back = this.issuer.letIn(away.location, studio);
    const { status, location } = await browser.get(back.href);
    expect([status, location]).toEqual([303, to]);
    return browser;
  };
}

/** The small rooms of the studio, with what they do not make: web pages, pictures, papers for people. */
const besides = (rooms: Rooms, real: Awaited<ReturnType<typeof openRooms>>) => ({
  ...rooms,
  equipment: real.equipment,
  preparePicture: (...order: Parameters<Rooms['preparePicture']>) => real.preparePicture(...order),
  companions: (order: Parameters<Rooms['companions']>[0]) => [
    ...rooms.companions(order),
    ...order.languages.map((language) => ({
      path: `${language}/page.html`,
      mediaType: 'text/html',
      role: 'page' as const,
      language,
      inputs: {},
      make: async () => new TextEncoder().encode(`<!doctype html><p>in ${language}`),
    })),
  ],
});
