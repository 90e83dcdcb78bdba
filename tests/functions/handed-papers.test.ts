/**
 * Papers handed in at the shelf in the cloud, over the events of the gateway: a spreadsheet goes to the desk
 * itself, finds its pattern on the shelf of the studio, waits in a draft where several could be meant, bytes
 * and all, and is written when somebody agrees.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { begin, led, uploadForm } from './at-work.ts';
import type { Browser } from './browser.ts';
import { OpenedPages } from './opened-pages.ts';

const desk = new OpenedPages({ keeps: true });
const HAT = '/patterns/breakwater-hat';
let ada: Browser;
beforeAll(async () => {
  ada = await desk.signIn();
});

async function handIn(name: string, bytes: Uint8Array<ArrayBuffer>) {
  const form = new FormData();
  form.append('paper', new Blob([bytes]), name);
  return read(await ada.post('/hand-in', form));
}

function read({ status, html }: { readonly status: number; readonly html: string }) {
  const waits = /name="waits" value="([^"]+)"/.exec(html)?.[1] ?? '';
  const action = /<main[^]*<form method="post" action="([^"]+)"/.exec(html)?.[1] ?? '';
  return { status, html, waits, action };
}

describe('a paper at the shelf in the cloud', () => {
  it('has a form of its own, which leads to the desk and not past it', async () => {
    const { html } = await ada.get('/');
    expect(html).toMatch(/action="\/hand-in"[^>]*>\s*<div><label for="paper">/);
    expect(uploadForm(html).url).not.toBe('/hand-in');
    const early = await handIn('x.csv', new TextEncoder().encode('key,name,unit,rule,S\na,,,,1\n'));
    expect(early.status).toBe(404);
    expect(early.html).toContain('No pattern lies here yet');
  });

  it('finds its pattern, and is written when somebody agrees', async () => {
    await begin(ada);
    const table = new TextDecoder().decode((await ada.get(`${HAT}/numbers.csv`)).bytes);
    const wider = table.replace(/(gauges\/[\w-]+\/stitches(?:,[^,\n]*){3},)(\d+)/, '$133');
    const { status, html, waits, action } = await handIn('n.csv', new TextEncoder().encode(wider));
    expect(status).toBe(200);
    expect(html).toMatch(/gauges [\w ]+stitches: \d+ → 33/);
    expect(action).toBe(`${HAT}/take`);
    expect(led(await ada.post(action, { waits }))).toBe(`${HAT}?done=papers`);
    led(await ada.post(`${HAT}/undo`, {}));
  });

  it('is asked for its pattern where there are two copies, and comes out of its draft as it was', async () => {
    const book = (await ada.get(`${HAT}/numbers.xlsx`)).bytes;
    const copy = await begin(ada);
    const asked = await handIn('Hat.xlsx', new Uint8Array(book));
    expect(asked.html).toContain('Which pattern is meant?');
    const { waits, action } = asked;
    const name = copy.split('/').at(-1) ?? '';
    const shown = read(await ada.post(action, { waits, name }));
    expect(shown.html).toContain('Nothing differs from the bundle.');
    expect(shown.html).toContain(`href="${copy}/numbers"`);
  });

  it('that is a bundle is not taken past the store', async () => {
    expect((await handIn('hat.zip', new Uint8Array(8))).status).toBe(404);
  });
});
