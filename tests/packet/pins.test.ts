/**
 * The check that is said to hold a number does hold it: a number changed in the text as a slip of the pen
 * would, and the whole pattern checked the long way, raises what the packet names.
 */
import { describe, expect, it } from 'vitest';
import { variantsOf } from '../../src/pattern/checks/pin-numbers.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import { pinNumbers } from '../../src/pattern/checks/pins.ts';
import { mistyped } from '../checks/mistyped.ts';
import { bundleOf } from '../shop/starters.ts';

describe.each([
  ['breakwater-hat', 7],
  ['sea-fret-pullover', 61],
] as const)('%s', (name, every) => {
  it('raises for each wrong number a finding of the kind that is named', async () => {
    const bundle = await bundleOf(name);
    const { pattern } = checkPattern(bundle);
    let [tried, named] = [0, 0];
    pinNumbers(pattern).numbers.forEach(({ number, heldBy, missed }, at) => {
      if (at % every !== 0 || missed.length > 0) return;
      for (const variant of variantsOf(number)) {
        const wrong = mistyped(bundle, number, variant);
        if (!wrong) continue;
        const codes = checkPattern(wrong).findings.map(({ code }) => code);
        tried += 1;
        expect(codes, `${number.where.text}: ${variant.said}`).not.toEqual([]);
        // One slip is one finding: in the whole check a row's own count may be told before a measurement.
        if (codes.some((code) => heldBy.includes(code))) named += 1;
      }
    });
    expect(tried).toBeGreaterThan(30);
    expect(named / tried).toBeGreaterThan(0.9);
  });
});
