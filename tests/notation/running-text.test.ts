/** Running text from a notebook, cut into the lines that are then read one by one. */
import { describe, expect, test } from 'vitest';
import { readRunningText } from '../../src/pattern/notation/index.ts';

const cut = (text: string): string[] =>
  readRunningText(text).lines.map(({ kind, text: line, offset }) => {
    expect(text.slice(offset, offset + line.length)).toBe(line);
    return `${kind}: ${line.replace(/\s+/g, ' ')}`;
  });

describe('lines', () => {
  test('a notebook page', () => {
    const page = `Sizes: S (M, L)
BODY
With smaller needles, cast on 80 (88, 96) sts. Place marker and join to work in the round.
Rnd 1: *k2, p2; rep from * to
end. Rnd 2: Purl.
Rep Rnds 1 and 2 five times more.
Inc rnd: *k8, m1; rep from * to end.
90 (99, 108) sts.
# measured on the blocked swatch
Row 5 (RS): K to end. Turn. Rep Row 5 until piece measures 4 in. 20 sts rem.

(Multiple of 8 sts + 3)
Heel turn: Row 1 (RS): Sl1, k17, ssk, k1, turn. Row 2 (WS): Sl1, p5, p2tog, p1, turn.
- K 3 rows.
k2, p2
p2, k2`;
    expect(cut(page)).toEqual([
      'sizes: Sizes: S (M, L)',
      'heading: BODY',
      'instruction: With smaller needles, cast on 80 (88, 96) sts.',
      'instruction: Place marker and join to work in the round.',
      'instruction: Rnd 1: *k2, p2; rep from * to end.',
      'instruction: Rnd 2: Purl.',
      'instruction: Rep Rnds 1 and 2 five times more.',
      'instruction: Inc rnd: *k8, m1; rep from * to end. 90 (99, 108) sts.',
      'note: # measured on the blocked swatch',
      'instruction: Row 5 (RS): K to end. Turn.',
      'instruction: Rep Row 5 until piece measures 4 in. 20 sts rem.',
      'multiple: (Multiple of 8 sts + 3)',
      'heading: Heel turn:',
      'instruction: Row 1 (RS): Sl1, k17, ssk, k1, turn.',
      'instruction: Row 2 (WS): Sl1, p5, p2tog, p1, turn.',
      'instruction: K 3 rows.',
      'instruction: k2, p2',
      'instruction: p2, k2',
    ]);
  });

  test.each([
    ['Row 1: k2.\r\nRow 2: p2.\r\n', ['instruction: Row 1: k2.', 'instruction: Row 2: p2.']],
    ['1st row: K.\n2nd row: P.', ['instruction: 1st row: K.', 'instruction: 2nd row: P.']],
    [
      'Row 1: [k2,\np2] 4 times\nRow 2: P',
      ['instruction: Row 1: [k2, p2] 4 times', 'instruction: Row 2: P'],
    ],
    ['Knit.\n\nPurl.', ['instruction: Knit.', 'instruction: Purl.']],
    ['Cast on 20 sts. (20 sts)', ['instruction: Cast on 20 sts. (20 sts)']],
    [
      'Work 3 rows. Inc row: k1, m1, k to end.',
      ['instruction: Work 3 rows.', 'instruction: Inc row: k1, m1, k to end.'],
    ],
    ['', []],
    [' \n\t\n', []],
  ])('%j', (text, lines) => {
    expect(cut(text)).toEqual(lines);
  });
});

describe('what a line says of itself', () => {
  const only = (text: string) => readRunningText(text).lines[0];
  test.each([
    ['(Multiple of 3 sts + 2)', 3, 2],
    ['Multiple of 12', 12, 0],
    ['mult of 8 plus 3', 8, 3],
  ])('%s', (text, multiple, plus) => {
    expect(only(text)).toMatchObject({ kind: 'multiple', multiple, plus });
  });
  test.each([
    ['Sizes: S (M, L, XL)', ['S', 'M', 'L', 'XL']],
    ['Sizes S (M) [L]', ['S', 'M', 'L']],
    ['Size: XS, S and M', ['XS', 'S', 'M']],
    ['Sizes: ladies S (M, L) mens S (M, L)', ['ladies S', 'M', 'L', 'mens S', 'M', 'L']],
  ])('%s', (text, names) => {
    expect(only(text)).toMatchObject({ kind: 'sizes', names });
  });
});
