/**
 * The page of a rule: what is chosen is shown before it is written, written through a list that is
 * confirmed, taken back, and never lost where somebody else was faster. Counts of the hat are reckoned by
 * hand: heads of 20 to 24 in less 2 in, at 32 sts over 4 in, 8 sts an inch.
 */
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { BundleData } from '../../src/pattern/bundle/schema.ts';
import { openTestDesk, type OpenedDesk, STARTERS } from './opened.ts';

let desk: OpenedDesk;
beforeAll(async () => {
  desk = await openTestDesk();
});
afterAll(() => desk.close());

const begin = async (starter: string): Promise<string> =>
  (await desk.post('/begin', { starter })).headers.get('location') ?? '';

const read = async (address: string) => {
  const answer = await desk.get(address);
  return { status: answer.status, html: await answer.text() };
};

const patternOf = async (address: string) =>
  readFile(path.join(desk.folder, address.split('/')[2] ?? '', 'pattern.json'), 'utf8');
const numberOf = async (address: string, id: string) =>
  (JSON.parse(await patternOf(address)) as BundleData).numbers?.find((each) => each.id === id);

const plain = (html: string) =>
  html
    .replaceAll(/&#x([0-9A-F]+);/g, (_, code: string) =>
      String.fromCodePoint(Number.parseInt(code, 16)),
    )
    .replaceAll('&quot;', '"')
    .replaceAll('&amp;', '&');
const hidden = (html: string, name: string) =>
  plain(new RegExp(`name="${name}" value="([^"]*)"`).exec(html)?.[1] ?? '');

/** From the result that is shown to the list of changes. */
const write = (address: string, html: string) =>
  desk.post(`${address}/rule`, { tag: hidden(html, 'tag'), choice: hidden(html, 'choice') });

const CENTRED = 'number=hat-sts&choose=motif&way=centred+front+and+back';

/** Cells of the row of this name: value, what stood there before, notes. */
function cellsOf(html: string, name: string): readonly string[] {
  const rows = [...html.matchAll(/<tr><th scope="row">([\s\S]*?)<\/tr>/g)].map(
    ([, row = '']) => row,
  );
  const row = rows.find((each) => each.startsWith(name)) ?? '';
  return [...row.matchAll(/<td>([\s\S]*?)<\/td>/g)].map(
    ([, cell = '']) =>
    cell.replaceAll(/<span class="unseen">.*?<\/span>/g, '').replaceAll(/<[^>]+>/g, ' ').replaceAll(/\s+/g, ' ').trim(), // prettier-ignore
  );
}

describe('a way of a motif', () => {
  it('shows counts, lengths, what follows, the rounds, and what would be found; nothing is written', async () => {
    const address = await begin('breakwater-hat');
    const before = await patternOf(address);
    const { status, html } = await read(`${address}/rule?${CENTRED}`);
    expect(status).toBe(200);
    // 18, 19 … 22 in are 144, 152 … 176 sts; nearest multiples of 16, a tie goes up.
    expect(cellsOf(html, 'stitches of the ropes')).toEqual(['sts', '144', '160 152 +1 in +2.54 cm', '160', '176 168 +1 in +2.54 cm', '176']); // prettier-ignore
    expect(cellsOf(html, 'B · circumference')[2]).toBe('50.8 48.26 +2.54');
    expect(cellsOf(html, 'stitches drawn up')).toEqual(['sts', '9', '10', '10', '11', '11']);
    const result = html.slice(html.indexOf('id="result"'), html.indexOf('id="by-motif"'));
    expect(result.match(/<svg class="round"/g)).toHaveLength(5);
    expect(result).toMatch(/hat\/body has 152 and 168 sts, not 160 and 176/);
    expect(await patternOf(address)).toBe(before);
  });

  it('is written after a yes, told as a finding where rows no longer fit, and taken back', async () => {
    const address = await begin('breakwater-hat');
    const before = await patternOf(address);
    const { html } = await read(`${address}/rule?${CENTRED}`);
    const list = await (await write(address, html)).text();
    expect(list).toContain('stitches of the ropes, S: 152 → 160 sts');
    expect(await patternOf(address)).toBe(before);
    const taken = await desk.post(`${address}/take`, { waits: hidden(list, 'waits'), back: hidden(list, 'back') }); // prettier-ignore
    expect(taken.headers.get('location')).toBe(`${address}?done=papers`);
    expect(await numberOf(address, 'hat-sts')).toMatchObject({
      rule: '(body head − 2 in) at ropes, nearest multiple of 16',
      value: '144 (160, 160, 176, 176)',
    });
    // Nothing but these two values: what stood around them stands.
    expect((await patternOf(address)).replace('multiple of 16', 'multiple of ropes').replace('144 (160, 160, 176, 176)', '144 (152, 160, 168, 176)')).toBe(before); // prettier-ignore
    const findings = await (await desk.get(address)).text();
    expect(findings).toContain('hat/body has 152 and 168 sts, not 160 and 176');
    expect(findings).toContain('stitches of the ropes: rule and values, 3 changes');
    await desk.post(`${address}/undo`, {});
    expect(await patternOf(address)).toBe(before);
  });

  it('may be another in each size', async () => {
    const address = await begin('breakwater-hat');
    const { html } = await read(`${address}/rule?${CENTRED}&way1=whole+repeats`);
    expect(html).toContain('nearest multiple of 16 (8, 16, 16, 16)');
    expect(cellsOf(html, 'stitches of the ropes').slice(1, 3)).toEqual(['144', '152']);
    expect(html).toMatch(/<details open><summary>A size in its own way/);
  });

  it('may have another repeat, and says what else must change', async () => {
    const address = await begin('breakwater-hat');
    const { html } = await read(`${address}/rule?number=hat-sts&choose=motif&way=whole+repeats&repeat=10&balance=2`); // prettier-ignore
    // 142 / 10 → 14, 142; 150 → 152; 158 → 162; 166 → 172 (16.6); 174 → 172 (17.4 → 17).
    expect(cellsOf(html, 'stitches of the ropes').map((cell) => Number(cell.split(' ')[0]))).toEqual([NaN, 142, 152, 162, 172, 172]); // prettier-ignore
    expect(html).toContain('its rows and charts still have the old repeat');
  });

  it.each([
    ['repeat=nine', 422, '“nine” is no repeat'],
    ['repeat=8+(8,+9)', 422, '“8 (8, 9)” is no repeat'],
    ['balance=-3', 422, '“-3” is no number of balancing stitches'],
    ['way=upside+down', 422, 'does not come out'],
    ['way=across+the+side+seams', 422, 'does not come out'],
    ['repeat=390', 422, 'does not come out'],
  ])('%s is told, with what was typed', async (typed, status, told) => {
    const address = await begin('breakwater-hat');
    const found = await read(`${address}/rule?number=hat-sts&choose=motif&${typed}`);
    expect(found.status).toBe(status);
    expect(found.html).toContain(told);
    const [name = '', value = ''] = typed.split('=');
    if (name !== 'way') expect(hidden(found.html, name)).toBe(value.replaceAll('+', ' '));
  });
});

describe('a rule in fields', () => {
  const FIELDS = 'number=crown-sts&choose=fields&kind=share&other=hat-sts&share=1/8&rounding=up&step=even'; // prettier-ignore

  it('shows the fields as the rule stands', async () => {
    const { html } = await read(`${await begin('breakwater-hat')}/rule?number=crown-sts`);
    expect(html).toMatch(/value="share" checked/);
    expect(html).toMatch(/<option value="hat-sts" selected>/);
    expect(hidden(html, 'share')).toBe('1/16');
    expect(html).not.toContain('id="by-motif"');
    expect(html).not.toContain('id="result"');
  });

  it('becomes a rule that is shown and written', async () => {
    const address = await begin('breakwater-hat');
    const { html } = await read(`${address}/rule?${FIELDS}`);
    expect(cellsOf(html, 'stitches drawn up')).toEqual(['sts', '18 9', '20 10', '20 10', '22 11', '22 11']); // prettier-ignore
    const list = await (await write(address, html)).text();
    expect(list).toContain('its rule becomes “hat-sts / 8, up to even”');
    await desk.post(`${address}/take`, { waits: hidden(list, 'waits') });
    expect(await numberOf(address, 'crown-sts')).toMatchObject({ rule: 'hat-sts / 8, up to even', value: '18 (20, 20, 22, 22)' }); // prettier-ignore
  });

  it('may go: the number then stands as typed', async () => {
    const address = await begin('breakwater-hat');
    const { html } = await read(`${address}/rule?number=crown-sts&choose=fields&kind=none`);
    const list = await (await write(address, html)).text();
    expect(list).toContain('loses its rule');
    await desk.post(`${address}/take`, { waits: hidden(list, 'waits') });
    const number = await numberOf(address, 'crown-sts');
    expect(number?.rule).toBeUndefined();
    expect(number?.value).toBe('9 (10, 10, 11, 11)');
  });

  it.each([
    ['kind=sum&sum=body+head+at+rope', 'at <mark>rope</mark>', 'ropes'],
    ['kind=share&other=crown-sts&share=2', '', 'circle|round'],
    ['kind=length&of=body+head&gauge=ropes&ease=2', '', ''],
  ])('%s: the place is marked and the fields stay', async (typed, marked, told) => {
    const address = await begin('breakwater-hat');
    const { status, html } = await read(`${address}/rule?number=hat-sts&choose=fields&${typed}`);
    expect(status).toBe(422);
    expect(html).toContain('role="alert"');
    expect(html).toContain(marked);
    expect(html).toMatch(new RegExp(told));
    const sum = new URLSearchParams(typed).get('sum');
    if (sum !== null) expect(hidden(html, 'sum')).toBe(sum);
    expect(html).not.toContain('id="result"');
  });

  it('may not be longer than a pattern can hold, and nothing typed is lost', async () => {
    const address = await begin('breakwater-hat');
    const sum = `hat-sts${' + 1'.repeat(100)}`;
    const query = new URLSearchParams({ number: 'crown-sts', choose: 'fields', kind: 'sum', sum });
    const { status, html } = await read(`${address}/rule?${query.toString()}`);
    expect(status).toBe(422);
    expect(html).toContain('The rule has 407 letters');
    expect(hidden(html, 'sum')).toBe(sum);
  });

  it('takes the values that the rule gives', async () => {
    const address = await begin('breakwater-hat');
    const tag = hidden((await read(`${address}/rule?${CENTRED}`)).html, 'tag');
    await desk.post(`${address}/correct`, { file: 'pattern.json', pointer: '/numbers/2/value', tag, value: '9 (10, 12, 11, 11)' }); // prettier-ignore
    const { html } = await read(`${address}/rule?number=crown-sts`);
    expect(html).toContain('choose=accept');
    const shown = await read(`${address}/rule?number=crown-sts&choose=accept`);
    expect(cellsOf(shown.html, 'stitches drawn up')[3]).toBe('10 12');
    const list = await (await write(address, shown.html)).text();
    await desk.post(`${address}/take`, { waits: hidden(list, 'waits') });
    expect((await numberOf(address, 'crown-sts'))?.value).toBe('9 (10, 10, 11, 11)');
    expect((await read(`${address}/rule?number=crown-sts`)).html).not.toContain('choose=accept');
  });
});

describe('two at one pattern', () => {
  const elsewhere = async (address: string) => {
    const tag = hidden((await read(`${address}/rule?number=hat-sts&choose=accept`)).html, 'tag');
    const now = hidden((await read(`${address}/rule?${CENTRED}`)).html, 'tag');
    await desk.post(`${address}/correct`, { file: 'pattern.json', pointer: '/numbers/1/name', tag: tag === '' ? now : tag, value: 'ropes all round' }); // prettier-ignore
  };

  it('a choice over an older state is shown again over the new one', async () => {
    const address = await begin('breakwater-hat');
    const { html } = await read(`${address}/rule?${CENTRED}`);
    await elsewhere(address);
    const refused = await write(address, html);
    expect(refused.status).toBe(409);
    const again = await refused.text();
    expect(again).toContain('Your choice is still here');
    expect(cellsOf(again, 'ropes all round')[2]).toMatch(/^160 152/);
    expect((await write(address, again)).status).toBe(200);
  });

  it('so is one that waited for its yes', async () => {
    const address = await begin('breakwater-hat');
    const list = await (
      await write(address, (await read(`${address}/rule?${CENTRED}`)).html)
    ).text();
    await elsewhere(address);
    const late = await desk.post(`${address}/take`, { waits: hidden(list, 'waits'), back: hidden(list, 'back') }); // prettier-ignore
    const back = late.headers.get('location') ?? '';
    expect(back).toContain('late=1');
    const { status, html } = await read(back);
    expect(status).toBe(409);
    expect(html).toContain('Your choice is still here');
    expect((await numberOf(address, 'hat-sts'))?.value).toBe('144 (152, 160, 168, 176)');
    expect(hidden(html, 'choice')).not.toContain('late');
  });

  it('leads nowhere but to a rule of the same pattern', async () => {
    const address = await begin('breakwater-hat');
    for (const back of [
      'https://elsewhere.example/',
      '/patterns/other/rule?x=1',
      `${address}/rule?a\r\nb`,
    ]) {
      const answer = await desk.post(`${address}/take`, { waits: 'gone', back });
      expect(answer.headers.get('location')).toBeNull();
    }
  });
});

describe('the table of numbers', () => {
  it('leads to the rule of every number, and from a way of a motif to its choice', async () => {
    const address = await begin('breakwater-hat');
    const { html } = await read(`${address}/numbers`);
    const links = [...html.matchAll(/href="([^"]*\/rule\?[^"]*)/g)].map(([, href = '']) => plain(href).replace('#result', '')); // prettier-ignore
    expect(links.filter((href) => !href.includes('choose'))).toHaveLength(3);
    expect(links).toContain(`${address}/rule?number=hat-sts&choose=motif&way=centred+front+and+back`); // prettier-ignore
    expect(html).toContain('A gauge is measured, not chosen');
    for (const href of new Set(links)) expect((await read(href)).status, href).toBe(200);
  });

  it('knows no number that is not there', async () => {
    const address = await begin('breakwater-hat');
    expect((await read(`${address}/rule?number=sail`)).status).toBe(404);
    expect((await read(`${address}/rule`)).status).toBe(404);
  });
});

describe('every starter', () => {
  it.each(STARTERS)('%s: every number has its page, every way its result', async (starter) => {
    const address = await begin(starter);
    const { numbers = [] } = JSON.parse(await patternOf(address)) as BundleData;
    expect(numbers.length).toBeGreaterThan(0);
    for (const { id, rule } of numbers) {
      const { status, html } = await read(`${address}/rule?number=${id}`);
      expect(status, id).toBe(200);
      if (rule !== undefined) {
        const same = await read(`${address}/rule?number=${id}&choose=accept`);
        expect(same.html, id).toContain('The pattern says all this already');
      }
      const [, ways = ''] = /<select id="way"[^>]*>(.*?)<\/select>/.exec(html) ?? [];
      for (const [, way = ''] of ways.matchAll(/value="([^"]*)"/g)) {
        const query = new URLSearchParams({ number: id, choose: 'motif', way }).toString();
        const shown = await read(`${address}/rule?${query}`);
        expect(shown.status, `${id} ${way}`).toBe(200);
        expect(shown.html).toContain('id="result"');
      }
    }
  });
});

describe('every language of the desk', () => {
  it.each(['de', 'es', 'fr', 'ja'])('%s: result, refusal and list', async (language) => {
    const address = await begin('breakwater-hat');
    const headers = { cookie: desk.cookie, 'accept-language': language };
    for (const query of [
      CENTRED,
      'number=hat-sts&choose=motif&repeat=x',
      'number=hat-sts&late=1',
    ]) {
      const html = await (await fetch(`${desk.base}${address}/rule?${query}`, { headers })).text();
      expect(html).toContain(`<html lang="${language}">`);
      expect(html).not.toMatch(/See what it does|In all sizes|no repeat|Your choice/);
    }
    const { html } = await read(`${address}/rule?${CENTRED}`);
    const list = await fetch(`${desk.base}${address}/rule`, {
      method: 'POST',
      headers: { ...headers, origin: desk.base },
      body: new URLSearchParams({ tag: hidden(html, 'tag'), choice: hidden(html, 'choice') }),
    });
    expect(await list.text()).not.toMatch(/its rule becomes|Nothing is written/);
  });
});
