/**
 * Every starter in every language that has prose for it, whether published or not: no word, text or
 * number is missing, the texts are those of the source in the same order and shape, and the pictures
 * say that they are rendered.
 */
import { describe, expect, test } from 'vitest';
import { wordingOf } from '../../src/findings/register.ts';
import { checkLanguage, loadLanguages } from '../../src/language/index.ts';
import { proseOf, RENDERED, starterIn, STARTER_NAMES } from './every-language.ts';

const languages = await loadLanguages('locales');
const source = languages.get('en-US')!;

describe.each(STARTER_NAMES)('%s', async (starter) => {
  const tags = proseOf(starter);
  const checked = await starterIn(starter, tags);
  const { prose, data } = checked.pattern.bundle;
  const original = prose.get(data.language)!;

  test.each(tags)('%s lacks nothing and says the same numbers', (tag) => {
    const found = checkLanguage(checked, languages.get(tag)!, source);
    const said = found.map((each) => {
      const { headline, notes = [] } = wordingOf(each);
      return [headline, ...notes].join('\n');
    });
    expect(said).toEqual([]);
  });

  test.each(tags)('%s has the texts of the source, each with as many paragraphs', (tag) => {
    const own = prose.get(tag)!;
    expect(Object.keys(own)).toEqual(Object.keys(original));
    // Search words are the market's own, so their number may differ.
    for (const [key, value] of Object.entries(original)) {
      if (key === 'listing.tags') continue;
      const paragraphs = own[key];
      expect([key, Array.isArray(paragraphs) ? paragraphs.length : 1]).toEqual([
        key,
        Array.isArray(value) ? value.length : 1,
      ]);
    }
  });

  test.each(tags)('%s says of every picture that it is rendered', (tag) => {
    for (const { alt, caption } of data.photos) {
      for (const key of [alt, caption]) {
        if (key !== undefined) expect(String(prose.get(tag)?.[key])).toMatch(RENDERED[tag] ?? /^$/);
      }
    }
  });
});
