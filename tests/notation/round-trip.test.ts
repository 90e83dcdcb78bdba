/** Reading what is printed gives the same tree: parse ∘ print = identity over random trees. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { printLine, readLine } from '../../src/pattern/notation/index.ts';
import { CATALOGUE } from '../../src/pattern/stitches/index.ts';
import { withoutPlaces } from './shown.ts';
import { line, SIZES } from './trees.ts';

test('a printed line is read back to the same tree', () => {
  fc.assert(
    fc.property(line, (tree) => {
      const printed = printLine(tree);
      const read = readLine(printed, { sizes: SIZES, catalogue: CATALOGUE });
      expect(read.problems, printed).toEqual([]);
      expect(withoutPlaces(read.line), printed).toEqual(withoutPlaces(tree));
    }),
    { numRuns: 400, seed: 20260302 },
  );
});
