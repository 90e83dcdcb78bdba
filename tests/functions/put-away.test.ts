/**
 * Putting away at the pages in the cloud, over the real API: asked once, off the shelf while a run goes on
 * with what it was started from, and taken back. And that the pages are no second way into the API.
 */
import { unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { begin, endOfRuns, led, saleForm } from './at-work.ts';
import { OpenedPages } from './opened-pages.ts';

const desk = new OpenedPages();

describe('a pattern at the pages in the cloud', () => {
  it('is put away after one question, and taken back whole', async () => {
    const ada = await desk.signIn();
    const at = await begin(ada);
    const { bytes: before } = await ada.get(`${at}/bundle.zip`);
    expect((await ada.get(at)).html).toContain(`href="${at}/away"`);
    expect((await ada.get(`${at}/away`)).html).toContain(`<form method="post" action="${at}/away"`);
    const shelf = await ada.get(led(await ada.post(`${at}/away`, {})));
    expect(shelf.html).toContain('breakwater-hat is put away.');
    expect(shelf.html).not.toContain(`href="${at}"`);
    expect((await ada.get(at)).status).toBe(404);
    expect(led(await ada.post(`${at}/back`, {}))).toBe(at);
    expect((await ada.get(`${at}/bundle.zip`)).bytes).toEqual(before);
  });

  it('may be put away while a run is at work on it, which is released all the same', async () => {
    const ada = await desk.signIn();
    const at = await begin(ada);
    const { bytes } = await ada.get(`${at}/bundle.zip`);
    const pattern = new TextDecoder().decode(unzipSync(bytes)['pattern.json']);
    led(await ada.post(`${at}/runs`, saleForm(pattern)));
    led(await ada.post(`${at}/away`, {}));
    const [run = ''] = await endOfRuns(desk);
    expect(await desk.cloud.machines.runs.get(run)).toMatchObject({ state: 'Released' });
    expect((await ada.get('/')).html).toContain('href="/released/breakwater-hat"');
  });

  it('is there to be taken back by its own studio alone', async () => {
    const [ada, bo] = [await desk.signIn(), await desk.signIn('bo')];
    const at = await begin(ada);
    expect((await bo.post(`${at}/away`, {})).status).toBe(404);
    led(await ada.post(`${at}/away`, {}));
    expect((await bo.get('/')).html).not.toContain('breakwater-hat/back');
    expect((await bo.post(`${at}/back`, {})).status).toBe(404);
  });
});

describe('the pages in the cloud', () => {
  it('serve nothing of the API beside its gateway', async () => {
    const ada = await desk.signIn();
    await begin(ada);
    for (const address of ['/api/bundles', '/api/bundles/breakwater-hat', '/api/runs', '/api/away'])
      expect([address, (await ada.get(address)).status]).toEqual([address, 404]);
    expect((await ada.post('/api/bundles/breakwater-hat/away', {})).status).toBe(404);
    expect((await ada.get('/')).html).toContain('href="/patterns/breakwater-hat"');
  });
});
