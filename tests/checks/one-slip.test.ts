/**
 * One slip, one finding. Numbers of the starters are made wrong one at a time, in their text, and the
 * whole check is run: it must notice, it must not cry wolf down the rest of the pattern, and where it
 * suggests a correction, that must be the number that was there.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { bundleSchema } from '../../src/pattern/bundle/schema.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import { contextOf } from '../../src/pattern/checks/context.ts';
import { numbersOfBundle, variantsOf } from '../../src/pattern/checks/pin-numbers.ts';
import type { Bundle } from '../../src/pattern/pattern.ts';
import { mistyped } from './mistyped.ts';

/** Every how-many-th change is tried; all of them are tried by the pinned numbers. */
const TRIED = [
  ['breakwater-hat', 17],
  ['sea-fret-pullover', 67],
  ['spindrift-raglan', 61],
  ['tideline-socks', 37],
] as const;

function readStarter(name: string): Bundle {
  const file = new URL(`../../templates/starters/${name}/pattern.json`, import.meta.url);
  const data = bundleSchema.parse(JSON.parse(readFileSync(file, 'utf8')));
  return { data, prose: new Map(), photos: new Map(), hash: '' };
}

describe.each(TRIED)('%s', (name, every) => {
  const bundle = readStarter(name);
  const { pattern, pieces } = checkPattern(bundle);
  const numbers = numbersOfBundle(contextOf(pattern, pieces));
  const slips = numbers
    .flatMap((number) => variantsOf(number).map((variant) => ({ number, variant })))
    .filter((_, at) => at % every === 0)
    .flatMap(({ number, variant }) => {
      const wrong = mistyped(bundle, number, variant);
      return wrong ? [{ number, variant, findings: checkPattern(wrong).findings }] : [];
    });
  const noticed = slips.filter(({ findings }) => findings.length > 0);

  it('raises one finding for one slip, nearly always', () => {
    expect(noticed.length).toBeGreaterThan(10);
    const alone = noticed.filter(({ findings }) => findings.length === 1);
    expect(alone.length / noticed.length).toBeGreaterThan(0.85);
    expect(Math.max(...noticed.map(({ findings }) => findings.length))).toBeLessThanOrEqual(4);
  });

  it('suggests no correction but the number that was there', () => {
    const wrong = noticed.flatMap(({ number, variant, findings }) => {
      const fixes = findings.flatMap(({ facts }) =>
        typeof facts['fix'] === 'string' ? [facts['fix']] : [],
      );
      const to = variant.list[number.index];
      const right = fixes.every(
        (fix) => variant.said.startsWith('swapped') || fix.includes(`${to} to ${number.value}`),
      );
      return right ? [] : [{ text: number.where.text, said: variant.said, fixes }];
    });
    expect(wrong).toEqual([]);
  });
});
