/** Pinned numbers of rules and swatches: which slips a check notices, and why it cannot notice others. */
import { describe, expect, it } from 'vitest';
import { pinNumbers } from '../../src/pattern/checks/pins.ts';
import { checked, dataWith, PLAIN } from './bundle.ts';

const RULE = '(body bust + 4 in) / 2 at body + 2 sts, nearest multiple of 10 + 7, within 1 in';
const reading = (stitches: number, rows: number) => ({ stitches, rows });
const swatch = {
  readings: [reading(20, 28), reading(19.5, 28.5), reading(20.5, 27.5)],
  before: [reading(20.5, 29)],
  width: { in: 6, cm: 15 },
  length: { in: 6 },
  grams: 12,
};

const data = dataWith({
  gauges: [{ ...PLAIN.gauges[0], swatch }],
  numbers: [{ id: 'back-sts', unit: 'sts', rule: RULE, value: '97 (107, 117)', places: ['back/cast-on'] }],
}); // prettier-ignore

const report = pinNumbers(checked(data).pattern);
const at = (pointer: string) =>
  report.numbers.filter(({ number }) => number.where.pointer.startsWith(pointer));

describe('numbers inside a rule', () => {
  it('are all looked at', () => {
    expect(at('/numbers/0/rule').map(({ number }) => number.value)).toEqual([4, 2, 2, 10, 7, 1]);
  });

  it('are held by the counts that they give, or lost in the rounding with that said', () => {
    const [ease, half, seams, multiple] = at('/numbers/0/rule');
    expect(half?.heldBy).toContain('grade/value');
    expect(multiple?.heldBy).toContain('grade/value');
    for (const each of [ease, seams]) expect(each?.reason ?? 'held').toMatch(/held|rounding/);
  });
});

describe('a swatch', () => {
  it('its readings are held by the gauge', () => {
    expect(at('/gauges/0/swatch/readings')).toHaveLength(6);
    for (const each of at('/gauges/0/swatch/readings'))
      expect(each).toMatchObject({ missed: [], heldBy: ['grade/gauge'] });
  });

  it('its size is held where it stands in both units', () => {
    expect(at('/gauges/0/swatch/width').every(({ missed }) => missed.length === 0)).toBe(true);
    expect(at('/gauges/0/swatch/length').every(({ missed }) => missed.length === 0)).toBe(false);
  });

  it.each(['before', 'grams'])('%s is free, with the reason', (part) => {
    expect(at(`/gauges/0/swatch/${part}`).every(({ reason }) => reason !== undefined)).toBe(true);
  });
});
