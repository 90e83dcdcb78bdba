/**
 * The whole work of a designer at the pages in the cloud, over the events of the gateway: from a starter
 * through a wrong number to her release and everything taken home, with a second tab open, papers that go out
 * and come back, and files too large for an answer. Her pattern and its checks are real; setting and
 * picturing it is left to the small rooms of the tests.
 */
import { unzipSync, zipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import { handler as makeZip } from '../../functions/zip/handler.ts';
import { PAGES_LIMITS } from '../../src/base/limits.ts';
import { tagOf } from '../../src/shelf/shelf.ts';
import { firstField } from '../desk/opened.ts';
import { skerryFiles, studioRooms } from '../pipeline/studio.ts';
import {
  begin,
  endOfRuns,
  led,
  plain,
  saleForm,
  sendToStore,
  type UploadForm,
  uploadForm,
} from './at-work.ts';
import { type Browser, HOME } from './browser.ts';
import { objectCreated } from './events.ts';
import { OpenedPages } from './opened-pages.ts';

const desk = new OpenedPages({ keeps: true });
const HAT = '/patterns/breakwater-hat';
const FILE = 'pattern.json';
let ada: Browser;
beforeAll(async () => {
  ada = await desk.signIn();
});

const read = async (to: string): Promise<string> => {
  const { status, html } = await ada.get(to);
  expect([to, status]).toEqual([to, 200]);
  return html;
};
const bundle = async () => unzipSync((await ada.get(`${HAT}/bundle.zip`)).bytes);
const pattern = async () => new TextDecoder().decode((await bundle())[FILE]);
const tagNow = async () => tagOf((await bundle())[FILE] ?? new Uint8Array());
const correct = async (order: Readonly<Record<string, string>>) =>
  ada.post(`${HAT}/correct`, { file: FILE, tag: await tagNow(), ...order });

/** Hands a paper in; gives the page and the name under which it waits. */
async function bring(to: string, name: string, text: string) {
  const form = new FormData();
  form.append('paper', new Blob([text]), name);
  const { status, html } = await ada.post(`${HAT}/${to}`, form);
  return { status, html, waits: /name="waits" value="([^"]+)"/.exec(html)?.[1] ?? '' };
}

let sound = '';

describe('a pattern on the shelf', () => {
  it('is begun from a starter, where nothing lay before', async () => {
    expect(await read('/')).toContain('No pattern lies here yet');
    expect(await begin(ada)).toBe(HAT);
    expect(await read(HAT)).toContain('Every number follows in every size.');
    expect(await read('/')).toContain(`href="${HAT}"`);
    expect(await read(`${HAT}/standing`)).toContain('Every number follows');
    sound = await pattern();
  });

  it('shows a wrong number where it stands, corrects it there, and takes that back', async () => {
    const [before = ''] = /[^"\n]*126 \(133, 140[^"\n]*/.exec(sound) ?? [];
    const wrong = { pointer: pointerOf(sound, before), value: before.replace('(133', '(134') };
    expect(led(await correct(wrong))).toBe(`${HAT}?done=correct`);
    const html = await read(`${HAT}?done=correct`);
    expect(html).toContain('<mark>134</mark>');
    expect(html).toMatch(/findings? stands? against a release/);

    const field = firstField(html);
    led(await ada.post(`${HAT}/correct`, { ...field, value: plain(field['value'] ?? '').replace('(134', '(133') })); // prettier-ignore
    expect(await read(HAT)).toContain('Every number follows in every size.');
    expect(await pattern()).toBe(sound);
    led(await ada.post(`${HAT}/undo`, {}));
    expect(await read(HAT)).toContain('<mark>134</mark>');
    led(await ada.post(`${HAT}/undo`, {}));
    expect((await ada.post(`${HAT}/undo`, {})).status).toBe(422);
    expect(await pattern()).toBe(sound);
  });

  it('is not written over from a tab that was left open, and nothing typed there is lost', async () => {
    const tag = await tagNow();
    led(await correct({ pointer: '/version', value: '1.0.1', tag }));
    const late = await correct({ pointer: '/version', value: '2.0.0', tag });
    expect(late.status).toBe(409);
    expect(late.html).toContain('2.0.0');
    expect(await pattern()).toContain('"version": "1.0.1"');
    led(await ada.post(`${HAT}/undo`, {}));
  });

  it('keeps what was typed beside a fault, and writes none that cannot be read', async () => {
    const slip = await correct({ pointer: '/issued', value: '<b>' });
    expect(slip.status).toBe(422);
    expect(slip.html).toContain('&lt;b&gt;');
    expect(await pattern()).toBe(sound);
  });

  it('may keep a warning that was looked at, with the reason', async () => {
    const where = '/yarns/0/colours/0/grams';
    led(await correct({ pointer: where, value: '60 (95, 75, 85, 90)' }));
    expect(await read(HAT)).toContain('action="/patterns/breakwater-hat/accept"');
    const accepted = { code: 'grade/yarn', where, value: 'spun thicker', tag: await tagNow() };
    expect(led(await ada.post(`${HAT}/accept`, accepted))).toBe(`${HAT}?done=accept`);
    expect(await read(HAT)).toContain('spun thicker');
    led(await ada.post(`${HAT}/undo`, {}));
    led(await ada.post(`${HAT}/undo`, {}));
    expect(await pattern()).toBe(sound);
  });

  it.each(['numbers', 'pins', 'rule?number=hat-sts', 'drawings', 'translations', 'languages', 'pages', 'web-page', 'follow', 'release'])(
    'has its page: %s',
    async (page) => {
      expect((await read(`${HAT}/${page}`)).length).toBeGreaterThan(20);
    },
  ); // prettier-ignore

  it('speaks the reader’s language, and says faults in it', async () => {
    const page = await ada.get(HAT, { 'accept-language': 'de' });
    expect(page.html).toContain('Jede Zahl');
    const fault = await ada.get('/patterns/nowhere', { 'accept-language': 'ja' });
    expect(fault.status).toBe(404);
    expect(fault.html).toContain('<html lang="ja">');
    expect(fault.html).not.toContain('no pattern of that name');
  });
});

const pointerOf = (text: string, value: string): string => {
  const search = (node: unknown, at: string): string | undefined => {
    if (node === value) return at;
    if (typeof node !== 'object' || node === null) return undefined;
    for (const [key, each] of Object.entries(node)) {
      const found = search(each, `${at}/${key}`);
      if (found !== undefined) return found;
    }
    return undefined;
  };
  return search(JSON.parse(text), '') ?? '';
};

describe('papers', () => {
  it('go to the translator as XLIFF, come back, and are written after a yes', async () => {
    const prose = async () => new TextDecoder().decode((await bundle())['prose/de.json']);
    const before = await prose();
    const out = await ada.get(`${HAT}/texts/de.xlf?all`);
    expect(out.heads['content-type']).toContain('xliff');
    const { title } = JSON.parse(before) as { title: string };
    const { html, waits } = await bring('texts', 'hat-de.xlf', out.html.replace(`${title}</target>`, `${title} neu</target>`)); // prettier-ignore
    expect(html).toContain('Nothing is written yet');
    expect(await prose()).toBe(before);
    expect(led(await ada.post(`${HAT}/take`, { waits }))).toBe(`${HAT}?done=papers`);
    expect(await prose()).toContain(`${title} neu`);
    led(await ada.post(`${HAT}/undo`, {}));
    expect(await prose()).toBe(before);
  });

  it.each(['csv', 'xlsx'])('go out as a table of numbers: %s', async (kind) => {
    const { status, heads, bytes } = await ada.get(`${HAT}/numbers.${kind}`);
    expect([status, heads['content-disposition']]).toEqual([200, `attachment; filename="breakwater-hat-numbers.${kind}"`]); // prettier-ignore
    expect(bytes.length).toBeGreaterThan(500);
  });

  it('come back as numbers, wait, and write nothing over what changed meanwhile', async () => {
    const table = await read(`${HAT}/numbers.csv`);
    const changed = table.replace(/(gauges\/[\w-]+\/stitches(?:,[^,\n]*){3},)(\d+)/, '$199');
    const { html, waits } = await bring('sheet', 'numbers.csv', changed);
    expect(html).toMatch(/gauges [\w ]+stitches: \d+ → 99/);
    led(await correct({ pointer: '/version', value: '1.0.1' }));
    expect((await ada.post(`${HAT}/take`, { waits })).status).toBe(409);
    led(await ada.post(`${HAT}/undo`, {}));
    expect(await pattern()).toBe(sound);
  });

  it('that are none of hers are refused in words', async () => {
    expect((await bring('texts', 'x.xlf', '<html/>')).status).toBe(422);
    expect((await bring('sheet', 'numbers.pdf', 'x')).status).toBe(422);
    expect((await ada.post(`${HAT}/take`, { waits: crypto.randomUUID() })).status).toBe(404);
    expect((await ada.post(`${HAT}/take`, { waits: '../../x' })).status).toBe(404);
  });
});

describe('a document as it would be set now', () => {
  it('comes with the answer where it is small', async () => {
    const { status, heads, html } = await ada.get(`${HAT}/sheet.pdf?language=de`);
    expect([status, heads['content-type']]).toEqual([200, 'application/pdf']);
    expect(html).toMatch(/^%PDF de/);
  });

  it('is fetched from the store where an answer cannot hold it', async () => {
    const large = new Uint8Array(PAGES_LIMITS.answerBytes + 1).fill(32);
    desk.cloud.rooms = { ...studioRooms(), compose: async () => ({ bytes: large, pages: 9 }) };
    const address = led(await ada.get(`${HAT}/sheet.pdf?language=fr`));
    desk.cloud.rooms = studioRooms();
    expect(address.startsWith(`${desk.cloud.front.endpoint}/work/ada/drafts/`)).toBe(true);
    const fetched = await fetch(address);
    expect(fetched.headers.get('content-type')).toBe('application/pdf');
    expect(fetched.headers.get('content-disposition')).toBe('inline');
    expect((await fetched.arrayBuffer()).byteLength).toBe(large.length);
    const forged = address.replace('/ada/', '/bo/');
    expect((await fetch(forged)).status).toBe(403);
  });
});

// ---------------------------------------------------------------- runs

/** What a run tells a browser that listens: `[event, data]`, and after how long to ask again. */
async function hear(run: string) {
  const { heads, html } = await ada.get(`/runs/${run}/events`);
  expect(heads['content-type']).toBe('text/event-stream; charset=utf-8');
  const told = [...html.matchAll(/^event: (\w+)\ndata: (.*)$/gm)].map(
    ([, event = '', data = '']) => [event, JSON.parse(data) as Record<string, unknown>] as const,
  );
  return { told, retry: /^retry: (\d+)$/m.exec(html)?.[1] };
}

describe('a run', () => {
  it('is told as far as it has come, is stopped, and is run again', async () => {
    let open = () => undefined as void;
    const opened = new Promise<void>((resolve) => (open = () => resolve()));
    const rooms = studioRooms();
    desk.cloud.rooms = {
      ...rooms,
      compose: async (checked, order, ...rest) => {
        if (order.language !== 'de') await opened;
        return rooms.compose(checked, order, ...rest);
      },
    };
    led(await ada.post(`${HAT}/runs`, saleForm(sound)));
    const [run = ''] = desk.cloud.machines.runs.keys();
    await expect
      .poll(async () => (await hear(run)).told, { timeout: 20_000 })
      .toContainEqual([
        'progress',
        { step: 'proof', state: 'done', language: 'de', edition: 'standard' },
      ]);
    const { told, retry } = await hear(run);
    expect(retry).toBe('3000');
    expect(told).toContainEqual(['progress', { step: 'proof', state: 'started', language: 'fr', edition: 'standard' }]); // prettier-ignore
    expect(told.map(([event]) => event)).not.toContain('end');
    expect(await read(`${HAT}/release`)).toContain(`data-run="${run}"`);

    expect(led(await ada.post(`/runs/${run}/cancel`, {}))).toBe(`${HAT}/release`);
    open();
    await endOfRuns(desk);
    expect((await hear(run)).told.at(-1)).toMatchObject(['end', { run, state: 'cancelled' }]);
    const page = await read(`${HAT}/release`);
    expect(page).toContain(`action="/runs/${run}/again"`);
    expect(page).not.toContain(`data-run=`);

    desk.cloud.rooms = studioRooms();
    expect(led(await ada.post(`/runs/${run}/again`, {}))).toBe(`${HAT}/release`);
    const [, again = ''] = await endOfRuns(desk);
    expect((await hear(again)).told.at(-1)).toMatchObject(['end', { run: again, state: 'released' }]); // prettier-ignore
  });

  it('that blocks shows why', async () => {
    const [before = ''] = /[^"\n]*126 \(133, 140[^"\n]*/.exec(sound) ?? [];
    led(await correct({ pointer: pointerOf(sound, before), value: before.replace('(133', '(134') })); // prettier-ignore
    led(await correct({ pointer: '/version', value: '1.0.2' }));
    expect(await read(`${HAT}/release`)).toMatch(/stands? against/);
    led(await ada.post(`${HAT}/undo`, {}));
    led(await ada.post(`${HAT}/undo`, {}));
  });
});

describe('a release', () => {
  it('shows its documents, and the texts for the shop to be copied', async () => {
    const html = await read(`${HAT}/release`);
    expect(await read(`${HAT}/follow`)).toContain('Version 1.0.0 is released');
    expect(html).toMatch(/<pre id="text-1-0-0-de-listing-txt"[^>]*>[^<]+\(de\)/);
    expect(html).toContain('data-copy="text-1-0-0-de-listing-txt"');
    const asked = desk.asked.length;
    await read(`${HAT}/release`);
    expect(desk.asked.slice(asked).join()).not.toContain('/download');
    expect(html.match(/data-pdf="\/files\/breakwater-hat\/1\.0\.0\//g)).toHaveLength(20);
  });

  it('gives each file by an address the browser fetches itself', async () => {
    const html = await read(`${HAT}/release`);
    const [, file = ''] = /data-pdf="(\/files\/[^"]+)"/.exec(html) ?? [];
    const address = led(await ada.get(file));
    expect(address.startsWith(desk.cloud.front.endpoint)).toBe(true);
    const fetched = await fetch(address);
    expect(fetched.headers.get('content-type')).toBe('application/pdf');
    expect(fetched.headers.get('content-disposition')).toMatch(/^inline; filename="breakwater/);
    expect(await fetched.text()).toMatch(/^%PDF/);
  });

  it('gives all of them as one zip, which is made meanwhile', async () => {
    const all = '/files/breakwater-hat/1.0.0.zip';
    const waiting = await ada.get(all);
    expect(waiting.status).toBe(202);
    expect(waiting.html).toContain(`data-awaited="${all}"`);
    expect((await ada.get(all)).status).toBe(202);
    await makeZip(objectCreated('ada/zips/breakwater-hat/1.0.0.json', 'null'));
    const address = led(await ada.get(all));
    const fetched = await fetch(address);
    expect(fetched.headers.get('content-disposition')).toBe('attachment; filename="breakwater-hat-1.0.0.zip"'); // prettier-ignore
    const names = Object.keys(unzipSync(new Uint8Array(await fetched.arrayBuffer())));
    expect(names).toContain('de/listing.txt');
  });
});

describe('a bundle', () => {
  it('is taken home, and handed in again by a form that goes straight to the store', async () => {
    const home = await ada.get(`${HAT}/bundle.zip`);
    expect(home.heads['content-disposition']).toBe('attachment; filename="breakwater-hat.zip"');
    const back = await sendToStore(uploadForm(await read('/')), home.bytes);
    const copy = led(await ada.get(back));
    expect(copy).toMatch(/^\/patterns\/breakwater-hat-\d+$/);
    expect(led(await ada.get(back))).toBe(copy);
    expect(await read(copy)).toContain('Every number follows in every size.');
  });

  it('is handed in by a fresh form, where the page lay open for long', async () => {
    const form = JSON.parse(await read('/hand-in/form')) as UploadForm;
    expect(form.fields['success_action_redirect']).toMatch(`${HOME}/handed-in/`);
    const back = await sendToStore(form, zipSync(Object.fromEntries(skerryFiles())));
    expect(led(await ada.get(back))).toBe('/patterns/skerry-hat');
  });

  it('that is none is refused in words, and lies nowhere', async () => {
    const back = await sendToStore(uploadForm(await read('/')), new TextEncoder().encode('no zip'));
    const { status, html } = await ada.get(back);
    expect(status).toBe(422);
    expect(html).toContain('no zip');
    expect((await ada.get('/handed-in/' + crypto.randomUUID())).status).toBe(404);
  });
});

describe('a pattern that was released and does not lie on the shelf', () => {
  it('is named there quietly, and shows what was made of it', async () => {
    expect(await read('/')).not.toContain('/released/');
    const files = skerryFiles({ id: 'fulmar-hat' });
    await desk.cloud.endOf(await desk.cloud.upload('ada/fulmar.zip', files));
    expect(await read('/')).toContain('href="/released/fulmar-hat"');
    const html = await read('/released/fulmar-hat');
    expect(html).toContain('href="/files/fulmar-hat/1.0.0.zip"');
    expect(html).toMatch(/<pre id="text-1-0-0-de-listing-txt"/);
    expect(html).not.toContain('?made=');

    const next = skerryFiles({ id: 'fulmar-hat', version: '1.1.0' });
    await desk.cloud.endOf(await desk.cloud.upload('ada/fulmar-2.zip', next));
    expect(await read('/released/fulmar-hat')).toContain('href="/released/fulmar-hat?made&#x3D;1.0.0"'); // prettier-ignore
    expect(await read('/released/fulmar-hat?made=1.0.0')).toContain('fulmar-hat/1.0.0.zip');
    expect((await ada.get('/released/gannet-hat')).status).toBe(404);
  });
});

describe('a store that does not answer', () => {
  it('is told of in words, and the page comes when it answers again', async () => {
    const form = JSON.parse(await read('/hand-in/form')) as UploadForm;
    const files = Object.fromEntries(skerryFiles({ version: '3.0.0' }));
    const address = led(await ada.get(await sendToStore(form, zipSync(files))));
    desk.cloud.front.trouble = (request) =>
      request.startsWith('GET shelf/ada/files/') ? { kind: 'busy', status: 503 } : undefined;
    const { status, html } = await ada.get(address);
    desk.cloud.front.trouble = () => undefined;
    expect(status).toBe(503);
    expect(html).toContain('ry again in a minute');
    await read(address);
  });
});
