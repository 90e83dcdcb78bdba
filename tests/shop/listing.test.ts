/**
 * Listings: the facts of the pattern in every language, texts that fit a form, and linked data that a
 * general JSON-LD processor (jsonld, by its W3C test suite) expands without dropping a word. The
 * vocabulary itself is checked by the compiler, through types made from schema.org (schema-dts).
 */
import fc from 'fast-check';
import jsonld from 'jsonld';
import { describe, expect, it } from 'vitest';
import { fitTags, fitText, lettersOf } from '../../src/release/listing/fitted.ts';
import { productOf } from '../../src/release/listing/json-ld.ts';
import { gatherListing } from '../../src/release/listing/listing.ts';
import { descriptionHtml, listingText } from '../../src/release/listing/write.ts';
import { safeName } from '../../src/release/shop/names.ts';
import { editionOf, equipment, starter } from './starters.ts';

const LANGUAGES = ['en-US', 'de', 'fr', 'ja'];
const hat = await starter('breakwater-hat');
const baby = await starter('little-squall-cardigan');
const { templates, languages } = await equipment();

describe('a listing', () => {
  it.each(LANGUAGES)('names sizes, yarn, amounts and needles in %s', async (tag) => {
    const listing = gatherListing(await editionOf(hat, tag), ['Deutsch', 'français']);
    const facts = listing.facts.join('\n');
    for (const size of hat.pattern.sizes) expect(facts).toContain(size);
    expect(facts).toContain('Northfold Ebbtide DK');
    expect(facts).toMatch(/60\s?.*70.*75.*85.*90/);
    expect(facts).toContain('Deutsch');
    expect(listing.title.length * listing.short.length * listing.tags.length).toBeGreaterThan(0);
  });

  it.each(LANGUAGES)('of a garment for a child carries every caution in %s', async (tag) => {
    const edition = await editionOf(baby, tag);
    const { cautions } = gatherListing(edition, []);
    expect(cautions.length).toBeGreaterThanOrEqual(3);
    const written = listingText(gatherListing(edition, []), edition.language, templates);
    const page = descriptionHtml(gatherListing(edition, []), edition.language, templates);
    for (const caution of cautions) {
      expect(written).toContain(caution);
      expect(page).toContain(caution.replaceAll('&', '&amp;').replaceAll("'", '&#x27;'));
    }
  });

  it('writes what a designer wrote as text, never as markup', async () => {
    const edition = await editionOf(hat, 'en-US');
    const listing = { ...gatherListing(edition, []), paragraphs: ['<b>{{x}}</b> & more'] };
    const page = descriptionHtml(listing, languages.get('en-US')!, templates);
    expect(page).toContain('&lt;b&gt;{{x}}&lt;/b&gt; &amp; more');
  });
});

/** Stands in for the address https://schema.org: its own context has this vocabulary (schema.org, docs). */
const documentLoader = (url: string) => {
  expect(url).toBe('https://schema.org');
  const document = { '@context': { '@vocab': 'https://schema.org/' } };
  return Promise.resolve({ documentUrl: url, document, contextUrl: undefined as never });
};

describe('linked data', () => {
  it.each(LANGUAGES)('expands without loss, its words marked as %s', async (tag) => {
    const edition = await editionOf(baby, tag);
    const listing = gatherListing(edition, []);
    const product = productOf({
      edition,
      listing,
      pictures: ['../pictures/cover.webp'],
      documents: [{ path: 'little-squall.pdf', mediaType: 'application/pdf' }],
    });
    const document = product as unknown as jsonld.JsonLdDocument;
    const options = { documentLoader, safe: true, base: 'https://shop.example/de/' };
    const [node = {}] = await jsonld.expand(document, options);
    expect(node['@type']).toEqual(['https://schema.org/Product']);
    expect(node['https://schema.org/name']).toEqual([
      { '@value': listing.title, '@language': tag.toLowerCase() },
    ]);
    expect(node['https://schema.org/size']).toHaveLength(baby.pattern.sizes.length);
    const keys = Object.keys(product).filter((key) => !key.startsWith('@'));
    for (const key of keys) expect(node).toHaveProperty([`https://schema.org/${key}`]);
    const text = JSON.stringify(node);
    for (const caution of listing.cautions) expect(text).toContain(caution);
    const quads = await jsonld.toRDF(document, options);
    expect(JSON.stringify(quads)).toContain('https://schema.org/DigitalDocument');
  });
});

describe('texts that fit a form', () => {
  it('are never longer, never empty, and are left alone where they fit', () => {
    const words = fc.array(
      fc.constantFrom('Strick', 'wave', '編み物', 'Ö', 'x.', 'Ende.', '😀', 'hat!'),
      { minLength: 1, maxLength: 60 },
    );
    fc.assert(
      fc.property(words, fc.integer({ min: 10, max: 120 }), (parts, most) => {
        const text = parts.join(' ');
        const fitted = fitText(text, most, 'en');
        expect(lettersOf(fitted.text)).toBeLessThanOrEqual(most);
        expect(fitted.text.trim()).not.toBe('');
        expect(fitted.shortened).toBe(lettersOf(text) > most);
        if (!fitted.shortened) expect(fitted.text).toBe(text);
      }),
    );
  });

  it('end with a sentence where most of the room is used, else between words', () => {
    expect(fitText('One hat. Two hats. Three more hats.', 20, 'en').text).toBe(
      'One hat. Two hats.',
    );
    expect(fitText('A sentence that goes on and on.', 16, 'en').text).toBe('A sentence that…');
  });

  it('tell which tags were left out', () => {
    const limits = { tags: 2, tag: 5 };
    expect(fitTags(['hat', 'much too long', 'wool', 'rib'], limits)).toEqual({
      tags: ['hat', 'wool'],
      left: ['much too long', 'rib'],
    });
  });
});

describe('names of files', () => {
  it('are plain everywhere, and stay different', () => {
    const name = fc.string({ minLength: 1, maxLength: 150, unit: 'grapheme' });
    fc.assert(
      fc.property(name, name, (one, other) => {
        const [a, b] = [safeName(`${one}.jpg`), safeName(`${other}.jpg`)];
        for (const each of [a, b]) {
          expect(each).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*\.jpg$/);
          expect(each.length).toBeLessThanOrEqual(80);
          expect(each).not.toMatch(/^(con|prn|aux|nul|com\d|lpt\d)\./);
        }
        const last = (text: string) => (text.split('/').at(-1) ?? '').toLowerCase();
        const alike = (text: string) => last(text).replaceAll('.', '-');
        if (alike(one) !== alike(other)) expect(a).not.toBe(b);
      }),
    );
  });

  it.each([
    ['pt-BR/Cover.JPG', 'cover.jpg'],
    ['con.txt', /^con-[0-9a-f]{6}\.txt$/],
    ['Böe 1.png', /^boe-1-[0-9a-f]{6}\.png$/],
    ['帽子.pdf', /^[0-9a-f]{6}\.pdf$/],
    ['hat-1.0.1-de.pdf', 'hat-1-0-1-de.pdf'],
  ])('%s', (name, safe) => {
    if (typeof safe === 'string') expect(safeName(name)).toBe(safe);
    else expect(safeName(name)).toMatch(safe);
  });
});
