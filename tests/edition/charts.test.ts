/**
 * Where charts stand, in every language: at the end of the section that first names them, and each line
 * that names one leads there. Languages decline the name of a chart, so its text alone would not tell.
 */
import { expect, it } from 'vitest';
import type { Block, Inline } from '../../src/press/document.ts';
import { buildEdition } from '../../src/press/edition/edition.ts';
import { openEquipment } from '../../src/pipeline/rooms.ts';
import { proseOf, starterIn } from '../starters/every-language.ts';

const { languages, templates } = await openEquipment({ root: process.cwd() });

/** Each heading and each block of rows in reading order, by its id. */
function idsOf(blocks: readonly Block[]): string[] {
  return blocks.flatMap((block) => {
    if (block.kind === 'heading' || block.kind === 'instruction') return [block.id];
    return block.kind === 'section' || block.kind === 'together' ? idsOf(block.children) : [];
  });
}

const targetsIn = (inlines: readonly Inline[]): string[] =>
  inlines.flatMap((inline) => (inline.kind === 'link' ? [inline.target] : []));

function linksOf(blocks: readonly Block[]): string[] {
  return blocks.flatMap((block) => {
    if (block.kind === 'instruction') return targetsIn(block.content);
    return block.kind === 'section' || block.kind === 'together' ? linksOf(block.children) : [];
  });
}

const PATTERNS = [
  // The section whose lines first name the chart, and how many lines name it.
  ['sea-fret-pullover', 'chart-chart-a-heading', 'front-armhole-heading'],
  ['undertow-shawl', 'chart-chart-a-heading', 'shawl-border-heading'],
] as const;

it.each(PATTERNS.flatMap(([starter, chart, next]) => proseOf(starter).map((tag) => [starter, tag, chart, next] as const)))(
  'of %s in %s',
  async (starter, tag, chart, next) => {
    const checked = await starterIn(starter, [tag]);
    const language = languages.get(tag)!;
    const blank = { hash: 'blank', widthPixels: 1, heightPixels: 1 };
    const pictures = new Map(checked.pattern.bundle.data.photos.map(({ file }) => [file, blank]));
    const order = { checked, language, kind: 'standard', pictures } as const;
    const { document } = buildEdition(order, templates);
    const ids = idsOf(document.blocks);
    expect(ids.filter((id) => id === chart || id === 'charts-heading')).toEqual([chart]);
    expect(ids[ids.indexOf(chart) + 1]).toBe(next);
    const links = linksOf(document.blocks);
    expect(links.length).toBeGreaterThan(1);
    expect(new Set(links)).toEqual(new Set([`#${chart}`]));
  },
); // prettier-ignore
