/**
 * A test copy as its reader gets it: pdf.js finds the mark on every page, outside the text that is read
 * aloud; the copy is of one size, carries its cautions and asks for the report, in every language.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { planReturn } from '../../src/packet/testing/plan.ts';
import { buildTestCopy } from '../../src/packet/testing/test-copy.ts';
import type { CheckedPattern } from '../../src/pattern/pattern.ts';
import type { EditionOrder } from '../../src/press/edition/order.ts';
import { printDocument } from '../../src/press/print.ts';
import { writeText } from '../../src/press/text/write-text.ts';
import { readWithViewer, spoken } from '../pdf/reading.ts';
import { equipment, starter } from '../shop/starters.ts';

let cardigan: CheckedPattern;
const SIZE = 2;

beforeAll(async () => {
  cardigan = await starter('little-squall-cardigan');
});

async function copyIn(tag: string) {
  const { languages, templates } = await equipment();
  const blank = { hash: '', widthPixels: 1200, heightPixels: 1500 };
  const { photos } = cardigan.pattern.bundle.data;
  const order: EditionOrder = {
    checked: cardigan,
    language: languages.get(tag)!,
    kind: 'one-size',
    size: SIZE,
    pictures: new Map(photos.map(({ file }) => [file, blank])),
  };
  const plan = planReturn(order);
  return { plan, document: buildTestCopy(order, plan, templates) };
}

/** Figures of photographs are left out: this test has no pictures. */
const withoutPhotos = (document: Awaited<ReturnType<typeof copyIn>>['document']) => ({
  ...document,
  blocks: document.blocks.map((block) =>
    block.kind === 'section'
      ? { ...block, children: block.children.filter((child) => child.kind !== 'figure' || child.content.kind !== 'picture') }
      : block,
  ),
}); // prettier-ignore

describe('a test copy', () => {
  it('is marked on every page, as furniture that no screen reader reads', async () => {
    const { document } = await copyIn('en-US');
    const { fonts } = await equipment();
    const printed = await printDocument(withoutPhotos(document), fonts);
    expect(printed.findings).toEqual([]);
    const { pages } = await readWithViewer(printed.bytes);
    expect(pages.length).toBeGreaterThan(4);
    for (const { texts, tree } of pages) {
      const all = [...texts.values()].join('');
      expect(all).toContain('Test knitting copy. Not for sale.');
      const aloud = spoken(tree, texts)
        .map(([, text]) => text)
        .join('');
      expect(aloud).not.toContain('Test knitting copy. Not for sale.');
    }
  });

  it.each(['en-US', 'de', 'fr', 'ja'])(
    'in %s is of one size and asks for the report',
    async (tag) => {
      const { document, plan } = await copyIn(tag);
      const text = writeText(document);
      const { sizes } = cardigan.pattern;
      expect(document.mark).toContain(sizes[SIZE]);
      for (const { asks } of plan.rows)
        expect(text.replaceAll(/\s+/g, ' ')).toContain(asks.replaceAll(/\s+/g, ' '));
      for (const other of sizes.filter((_, at) => at !== SIZE))
        expect(document.title).not.toContain(other);
      // A cardigan for a baby: buttons are small parts, in the copy as in the pattern.
      const { languages } = await equipment();
      const caution = languages.get(tag)!.sources.messages['caution.smallParts']!;
      expect(text).toContain(caution);
    },
  );
});
