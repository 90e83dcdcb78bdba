/**
 * A number that the pattern has not yet: named on the page of numbers, given a rule, looked at in every
 * size and added only after a yes. Counts by hand: the hat's ropes have 144, 152 … 176 sts, half of them
 * 72, 76 … 88.
 */
import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { changeJson } from '../../src/pattern/bundle/edit.ts';
import type { BundleData } from '../../src/pattern/bundle/schema.ts';
import { chromiumIsThere, expectGoodLooks, expectReflow, openChromium, openReader } from './browser.ts'; // prettier-ignore
import { openTestDesk, type OpenedDesk } from './opened.ts';

const HAT = '/patterns/breakwater-hat';
const HALF = 'number=half-sts&called=half+the+ropes&unit=sts';
let desk: OpenedDesk;
let sound: string;
const file = () => path.join(desk.folder, 'breakwater-hat', 'pattern.json');
const now = () => readFile(file(), 'utf8');

beforeAll(async () => {
  desk = await openTestDesk();
  await desk.post('/begin', { starter: 'breakwater-hat' });
  sound = await now();
});
afterAll(() => desk.close());

const plain = (html: string) => html.replaceAll('&#x3D;', '=').replaceAll('&amp;', '&');
const hidden = (html: string, name: string) =>
  plain(new RegExp(`name="${name}" value="([^"]*)"`).exec(html)?.[1] ?? '');
const look = async (query: string) => {
  const answer = await desk.get(`${HAT}/rule?${query}`);
  return { status: answer.status, html: await answer.text() };
};
const write = async (html: string) =>
  (await desk.post(`${HAT}/rule`, { tag: hidden(html, 'tag'), choice: hidden(html, 'choice') })).text(); // prettier-ignore

describe('a new number', () => {
  it('is asked for its rule, and loses nothing of its name on the way', async () => {
    const { status, html } = await look(HALF);
    expect(status).toBe(200);
    expect(html).toContain('half-sts is a new number.');
    expect(html).toContain('name="called" value="half the ropes"');
    expect(html).not.toContain('value="none"');
    expect(html).toMatch(/value="length" checked/);
  });

  it('is reckoned in every size, added after a yes, and taken back', async () => {
    const { html } = await look(`${HALF}&choose=fields&kind=sum&sum=hat-sts+%2F+2`);
    for (const count of [72, 76, 80, 84, 88]) expect(html).toContain(`<td>${count}</td>`);
    expect(html).not.toContain('<del>');
    const list = await write(html);
    expect(list).toContain('A new number: half-sts half the ropes (sts)');
    expect(list).toContain('its rule becomes “hat-sts / 2”');
    expect(await now()).toBe(sound);
    await desk.post(`${HAT}/take`, { waits: hidden(list, 'waits'), back: hidden(list, 'back') });
    const { numbers } = JSON.parse(await now()) as BundleData;
    expect(numbers?.at(-1)).toEqual({ id: 'half-sts', name: 'half the ropes', unit: 'sts', rule: 'hat-sts / 2' }); // prettier-ignore
    // What stood there stands, line by line.
    const lines = new Set((await now()).split('\n'));
    expect(sound.split('\n').filter((line) => !lines.has(line))).toEqual([]);
    expect(await (await desk.get(`${HAT}/numbers`)).text()).toContain('half the ropes');
    await desk.post(`${HAT}/undo`, {});
    expect(await now()).toBe(sound);
  });

  it('is shown again where somebody else was faster', async () => {
    const { html } = await look(`${HALF}&choose=fields&kind=sum&sum=hat-sts+%2F+2`);
    await writeFile(file(), sound.replace('"1.0.0"', '"1.0.1"'));
    const late = await write(html);
    expect(late).toContain('The pattern was changed meanwhile');
    expect(late).toContain('<td>72</td>');
    await writeFile(file(), sound);
  });

  it('needs a rule that can be reckoned, and a name that a rule can say', async () => {
    const bare = await look(`${HALF}&choose=fields&kind=none`);
    expect([bare.status, bare.html]).toEqual([422, expect.stringContaining('needs a rule')]);
    const wrong = await look(`${HALF}&choose=fields&kind=sum&sum=hat-stss+%2F+2`);
    expect([wrong.status, wrong.html]).toEqual([422, expect.stringContaining('<mark>')]);
    expect((await look('number=Half%20Sts&unit=sts')).status).toBe(422);
    expect((await look('number=half-sts')).status).toBe(404);
    // One that is there is shown as it is.
    expect((await look('number=hat-sts&unit=rows')).html).not.toContain('is a new number');
  });

  it('is the first of a pattern that has none', async () => {
    const { numbers: _, ...rest } = JSON.parse(sound) as BundleData;
    await writeFile(file(), JSON.stringify(rest, null, 2));
    const { html } = await look('number=brim&unit=sts&choose=fields&kind=length&of=body+head&gauge=ropes'); // prettier-ignore
    await desk.post(`${HAT}/take`, { waits: hidden(await write(html), 'waits') });
    const { numbers } = JSON.parse(await now()) as BundleData;
    expect(numbers).toEqual([{ id: 'brim', unit: 'sts', rule: 'body head at ropes' }]);
    await writeFile(file(), sound);
  });
});

describe('an item that is added to a list', () => {
  it.each([
    ['{ "a": [1, 2] }', '{ "a": [1, 2, {"x":3}] }'],
    ['{ "a": [] }', '{ "a": [{"x":3}] }'],
    ['{\n  "a": [\n    {\n      "x": 1\n    }\n  ]\n}', '{\n  "a": [\n    {\n      "x": 1\n    },\n    {\n      "x": 3\n    }\n  ]\n}'],
    ['{\n  "a": [\n    1\n  ]\n}', '{\n  "a": [\n    1,\n    {"x":3}\n  ]\n}'],
  ])('%j', (before, after) => {
    expect(changeJson(before, [{ pointer: '/a/-', value: { x: 3 } }])).toBe(after);
  }); // prettier-ignore
});

describe.skipIf(!chromiumIsThere('a new number'))('in a browser', () => {
  it('is added with the keyboard’s own form, and looked at on a phone', async () => {
    const browser = await openChromium();
    const { page } = await openReader(browser, { width: 390 });
    page.setDefaultTimeout(20_000);
    const into = process.env['CASTOFF_PICTURES'];
    const picture = async (name: string) => {
      if (into !== undefined) await page.screenshot({ path: path.join(into, `${name}.png`), fullPage: true }); // prettier-ignore
    };
    try {
      await page.goto(desk.address);
      await page.goto(`${desk.base}${HAT}/numbers`);
      await page.getByText('Add a number').click();
      await expectGoodLooks(page, 'the fields of a new number');
      await expectReflow(page, 'the fields of a new number');
      await page.locator('details.new').scrollIntoViewIfNeeded();
      if (into !== undefined) await page.screenshot({ path: path.join(into, 'new-number.png') });
      await page.getByLabel('Its name in rules and rows').fill('half-sts');
      await page.getByRole('button', { name: 'Give it a rule' }).click();
      await page.getByText('half-sts is a new number').waitFor();
      await page.locator('[name=kind][value=sum]').check();
      await page.locator('#sum').fill('hat-sts / 2');
      await expectGoodLooks(page, 'the rule of a new number');
      await picture('new-rule');
      await page.setViewportSize({ width: 1280, height: 900 });
      await picture('new-rule-wide');
      const box = await page.locator('.source:has(#sum) .filled').boundingBox();
      const field = await page.locator('#sum').boundingBox();
      expect(field?.width).toBeGreaterThan((box?.width ?? 0) * 0.9);
      await page.getByRole('button', { name: 'See what it does' }).last().click();
      await page.getByRole('button', { name: 'Write it' }).click();
      await page.getByText('A new number: half-sts').waitFor();
      await expectGoodLooks(page, 'a new number to be agreed to');
      await page.getByRole('button', { name: 'Take these changes' }).click();
      await page.waitForURL(`**${HAT}?done=papers`);
      expect(await now()).toContain('"half-sts"');
    } finally {
      await browser.close();
    }
  });
});
