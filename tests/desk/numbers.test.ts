/**
 * The numbers as the desk shows them. Deviations are reckoned by hand from stitches and gauge; every
 * link of the page must lead to a place on it; figures must show what their words say.
 */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { deviationBar } from '../../src/desk/figures/bar.ts';
import { gradeCurve } from '../../src/desk/figures/curve.ts';
import { motifRing } from '../../src/desk/figures/ring.ts';
import { fitMotif } from '../../src/pattern/grading/motif.ts';
import { openTestDesk, type OpenedDesk, STARTERS } from './opened.ts';

let desk: OpenedDesk;
beforeAll(async () => {
  desk = await openTestDesk();
});
afterAll(() => desk.close());

const pageOf = async (starter: string) => {
  const begun = await desk.post('/begin', { starter });
  const address = begun.headers.get('location') ?? '';
  return { address, html: await (await desk.get(`${address}/numbers`)).text() };
};

describe('the numbers of every starter', () => {
  it.each(STARTERS)('%s: every link leads to a place on the page', async (starter) => {
    const { html } = await pageOf(starter);
    const places = [...html.matchAll(/ id="([^"]+)"/g)].map(([, id = '']) => id);
    expect(new Set(places).size).toBe(places.length);
    const links = [...html.matchAll(/href="#([^"]+)"/g)].map(([, id = '']) => id);
    expect(links.length).toBeGreaterThan(1);
    expect(links.filter((id) => !places.includes(id))).toEqual([]);
  });

  it('says how far counts are from what is stated', async () => {
    const { html } = await pageOf('mackerel-sky-yoke');
    // 204 sts at 24 over 4 in are 34 in, which is 86.36 cm; stated are 34 in and 86.5 cm.
    const [, row = ''] = /id="number-measurements-bust">([\s\S]*?<\/tr>[\s\S]*?)<\/tr>/.exec(html) ?? []; // prettier-ignore
    expect(row).toMatch(/<td[^>]*>86\.5<span class="off"><svg[\s\S]*?<\/svg>−0\.14<\/span>/);
    expect(row).toContain('>34</td>');
  });

  it('says which numbers the checks hold', async () => {
    const { address } = await pageOf('breakwater-hat');
    const said = await (await desk.get(`${address}/pins`)).text();
    expect(said).toMatch(/\d+ of \d+ numbers are held by a check/);
  });
});

describe('figures', () => {
  const bar = (off: number) =>
    /class="(more|less)"[^>]*width="([\d.]+)"/.exec(deviationBar(off, 1));

  it('draws more to the right and solid, less to the left and hollow, and nothing for nothing', () => {
    expect(bar(1)?.slice(1)).toEqual(['more', '22']);
    expect(bar(-0.5)?.slice(1)).toEqual(['less', '11']);
    expect(bar(5)?.[2]).toBe('22');
    expect(bar(0)).toBeNull();
  });

  it('marks where a grade falls, and draws no line over a size that has no value', () => {
    const svg = gradeCurve(
      { sizes: ['S', 'M', 'L'], values: [90, null, 80], remarked: [2] },
      'bust',
    );
    expect(svg.match(/class="dot"/g)).toHaveLength(2);
    expect(svg.match(/class="ring"/g)).toHaveLength(1);
    expect(svg).toMatch(/class="grade" d="M[^L]*M[^L]*"/);
  });

  it.each([
    { form: 'round' as const, around: [34, 38, 42] },
    { form: 'flat' as const, around: [34, 37.5, 42] },
  ])('draws every repeat of a motif of 12, worked $form', ({ form, around }) => {
    const motif = { stitches: 12, plus: 0 };
    const ways = fitMotif({
      motif,
      aroundInches: around,
      gauge: { stitches: 24, rows: 32, over: { amount: 4, unit: 'in' } },
      seamStitches: form === 'flat' ? 1 : undefined,
      panel: { min: 1, max: 12 },
    });
    expect(ways.length).toBeGreaterThan(2);
    for (const { sizes } of ways)
      for (const size of sizes) {
        const svg = motifRing(size, motif, 'M', 'said');
        expect(svg.match(/class="(repeat|other)"/g)).toHaveLength(size.repeats);
        expect(svg.match(/class="panel"/g) ?? []).toHaveLength(size.panel > 0 ? 4 : 0);
      }
  });
});
