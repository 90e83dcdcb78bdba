/**
 * The stitch catalogue against lists from outside: abbreviations of the trade council, the chart symbols
 * it names, and the signs of JIS L 0201:1995. And what must hold of every entry.
 */
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { CATALOGUE, catalogueFor, nameCable, readCable, STITCH_NAMES, SYMBOL_NAMES, usualCables } from '../../src/pattern/stitches/index.ts'; // prettier-ignore
import { spell } from '../../src/pattern/stitches/spelling.ts';

const table = readFileSync(new URL('abbreviations.tsv', import.meta.url), 'utf8')
  .split('\n')
  .filter((row) => row !== '' && !row.startsWith('#'))
  .map((row) => row.split('\t'));

describe('abbreviations', () => {
  test.each(table)('%s is %s', (written = '', name, takes, makes, lean) => {
    const glued = written === 'k1b' ? 'k b' : written; // the number is the row's, not the stitch's
    const stitch = CATALOGUE.lookup(glued);
    expect(stitch?.name).toBe(name);
    expect([stitch?.takes, stitch?.makes, stitch?.lean]).toEqual([
      Number(takes),
      Number(makes),
      lean,
    ]);
  });
});

describe('chart symbols', () => {
  // Craft Yarn Council, Standards & Guidelines for Crochet and Knitting: knit chart symbols (from
  // memory), each by a stitch that must show it.
  test.each([
    ['knit on RS, purl on WS', 'k', 'knit'],
    ['purl on RS, knit on WS', 'p', 'purl'],
    ['yarn over', 'yo', 'yarn-over'],
    ['knit 2 together', 'k2tog', 'lean-right'],
    ['slip slip knit', 'ssk', 'lean-left'],
    ['purl 2 together', 'p2tog', 'lean-right-purl'],
    ['slip slip purl', 'ssp', 'lean-left-purl'],
    ['knit 3 together', 'k3tog', 'lean-right-3'],
    ['slip 1, knit 2 together, pass slipped stitch over', 'sk2p', 'lean-left-3'],
    ['slip 2 together, knit 1, pass 2 slipped stitches over', 's2kp', 'centred-3'],
    ['make 1', 'm1', 'make-one'],
    ['make 1 left', 'm1L', 'make-one-left'],
    ['make 1 right', 'm1R', 'make-one-right'],
    ['increase 1 to 3', 'kfbf', 'increase-3'],
    ['knit through back loop', 'k tbl', 'knit-twisted'],
    ['purl through back loop', 'p tbl', 'purl-twisted'],
    ['slip 1 purlwise with yarn in back', 'sl wyib', 'slip-back'],
    ['slip 1 purlwise with yarn in front', 'sl wyif', 'slip-front'],
    ['bobble', 'MB', 'bobble'],
    ['1/1 right cross', '1/1 RC', 'crossing'],
    ['2/1 left purl cross', '2/1 LPC', 'crossing'],
    ['3/3 left cross', '3/3 LC', 'crossing'],
    ['knit below', 'k below', 'knit-below'],
    ['twist 2 right', 'RT', 'twist-right'],
    ['twist 2 left', 'LT', 'twist-left'],
  ])('%s', (_, stitch, symbol) => {
    expect(CATALOGUE.lookup(stitch)?.symbol).toBe(symbol);
  });

  // JIS L 0201:1995 names decreases by the stitch that lies on top, so "right over" leans left.
  test.each([
    ['右上2目一度 right stitch over left', 'ssk', 'left'],
    ['左上2目一度 left stitch over right', 'k2tog', 'right'],
    ['中上3目一度 centred', 's2kp', 'centre'],
    ['右上3目一度 right over, three', 'sk2p', 'left'],
    ['左上3目一度 left over, three', 'k3tog', 'right'],
  ])('%s', (_, stitch, lean) => {
    expect(CATALOGUE.lookup(stitch)?.lean).toBe(lean);
  });
});

describe('every entry', () => {
  test('there are enough of them', () => {
    expect(STITCH_NAMES.length).toBeGreaterThanOrEqual(120);
    expect(new Set(STITCH_NAMES).size).toBe(STITCH_NAMES.length);
  });

  test('no written form means two stitches', () => {
    const owners = new Map<string, string>();
    for (const { name, also = [] } of CATALOGUE.all) {
      for (const form of [name, ...also]) {
        const owner = owners.get(spell(form));
        expect(owner === undefined || owner === name, `${form}: ${owner} and ${name}`).toBe(true);
        owners.set(spell(form), name);
        expect(CATALOGUE.lookup(form)?.name).toBe(name);
      }
    }
  });

  test.each([...CATALOGUE.all, ...usualCables()].map((stitch) => [stitch.name, stitch] as const))(
    '%s',
    (name, stitch) => {
      expect(CATALOGUE.lookup(name)).toEqual(stitch);
      expect(spell(spell(name))).toBe(spell(name));
      expect(Number.isInteger(stitch.takes) && stitch.takes >= 0).toBe(true);
      // What is written with a number of stitches takes as many as it is worked times.
      if (stitch.counted) expect(stitch.takes).toBe(1);
      if (stitch.family === 'decrease') expect(stitch.makes).toBeLessThan(stitch.takes);
      if (stitch.family === 'increase') expect(stitch.makes).toBeGreaterThan(stitch.takes);
      if (['basic', 'twisted', 'slipped', 'cable'].includes(stitch.family))
        expect(stitch.makes).toBe(stitch.takes);
      const other = stitch.otherSide === undefined ? undefined : CATALOGUE.lookup(stitch.otherSide);
      expect(other === undefined).toBe(stitch.otherSide === undefined);
      if (other) {
        expect([other.takes, other.makes]).toEqual([stitch.takes, stitch.makes]);
        const faces = [stitch.face, other.face].sort().join(' ');
        expect(['knit purl', 'mixed mixed', 'knit knit', 'knit mixed']).toContain(faces);
      }
    },
  );

  test('symbols are named by what they show', () => {
    for (const symbol of SYMBOL_NAMES) expect(symbol).toMatch(/^[a-z]+(-[a-z0-9]+)*$/);
  });
});

describe('cables by rule', () => {
  const shape = fc.record({
    top: fc.integer({ min: 1, max: 12 }),
    behind: fc.integer({ min: 1, max: 12 }),
    middle: fc.integer({ min: 0, max: 4 }),
    lean: fc.constantFrom('left', 'right'),
    purl: fc.boolean(),
    twisted: fc.boolean(),
  });

  test('any width and lean is read, named and crossed', () => {
    fc.assert(
      fc.property(shape, (cable) => {
        const name = nameCable(cable);
        expect(readCable(spell(name))).toEqual(cable);
        const stitch = CATALOGUE.lookup(name);
        const width = cable.top + cable.middle + cable.behind;
        expect([stitch?.name, stitch?.takes, stitch?.makes]).toEqual([name, width, width]);
        const { left, right } = stitch?.crossing ?? {};
        expect(cable.lean === 'left' ? [left, right] : [right, left]).toEqual([
          cable.top,
          cable.behind,
        ]);
      }),
      { seed: 3 },
    );
  });

  test('too wide to be a cable', () => {
    expect(CATALOGUE.lookup('99/99 LC')).toBeUndefined();
    expect(CATALOGUE.lookup('0/2 LC')).toBeUndefined();
    expect(CATALOGUE.lookup('k99tog')).toBeUndefined();
  });
});

describe('words that are not known', () => {
  test.each([
    ['k2tgo', 'k2tog'],
    ['skk', 'ssk'],
    ['yfw', 'yfwd'],
    ['m1x', 'm1'],
    ['kfv', 'kfb'],
    ['s2kq', 's2kp'],
    ['brkk', 'brk'],
  ])('%s is near %s', (word, near) => {
    expect(CATALOGUE.nearest(word, 4)).toContain(near);
  });
});

describe('stitches of a bundle', () => {
  const custom = [
    { id: 'wave 6', takes: 6, makes: 6, like: 'C6F', describe: 'stitch.wave' },
    { id: 'MB', takes: 1, makes: 1, describe: 'stitch.bobble' },
    { id: 'crab', takes: 2, makes: 5, describe: 'stitch.crab' },
  ];
  const catalogue = catalogueFor(custom);

  test('are found beside those of the tables', () => {
    expect(catalogue.lookup('crab')).toMatchObject({ takes: 2, makes: 5, symbol: 'custom' });
    expect(catalogue.lookup('k2tog')).toBe(CATALOGUE.lookup('k2tog'));
    expect(catalogue.nearest('crob')).toContain('crab');
  });
  test('look like the stitch they name', () => {
    expect(catalogue.lookup('wave 6')).toMatchObject({
      family: 'cable',
      lean: 'left',
      symbol: 'crossing',
    });
  });
  test('hide one of the same name', () => {
    expect(catalogue.lookup('MB')?.symbol).toBe('custom');
    expect(CATALOGUE.lookup('MB')?.symbol).toBe('bobble');
  });
});
