/**
 * Reads a line of notation and says it in a language, for the tests of this room: a small invented
 * bundle gives the names that lines refer to.
 */
import { sayLine, type Language, type Names, type SpokenLine } from '../../src/language/index.ts';
import { readLine } from '../../src/pattern/notation/index.ts';
import type { Line } from '../../src/pattern/notation/ast.ts';
import type { BundleData } from '../../src/pattern/bundle/schema.ts';
import { CATALOGUE } from '../../src/pattern/stitches/index.ts';
import { SIZES } from './lines.ts';

const data = {
  language: 'en-US',
  charts: [{ id: 'chart-a', name: 'Chart A' }],
  stitchPatterns: [],
  stitches: [],
  yarns: [],
  needles: [],
} as unknown as BundleData;

export const NAMES: Names = { data, prose: undefined };

export function read(text: string): Line {
  const { line, problems } = readLine(text, {
    sizes: SIZES,
    catalogue: CATALOGUE,
    names: { charts: new Map([['chart a', 'chart-a']]), fabrics: new Map() },
  });
  if (!line) throw new Error(`${text}: ${JSON.stringify(problems)}`);
  return line;
}

export const say = (language: Language, text: string): SpokenLine =>
  sayLine(read(text), { language, form: /\brnds?\b/i.test(text) ? 'round' : 'flat', names: NAMES });

/** Label, body and count as one text, as a page shows them. */
export const shown = ({ label, body, count }: SpokenLine): string =>
  [label, body, count]
    .map((parts) => parts.map((part) => part.text).join(''))
    .filter((text) => text !== '')
    .join(' ');
