/** Speed of the layout: the yardstick document warm, and a pattern of 400 rows in 40 sizes. */
import { bench, describe } from 'vitest';
import { openFonts } from '../../src/press/fonts/fonts.ts';
import { layOut } from '../../src/press/layout/lay-out.ts';
import { pageStyle } from '../../src/press/layout/style.ts';
import { documentOf, instruction } from '../layout/documents.ts';
import { yardstick } from './yardstick.ts';

const fonts = openFonts();
const style = pageStyle('standard');

describe('the yardstick document', () => {
  for (const language of ['en', 'de', 'ja']) {
    const document = yardstick(language);
    bench(language, () => void layOut(document, style, fonts));
  }
});

describe('a pattern of 400 rows in 40 sizes', () => {
  const sizes = (first: number): string =>
    `${first} (${Array.from({ length: 39 }, (_, size) => first + 8 * size).join(', ')})`;
  const rows = Array.from({ length: 400 }, (_, row) =>
    instruction(
      `Row ${row + 1}`,
      `K${sizes(2)}, *yo, k2tog; rep from * to end.`,
      `${sizes(80)} sts`,
    ),
  );
  const document = documentOf(rows);
  bench('en', () => void layOut(document, style, fonts));
});
