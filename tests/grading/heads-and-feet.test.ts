/**
 * Heads and feet, which are published by age and by shoe size: ranges against the rows they come from
 * (head sizes: published size charts, common range; feet: Craft Yarn Council, foot size chart, from
 * memory), and the check that holds a bundle to them.
 */
import { describe, expect, it } from 'vitest';
import {
  type BodyGroup,
  bodySizes,
  bodySource,
  bodyValue,
} from '../../src/pattern/grading/body.ts';
import { codes, dataWith } from './bundle.ts';

/** Group, US shoe sizes, circumference of the foot and its length in inches, row by row. */
const FEET: readonly (readonly [BodyGroup, string, number, number])[] = [
  ['child', '0–4', 4.5, 4],
  ['child', '4–8', 5.5, 5],
  ['child', '7–11', 6, 6],
  ['child', '10–2', 6.5, 7.5],
  ['child', '2–6', 7, 8],
  ['woman', '3–6½', 7, 9],
  ['woman', '6½–9', 8, 10],
  ['woman', '9–12', 9, 11],
  ['man', '6–8½', 7, 9.5],
  ['man', '8½–10', 8, 10.5],
  ['man', '10–12', 9, 11],
  ['man', '12–14', 10, 11.5],
];

/** Group, size of the garment, from and to in inches. */
const HEADS: readonly (readonly [BodyGroup, string, number, number])[] = [
  ['baby', '6 mo', 16, 19],
  ['baby', '12 mo', 16, 19],
  ['baby', '18 mo', 18, 20],
  ['child', '2', 18, 20],
  ['child', '6', 20, 22],
  ['man', 'L', 22, 24.5],
];

describe('published ranges', () => {
  it.each(['child', 'woman', 'man'] as const)(
    'feet of a %s go from its first row to its last',
    (group) => {
      const rows = FEET.filter(([each]) => each === group);
      const range = (values: readonly number[]) => [Math.min(...values), Math.max(...values)];
      const found = (part: string) => bodyValue(group, 'M', part);
      expect([found('foot')?.fromInches, found('foot')?.toInches]).toEqual(
        range(rows.map((row) => row[2])),
      );
      expect([found('footLength')?.fromInches, found('footLength')?.toInches]).toEqual(
        range(rows.map((row) => row[3])),
      );
    },
  );

  it.each(HEADS)('the head of a %s in size %s is %s to %s in', (group, size, from, to) => {
    expect(bodyValue(group, size, 'head')).toMatchObject({ fromInches: from, toInches: to });
  });

  it.each(['head', 'foot', 'footLength'])(
    'adults: %s from the smaller of woman and man to the larger',
    (part) => {
      const [woman, man, adult] = (['woman', 'man', 'adult'] as const).map((group) =>
        bodyValue(group, 'M', part),
      );
      expect(adult?.fromInches).toBe(Math.min(woman?.fromInches ?? 0, man?.fromInches ?? 0));
      expect(adult?.toInches).toBe(Math.max(woman?.toInches ?? 0, man?.toInches ?? 0));
    },
  );

  it('say where they are from; a group without garment sizes has none', () => {
    expect(bodySource('foot')).toMatch(/foot size chart/);
    expect(bodySource('bust')).toMatch(/body sizing/);
    expect(bodySizes('adult')).toEqual([]);
    expect(bodyValue('baby', '3 mo', 'head')).toBeUndefined();
  });
});

describe('a bundle held to them', () => {
  const body = (part: string, inches: string, table: BodyGroup) => [
    { part, size: { in: inches }, table },
  ];

  it.each([
    ['head', '20 (22, 24)', 'adult', false],
    ['head', '20 (22, 26)', 'adult', true],
    ['head', '18 (22, 24)', 'adult', true],
    ['foot', '7 (8, 9)', 'woman', false],
    ['foot', '7 (8, 10)', 'woman', true],
    ['footLength', '9 (10, 11½)', 'adult', false],
    ['footLength', '8 (10, 11)', 'woman', true],
  ] as const)('%s %s as %s: told is %s', (part, inches, table, told) => {
    expect(codes(dataWith({ body: body(part, inches, table) })).includes('grade/table')).toBe(told);
  });
});
