/**
 * `castoff grade` as a designer meets it: a starter's numbers, printed and filled; a spreadsheet out and
 * back; bad input told with a place; nothing written but what is said.
 */
import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { castoff, change, copyStarter, filesBelow } from '../cli/desk-side.ts';

const BACK = '{ "id": "body-sts", "unit": "sts", "rule": "(body bust + 4 in) / 2 at body + 2 sts, nearest odd", "places": ["back/body"] },\n    '; // prettier-ignore

/** The Sea Fret Pullover with one more number, left open. */
async function pullover() {
  const { folder, bundle } = await copyStarter('sea-fret-pullover');
  await change(bundle, '"numbers": [\n    ', `"numbers": [\n    ${BACK}`);
  const text = () => readFile(path.join(bundle, 'pattern.json'), 'utf8');
  return { folder, bundle, text };
}

describe('castoff grade', () => {
  it('fills what is left open, and changes nothing else', async () => {
    const { folder, text } = await pullover();
    const before = await text();
    const said = await castoff(folder, 'grade', 'bundle');
    expect(said).toMatchObject({ code: 0, err: '' });
    expect(said.out).toMatch(/wanted, in[^]*87 +97 +107[^]*Filled in bundle\/pattern\.json/);
    const after = await text();
    const filled =
      '"value": "87 (97, 107, 117, 127) [137, 147, 157, 167]", "places": ["back/body"]';
    expect(after).toBe(before.replace('"places": ["back/body"]', filled));
    expect((await castoff(folder, 'grade', 'bundle')).out).not.toMatch(/Filled/);
  });

  it('writes nothing on a dry run', async () => {
    const { folder, text } = await pullover();
    const before = await text();
    expect((await castoff(folder, 'grade', 'bundle', '--dry-run')).out).toMatch(/Would be filled/);
    expect(await text()).toBe(before);
  });

  it('writes nothing where a rule cannot be reckoned', async () => {
    const { folder, bundle, text } = await pullover();
    await change(bundle, 'at body + 2 sts, nearest odd', 'at boddy + 2 sts, nearest odd');
    const before = await text();
    const said = await castoff(folder, 'grade', 'bundle');
    expect(said.code).toBe(1);
    expect(said.out).toMatch(/no such gauge/);
    expect(await text()).toBe(before);
  });

  it('gives a number another rule, with what follows it', async () => {
    const { folder, text } = await pullover();
    await castoff(folder, 'grade', 'bundle');
    const before = await text();
    // 7¼ in at 22 sts over 4 in are 39.9 sts, 41.9 with seams: nearest of 8 n + 2 is 42.
    const rule = 'cuff-sts: cuff at rib + 2 sts, nearest multiple of 8 + 2';
    const shown = await castoff(folder, 'grade', 'bundle', '--rule', rule, '--dry-run');
    expect(shown.out).toMatch(/sts, then +42 +42 +50 [^]*K cuff, in +7.27[^]*Nothing was written/);
    expect(await text()).toBe(before);
    const said = await castoff(folder, 'grade', 'bundle', '--rule', rule);
    expect(said).toMatchObject({ code: 0, err: '' });
    // 44 and 2 are 46: 5½ repeats, and a tie goes up.
    expect(await text()).toContain('"cuff at rib + 2 sts, nearest multiple of 8 + 2"');
    expect(await text()).toContain('"42 (42, 50, 50, 50) [50, 58, 58, 58]"');
    const again = await castoff(folder, 'grade', 'bundle', '--rule', rule);
    expect(again.out).toMatch(/says all this already/);
  });

  it.each([
    ['cuff-sts: cuff at rip', 1, /no such gauge/],
    ['cuff-sts: hem-sts +', 1, /Nothing was written/],
    ['cuff-sts', 2, /--rule wants a number and its rule/],
    ['sail: 2 sts', 2, /no number is called sail/],
  ])('--rule "%s" writes nothing', async (rule, code, told) => {
    const { folder, text } = await pullover();
    const before = await text();
    const said = await castoff(folder, 'grade', 'bundle', '--rule', rule);
    expect(said.code).toBe(code);
    expect(said.out + said.err).toMatch(told);
    expect(await text()).toBe(before);
  });

  it('a spreadsheet goes out and changed numbers come back', async () => {
    const { folder, bundle, text } = await pullover();
    await castoff(folder, 'grade', 'bundle');
    const before = await text();
    expect((await castoff(folder, 'grade', 'bundle', '--sheet', 'g.csv')).code).toBe(0);
    expect((await castoff(folder, 'grade', 'bundle', '--from', 'g.csv')).out).toMatch(
      /Nothing differs/,
    );
    expect(await text()).toBe(before);
    const table = await readFile(path.join(folder, 'g.csv'), 'utf8');
    await writeFile(
      path.join(folder, 'g.csv'),
      table.replace(/(body\/bust\/in,.*?),34,/, '$1,35,'),
    );
    const said = await castoff(folder, 'grade', 'bundle', '--from', 'g.csv');
    expect(said.out).toMatch(
      /body bust in, S: 34 → 35 in[^]*body-sts, S: 97 → 99 sts · follows[^]*Written to/,
    );
    expect(said.out).toMatch(/grade\/place[^]*97 sts, not 99/);
    expect(said.out).not.toContain('was made from');
    await writeFile(path.join(folder, 'old.csv'), table.replace(/(pattern\/[\w-]+\/)[\d.]+/, '$10.9.0')); // prettier-ignore
    const old = await castoff(folder, 'grade', 'bundle', '--from', 'old.csv', '--dry-run');
    expect(old.out).toMatch(/The file was made from [\w-]+ 0\.9\.0; this is/);
    expect(await text()).toContain('"30 (35, 38, 42, 46) [50, 54, 58, 62]"');
    expect(await filesBelow(bundle)).not.toContainEqual(expect.stringMatching(/pattern\.json\./));
  });

  it('an .xlsx file holds a sheet for each piece, and is never written over', async () => {
    const { folder } = await pullover();
    const first = await castoff(folder, 'grade', 'bundle', '--sheet', 'g.xlsx');
    expect(first.out).toMatch(/Sizes, Back/);
    const again = await castoff(folder, 'grade', 'bundle', '--sheet', 'g.xlsx');
    expect(again).toMatchObject({ code: 2, err: expect.stringMatching(/there already/) as string });
    expect((await castoff(folder, 'grade', 'bundle', '--from', 'g.xlsx')).out).toMatch(
      /Nothing differs/,
    );
  });

  it('shows gauge, motif, yarn, body and measurements', async () => {
    const { folder } = await pullover();
    const said = await castoff(folder, 'grade', 'bundle', '--show', 'all', '--dry-run');
    expect(said.code).toBe(0);
    for (const each of [/½ st fewer, in/, /area of all pieces/, /stated, in/, /counts give, in/])
      expect(said.out).toMatch(each);
  });

  it.each([
    [['grade'], /needs a BUNDLE/],
    [['grade', 'bundle', '--show', 'colour'], /--show knows no “colour”/],
    [['grade', 'bundle', '--sheet', 'g.ods'], /neither .xlsx nor .csv/],
    [['grade', 'bundle', '--from', 'none.csv'], /there is no file/],
  ])('castoff %j ends with 2', async (args, says) => {
    const { folder } = await pullover();
    const said = await castoff(folder, ...args);
    expect(said).toMatchObject({ code: 2, err: expect.stringMatching(says) as string });
  });
});
