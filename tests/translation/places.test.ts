/** Notes for translators name the place of a text; narrow places have room for what is there already. */
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { bundleSchema, SOURCE_KEY } from '../../src/pattern/bundle/schema.ts';
import { MOST_CHARACTERS, placesOf } from '../../src/translation/places.ts';
import { hat, send } from './room.ts';

const STARTERS = 'templates/starters';
const json = (path: string): unknown => JSON.parse(readFileSync(path, 'utf8'));

it('shops have no less room than a translator is told of', () => {
  const shops = readdirSync('templates/shop')
    .filter((name) => name.endsWith('.json'))
    .map((name) => json(`templates/shop/${name}`) as { texts: Record<string, number> });
  const least = (text: string) => Math.min(...shops.map(({ texts }) => texts[text] ?? Infinity));
  expect(MOST_CHARACTERS['listing.title']).toBeLessThanOrEqual(least('title'));
  expect(MOST_CHARACTERS['listing.short']).toBeLessThanOrEqual(least('short'));
  expect(MOST_CHARACTERS['listing.description']).toBeLessThanOrEqual(least('description'));
  expect(MOST_CHARACTERS['listing.tags']).toBeLessThanOrEqual(least('tag'));
});

describe.each(readdirSync(STARTERS).filter((name) => existsSync(`${STARTERS}/${name}/pattern.json`)))('%s', (name) => {
  const folder = `${STARTERS}/${name}`;
  const place = placesOf(bundleSchema.parse(json(`${folder}/pattern.json`)));

  it('has texts that fit their places, in every language', () => {
    const long = readdirSync(`${folder}/prose`).flatMap((file) =>
      Object.entries(json(`${folder}/prose/${file}`) as Record<string, string | string[]>)
        .filter(([key]) => key !== SOURCE_KEY)
        .flatMap(([key, value]) => [value].flat().map((text) => ({ file, key, letters: Array.from(text).length })))
        .filter(({ key, letters }) => letters > (place(key).mostCharacters ?? Infinity)));
    expect(long).toEqual([]);
  });

  it('says of every text where it stands', () => {
    const keys = Object.keys(json(`${folder}/prose/en-US.json`) as object);
    expect(keys.filter((key) => place(key).note === 'A text of the pattern.')).toEqual([]);
  });
}); // prettier-ignore

it('a note says the key, the place and the room', () => {
  const xliff = send({ ...hat, prose: new Map([['en-US', hat.prose.get('en-US')!]]), sources: new Map() }).xliff!; // prettier-ignore
  expect(xliff).toContain('>photo.cover.caption: Stands under the cover photograph cover.jpg. At most 160 characters.<'); // prettier-ignore
  expect(xliff).toContain('>listing.tags: Words people search for in a shop');
});
