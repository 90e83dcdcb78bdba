/**
 * Frames of a few documents as text, rounded to a hundredth of a point: what moved is seen in the
 * difference of two files. Letters are half an em wide, so that a place can be checked by head.
 */
import { describe, expect, it } from 'vitest';
import type { Laid, Mark } from '../../src/press/layout/frames.ts';
import { layOut } from '../../src/press/layout/lay-out.ts';
import { pageStyle } from '../../src/press/layout/style.ts';
import { plainFonts } from './plain-fonts.ts';
import { specimen } from './specimen.ts';
import { SPECIMEN_TEXTS } from './specimen-texts.ts';

const round = (value: number): string => String(Math.round(value * 100) / 100);
const place = (...values: readonly number[]): string => values.map(round).join(' ');

function lineOf(mark: Mark): string {
  const tag = mark.tag === 'artifact' ? '-' : String(mark.tag);
  switch (mark.kind) {
    case 'run': {
      const { run, sizePoints, colour } = mark;
      const face = run.face.replace('plain/', '') + (run.direction === 'rtl' ? ' rtl' : '');
      return `${tag} text ${place(mark.x, mark.y)} ${round(sizePoints)} ${face} ${colour} “${run.text}”`;
    }
    case 'rule':
      return `${tag} rule ${place(mark.x1, mark.y1, mark.x2, mark.y2)} ${round(mark.widthPoints)}`;
    case 'box':
      return `${tag} box ${place(mark.x, mark.y, mark.width, mark.height)} ${mark.fill}`;
    case 'picture':
      return `${tag} picture ${place(mark.x, mark.y, mark.width, mark.height)} ${mark.hash}`;
    case 'drawing':
      return `${tag} drawing ${place(mark.x, mark.y)} ×${round(mark.scale)}`;
    case 'link':
      return `${tag} link ${place(mark.x, mark.y, mark.width, mark.height)} ${mark.target}`;
  }
}

function tree(laid: Laid, index = 0, depth = 0): string[] {
  const { role, children, ...rest } = laid.tags[index]!;
  const details = Object.entries(rest).map(([key, value]) => ` ${key}=${String(value)}`);
  const line = `${'  '.repeat(depth)}${index} ${role}${details.join('')}`;
  return [line, ...children.flatMap((child) => tree(laid, child, depth + 1))];
}

function written(laid: Laid): string {
  const pages = laid.pages.map(({ marks }, page) =>
    [`page ${page + 1}`, ...marks.map((mark) => '  ' + lineOf(mark))].join('\n'),
  );
  const outline = laid.outline.map(
    ({ title, level, page, y }) => `  ${level} ${title}: page ${page + 1}, ${round(y)}`,
  );
  return [...pages, 'tags', ...tree(laid), 'bookmarks', ...outline, ''].join('\n');
}

describe('frames', () => {
  it.each([
    ['en', 'standard', 'Letter'],
    ['de', 'large', 'A4'],
    ['ja', 'ink-saving', 'A4'],
    ['he', 'standard', 'A4'],
  ] as const)('of the specimen in %s, %s', async (language, edition, paper) => {
    const document = specimen(SPECIMEN_TEXTS[language], { edition, paper }, 1);
    const laid = layOut(document, pageStyle(edition), plainFonts);
    const file = `../golden/layout/specimen-${language}-${edition}.txt`;
    await expect(written(laid)).toMatchFileSnapshot(file);
  });
});
