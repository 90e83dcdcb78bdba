/**
 * Reading what is printed gives the same tree: parse ∘ print = identity over random trees; and every
 * number knows where it stands.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import type { Sized } from '../../src/pattern/bundle/size-list.ts';
import { printLine, readLine } from '../../src/pattern/notation/index.ts';
import { CATALOGUE } from '../../src/pattern/stitches/index.ts';
import { withoutPlaces } from './shown.ts';
import { line, SIZES } from './trees.ts';

/** Every number of a tree with the text at its place. */
function numbersOf(node: unknown, text: string): { value: number | null; text: string }[] {
  if (Array.isArray(node)) return node.flatMap((inner) => numbersOf(inner, text));
  if (typeof node !== 'object' || node === null) return [];
  if ('values' in node && 'spans' in node) {
    const { values, spans } = node as Sized;
    expect(spans).toHaveLength(values.length);
    return values.map((value, at) => ({
      value,
      text: text.slice(spans[at]?.start, spans[at]?.end),
    }));
  }
  return Object.values(node).flatMap((inner) => numbersOf(inner, text));
}

const GLYPHS: Readonly<Record<string, number>> = {
  '½': 1 / 2, '¼': 1 / 4, '¾': 3 / 4, '⅛': 1 / 8, '⅜': 3 / 8, '⅝': 5 / 8, '⅞': 7 / 8,
}; // prettier-ignore

/** Numbers that the text at a place may stand for: digits, a dash, or words that say or imply one. */
function said(text: string): (number | null)[] {
  if (text === '–') return [null];
  const number = /^(?=[\d½¼¾⅛⅜⅝⅞])(\d+(?:\.\d+)?)?([½¼¾⅛⅜⅝⅞])?(?:th|st|nd|rd)?$/.exec(text);
  if (number) return [Number(number[1] ?? 0) + (GLYPHS[number[2] ?? ''] ?? 0)];
  return [0, 1, 2];
}

test('a printed line is read back to the same tree', () => {
  fc.assert(
    fc.property(line, (tree) => {
      const printed = printLine(tree);
      const read = readLine(printed, { sizes: SIZES, catalogue: CATALOGUE });
      expect(read.problems, printed).toEqual([]);
      expect(withoutPlaces(read.line), printed).toEqual(withoutPlaces(tree));
      for (const { value, text } of numbersOf(read.line, printed))
        expect(said(text), printed).toContain(value);
    }),
    { numRuns: 400, seed: 20260302 },
  );
});
