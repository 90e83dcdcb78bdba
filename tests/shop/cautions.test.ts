/**
 * Cautions as rules and wherever a buyer reads: the document, the accessible page, the listing as text,
 * page and linked data, in every language. The published rules are named beside each; the table of what
 * applies to whom is read from them by hand (16 CFR 1120, 1501, 1615 and 1616; EN 14682:2014; safe-sleep
 * advice of CPSC and AAP).
 */
import { describe, expect, it } from 'vitest';
import { text } from '../../src/language/index.ts';
import type { BundleData } from '../../src/pattern/bundle/schema.ts';
import { assembleBundle } from '../../src/pattern/bundle/load.ts';
import { CAUTION_RULES, cautionsFor } from '../../src/pattern/cautions.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import { buildEdition } from '../../src/press/edition/edition.ts';
import { writeText } from '../../src/press/text/write-text.ts';
import { gatherListing } from '../../src/release/listing/listing.ts';
import { productOf } from '../../src/release/listing/json-ld.ts';
import { listingText } from '../../src/release/listing/write.ts';
import { writePage } from '../../src/release/page.ts';
import { bundleOf, editionOf, equipment } from './starters.ts';

const { languages, templates } = await equipment();
const hat = await bundleOf('breakwater-hat');

type Wearer = BundleData['wearer'];
const worn = (age: Wearer['age'], ...features: Wearer['features']): BundleData => ({
  ...hat.data,
  wearer: { age, features },
  notions: [],
  yarns: hat.data.yarns.map((yarn) => ({ ...yarn, fibres: [{ fibre: 'cotton', percent: 100 }] })),
});

describe('which cautions apply', () => {
  it.each([
    ['an adult’s cotton hat with a pompom', worn('adult', 'pompom'), []],
    ['a baby’s hat', worn('baby'), ['cot', 'needles']],
    ['a baby’s jacket with buttons', worn('baby', 'buttons'), ['smallParts', 'cot', 'needles']],
    ['a toddler’s hat with a pompom', worn('toddler', 'pompom'), ['smallParts', 'needles']],
    ['a child’s hood with cords', worn('child', 'cords'), ['cords']],
    ['a teen’s neck with cords', worn('teen', 'cords'), ['cords']],
    ['an adult’s hood with cords', worn('adult', 'cords'), []],
    ['a child’s nightshirt', worn('child', 'sleepwear'), ['sleepwear']],
    ['a blanket for a cot', worn('child', 'cot'), ['cot']],
    ['buttons among the notions', { ...worn('baby'), notions: [{ kind: 'buttons' as const }] }, ['smallParts', 'cot', 'needles']],
    ['ribbon among the notions', { ...worn('child'), notions: [{ kind: 'ribbon' as const }] }, ['cords']],
    ['wool', { ...worn('adult'), yarns: hat.data.yarns }, ['fibre']],
    ['a fibre nobody knows', { ...worn('adult'), yarns: hat.data.yarns.map((yarn) => ({ ...yarn, fibres: [{ fibre: 'qiviut', percent: 100 }] })) }, ['fibre']],
  ])('%s', (_, data, expected) => {
    expect(cautionsFor(data)).toEqual(expected);
  }); // prettier-ignore

  it('each rule names where it comes from, and claims nothing', () => {
    for (const { source } of CAUTION_RULES) expect(source).toMatch(/EN |CFR|CPSC|practice/);
    for (const { id } of CAUTION_RULES)
      expect(text(languages.get('en-US')!, `caution.${id}`)).not.toMatch(/compl|certif|safe for/i);
  });
});

describe('wherever a buyer reads', () => {
  const data = {
    ...hat.data,
    wearer: {
      age: 'baby' as const,
      features: ['buttons', 'cords', 'sleepwear'] as Wearer['features'],
    },
  };
  const ids = cautionsFor(data);

  it('all six apply to a baby’s woollen nightgown with buttons and cords', () => {
    expect(ids).toHaveLength(6);
  });

  it.each([...languages.keys()])('every one of them is said in %s', async (tag) => {
    const prose = new Map([[tag, hat.prose.get('en-US')!]]);
    const checked = checkPattern(assembleBundle(data, prose, hat.photos));
    const language = languages.get(tag)!;
    const blank = { hash: 'a', widthPixels: 1, heightPixels: 1 };
    const pictures = new Map(data.photos.map(({ file }) => [file, blank]));
    const edition = { ...(await editionOf(checked, tag)), pictures };
    const listing = gatherListing(edition, []);
    const places = [
      writeText(buildEdition(edition, templates).document),
      writePage(edition, new Map(), templates).replaceAll('&quot;', '"'),
      listingText(listing, language, templates),
      JSON.parse(
        JSON.stringify(productOf({ edition, listing, pictures: [], documents: [] })),
      ) as object,
    ].map((place) => (typeof place === 'string' ? place : JSON.stringify(place, null, 1)));
    for (const id of ids) {
      const said = text(language, `caution.${id}`);
      for (const place of places) expect(place).toContain(said);
    }
    expect(new Set(ids.map((id) => text(language, `caution.${id}`))).size).toBe(ids.length);
  });
});
