/**
 * The lines of a paragraph as a whole: against every possible choice of lines, tried one by one with
 * the cost formula of Knuth and Plass (1981) written a second time, and on samples reckoned by head.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Atom } from '../../src/press/layout/lines/atoms.ts';
import { type Measure, optimalBreaks } from '../../src/press/layout/lines/optimal-breaks.ts';

const word = (width: number, more: Partial<Atom> = {}): Atom => ({
  start: 0,
  end: 0,
  width,
  stretch: 0,
  shrink: 0,
  space: 3,
  spaceStretch: 1.5,
  spaceShrink: 0.54,
  hyphenWidth: 0,
  startBlank: 0,
  endBlank: 0,
  hyphen: 'none',
  cost: 0,
  forced: false,
  cut: false,
  ...more,
});

const closed = (atoms: readonly Atom[]): Atom[] =>
  atoms.map((atom, index) => ({ ...atom, forced: atom.forced || index === atoms.length - 1 }));

const measure = (more: Partial<Measure> = {}): Measure => ({
  width: 100,
  firstIndent: 0,
  lastReserve: 0,
  justified: true,
  size: 10,
  ...more,
});

/** Demerits of one line as the paper has them: (1 + 10-based badness)², and the penalty squared. */
function costOfLine(line: readonly Atom[], first: boolean, last: boolean, m: Measure): number {
  const end = line.at(-1)!;
  const inner = line.slice(0, -1);
  const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
  const width =
    sum(line.map((atom) => atom.width)) + sum(inner.map((atom) => atom.space)) + end.hyphenWidth;
  const room = m.width - (first ? m.firstIndent : 0) - (last ? m.lastReserve : 0);
  const slack = room - width;
  if (slack < 0) {
    const shrink = m.justified ? sum(inner.map((atom) => atom.spaceShrink)) : 0;
    if (-slack > shrink + 1e-6) return Infinity;
    return (10 + 100 * (-slack / shrink) ** 3) ** 2 + end.cost ** 2;
  }
  if (end.forced)
    return 100 + (last && !first && width < m.size * (m.lastReserve > 0 ? 2.4 : 4.2) ? 60_000 : 0);
  if (!m.justified) {
    const usual = Math.min(m.size * 8, m.width * 0.22);
    return (10 + Math.min(10_000, 100 * (slack / usual) ** 2)) ** 2 + end.cost ** 2;
  }
  const ratio = slack / Math.max(sum(inner.map((atom) => atom.spaceStretch)), m.size / 10);
  return (10 + Math.min(10_000, 100 * ratio ** 3)) ** 2 + end.cost ** 2;
}

function costOf(atoms: readonly Atom[], ends: readonly number[], m: Measure): number {
  let start = 0;
  let total = 0;
  let before: Atom | undefined;
  for (const end of ends) {
    const last = end === atoms.length;
    total += costOfLine(atoms.slice(start, end), start === 0, last, m);
    if (before !== undefined && before.hyphen !== 'none') {
      if (last) total += 40_000;
      else if (atoms[end - 1]!.hyphen !== 'none') total += 5_000;
    }
    before = atoms[end - 1]!;
    start = end;
  }
  return total;
}

/** Every way to end lines after some of the atoms. */
function* everyChoice(count: number): Generator<number[]> {
  for (let bits = 0; bits < 2 ** (count - 1); bits++) {
    const ends: number[] = [];
    for (let place = 1; place < count; place++) if (bits & (1 << (place - 1))) ends.push(place);
    yield [...ends, count];
  }
}

const someAtom = fc.record({
  width: fc.integer({ min: 4, max: 60 }),
  hyphen: fc.constantFrom<Atom['hyphen']>('none', 'none', 'none', 'added'),
});

describe('optimal line breaks', () => {
  it('cost no more than any other choice of lines', () => {
    const inputs = fc.array(someAtom, { minLength: 1, maxLength: 11 });
    const runs = fc.property(
      inputs,
      fc.boolean(),
      fc.nat({ max: 30 }),
      fc.constantFrom(0, 35),
      (some, justified, indent, reserve) => {
        const atoms = closed(
          some.map(({ width, hyphen }) =>
            hyphen === 'added'
              ? word(width, {
                  hyphen,
                  hyphenWidth: 4,
                  cost: 50,
                  space: 0,
                  spaceStretch: 0,
                  spaceShrink: 0,
                })
              : word(width),
          ),
        );
        const m = measure({ justified, firstIndent: indent, lastReserve: reserve });
        const chosen = costOf(atoms, optimalBreaks(atoms, m), m);
        const least = Math.min(
          ...[...everyChoice(atoms.length)].map((ends) => costOf(atoms, ends, m)),
        );
        expect(chosen).toBeCloseTo(least, 3);
      },
    );
    fc.assert(runs, { numRuns: 150, seed: 11 });
  });

  it('evens out two lines instead of leaving one word alone', () => {
    const atoms = closed([22, 22, 22, 22, 20].map((width) => word(width)));
    expect(optimalBreaks(atoms, measure({ justified: false }))).toEqual([3, 5]);
  });

  it('ends a line where it must', () => {
    const atoms = closed([word(10), word(10, { forced: true }), word(10)]);
    expect(optimalBreaks(atoms, measure())).toEqual([2, 3]);
  });

  it('keeps room at the end of the last line', () => {
    const atoms = closed([word(40), word(40)]);
    expect(optimalBreaks(atoms, measure())).toEqual([2]);
    expect(optimalBreaks(atoms, measure({ lastReserve: 50 }))).toEqual([1, 2]);
  });

  it('gives a line to what fits on none', () => {
    const atoms = closed([word(20), word(300), word(20)]);
    expect(optimalBreaks(atoms, measure())).toEqual([1, 2, 3]);
  });
});
