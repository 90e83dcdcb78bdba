/**
 * The command line as a designer meets it: a good bundle passes, one wrong number stops everything
 * with its row, size and counts, and bad input ends with a place and a remedy.
 */
import { readdir, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { castoff, change, copyStarter, filesBelow, newFolder } from './desk-side.ts';

describe('castoff check', () => {
  it.each(['breakwater-hat', 'sea-fret-pullover'])('passes the starter %s', async (name) => {
    const { folder } = await copyStarter(name);
    const said = await castoff(folder, 'check', 'bundle');
    expect(said).toMatchObject({ code: 0, err: '' });
    expect(said.out).toMatch(/every count follows/);
  });

  it.each([
    {
      starter: 'breakwater-hat',
      from: '90 (95, 100, 105, 110) sts',
      to: '90 (95, 101, 105, 110) sts',
      says: [/size M ends/i, /100/, /101/, /round 7|rnd 7/i],
    },
  ])('names row, size, worked and stated in $starter', async ({ starter, from, to, says }) => {
    const { folder, bundle } = await copyStarter(starter);
    await change(bundle, from, to);
    const said = await castoff(folder, 'check', 'bundle');
    expect(said.code).toBe(1);
    for (const each of says) expect(said.out).toMatch(each);
    const json = await castoff(folder, 'check', 'bundle', '--json');
    expect(json.code).toBe(1);
    const findings = (JSON.parse(json.out) as { findings: { code: string }[] }).findings;
    expect(findings.filter(({ code }) => code === 'count/stated')).toHaveLength(1);
  });

  it('writes nothing where a finding blocks', async () => {
    const { folder, bundle } = await copyStarter('breakwater-hat');
    await change(bundle, '90 (95, 100, 105, 110) sts', '90 (95, 100, 105, 111) sts');
    const said = await castoff(folder, 'publish', 'bundle', '--to', 'out');
    expect(said.code).toBe(1);
    expect(said.out).toMatch(/Nothing was written/);
    expect(await filesBelow(path.join(folder, 'out'))).toEqual([]);
  });
});

describe('bad input', () => {
  const spoil: readonly [string, string, string, RegExp][] = [
    ['an unknown key', '"sizes":', '"sises": ["S"], "sizes":', /sises[^]*sizes/],
    [
      'a size list one short',
      '90 (95, 100, 105, 110) sts',
      '90 (95, 100, 105) sts',
      /4[^]*5|5[^]*4/,
    ],
    ['an unknown abbreviation', '*k6, p2tog; rep', '*k6, p2tgo; rep', /p2tgo[^]*p2tog/],
    ['a star without its repeat', '*k6, p2tog; rep from * to end.', '*k6, p2tog.', /\*/],
    ['an open bracket', 'Rnd 21: Knit.', 'Rnd 21: [k1, p1.', /\[/],
    ['a wrong type', '"issued": "2026-03-02"', '"issued": 20260302', /issued/],
  ];
  it.each(spoil)('%s is found, with a place', async (_name, from, to, says) => {
    const { folder, bundle } = await copyStarter('breakwater-hat');
    await change(bundle, from, to);
    const said = await castoff(folder, 'check', 'bundle');
    expect(said.code).toBe(1);
    expect(said.out).toMatch(says);
    expect(said.out).toMatch(/-->/);
  });

  it('text that is no JSON is told with its line', async () => {
    const { folder, bundle } = await copyStarter('breakwater-hat');
    await writeFile(path.join(bundle, 'pattern.json'), '{\n  "format": "castoff/1",\n  oops\n}');
    const said = await castoff(folder, 'check', 'bundle');
    expect(said.code).not.toBe(0);
    expect(said.out + said.err).toMatch(/line 3/);
  });

  it('a photograph that is missing, or is no photograph, is named', async () => {
    const { folder, bundle } = await copyStarter('breakwater-hat');
    await writeFile(path.join(bundle, 'photos', 'cover.jpg'), 'not a picture');
    await rm(path.join(bundle, 'photos', 'flat.jpg'));
    const said = await castoff(folder, 'check', 'bundle');
    expect(said.code).toBe(1);
    expect(said.out).toMatch(/cover\.jpg/);
    expect(said.out).toMatch(/flat\.jpg/);
  });

  it('a zip that is no zip, and a path that is not there, end with 2 and a remedy', async () => {
    const folder = await newFolder();
    await writeFile(path.join(folder, 'bundle.zip'), 'PK, but not really');
    for (const name of ['bundle.zip', 'nothing-here']) {
      const said = await castoff(folder, 'check', name);
      expect(said.code).toBe(2);
      expect(said.err).toMatch(new RegExp(`${name}[^]*=`));
    }
  });
});

describe('the words of the command line', () => {
  it.each([
    [['nonsense'], 2, /no command/],
    [['check'], 2, /needs a BUNDLE/],
    [['check', 'a', 'b'], 2, /one a BUNDLE/],
    [['publish', 'x'], 2, /--to/],
    [['check', '--colour'], 2, /colour/],
    [['starter', 'no-such', 'x'], 2, /breakwater-hat/],
    [[], 2, /Commands:/],
    [['--help'], 0, /Exit codes/],
    [['publish', '--help'], 0, /Examples:/],
  ])('castoff %j ends with %s', async (args, code, says) => {
    const said = await castoff(await newFolder(), ...args);
    expect(said.code).toBe(code);
    expect(said.out + said.err).toMatch(says);
  });

  it('starter copies a bundle that passes, and never over something', async () => {
    const folder = await newFolder();
    expect((await castoff(folder, 'starter', 'breakwater-hat', 'mine')).code).toBe(0);
    expect((await castoff(folder, 'check', 'mine')).code).toBe(0);
    expect((await castoff(folder, 'starter', 'breakwater-hat', 'mine')).code).toBe(2);
  });

  it('starter leaves languages out that nobody asked for, and their texts', async () => {
    const folder = await newFolder();
    const copy = ['starter', 'breakwater-hat', 'mine', '--languages', 'de'];
    expect(await castoff(folder, ...copy)).toMatchObject({
      code: 0,
      out: expect.stringContaining('in en-US, de.') as string,
    });
    expect(await castoff(folder, 'check', 'mine')).toMatchObject({ code: 0, err: '' });
    expect((await readdir(path.join(folder, 'mine', 'prose'))).sort()).toEqual([
      'de.json',
      'en-US.json',
    ]);
    expect(await castoff(folder, ...copy.slice(0, 2), 'other', '--languages', 'tlh')).toMatchObject(
      {
        code: 2,
      },
    );
  });

  it('schema prints a JSON Schema that knows the keys', async () => {
    const said = await castoff(await newFolder(), 'schema');
    expect(JSON.parse(said.out)).toMatchObject({ properties: { sizes: {}, pieces: {} } });
  });
});
