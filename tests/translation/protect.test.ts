/** Size lists, numbers and abbreviations are cut out whole and said as the other language writes them. */
import { describe, expect, it } from 'vitest';
import { cutSource, isThing, sayThing } from '../../src/translation/protect.ts';
import { fitTranslation } from '../../src/translation/fit.ts';
import { english, german, languages } from './room.ts';

const shown = (text: string) =>
  cutSource(english, text)
    .map((part) => (isThing(part) ? `[${part.kind} ${part.text}]` : part))
    .join('');
const said = (text: string, tag: string) =>
  cutSource(english, text)
    .map((part) => (isThing(part) ? sayThing(part, english, languages.get(tag)!) : part))
    .join('');

describe('what is protected', () => {
  it.each([
    ['Cast on 20 (21, 22, 23, 24) sts.', 'Cast on [sizes 20 (21, 22, 23, 24)] sts.'],
    ['Work 35½ (38, –) [40, 42] rows.', 'Work [sizes 35½ (38, –) [40, 42]] rows.'],
    ['One repeat is 8 stitches.', 'One repeat is [number 8] stitches.'],
    ['every 6th round', 'every [number 6]th round'],
    ['rows 1–8, then 2 more', 'rows [small 1]–[number 8], then [small 2] more'],
    ['a 6-stitch rope, 2½ in / 6.5 cm wide', 'a [number 6]-stitch rope, [length 2½] in / [length 6.5] cm wide'],
    ['1,250 yards', '[number 1,250] yards'],
    ['½ in', '[length ½] in'],
    ['k2tog on the RS, then ssk', '[term k2tog] on the [term RS], then [term ssk]'],
    ['the yarn is in use', 'the yarn is in use'],
    ['no numbers at all', 'no numbers at all'],
  ])('%s', (text, cut) => {
    expect(shown(text)).toBe(cut);
  }); // prettier-ignore

  it('gives the source again when its parts are joined', () => {
    for (const text of ['', '8', 'k2tog 3 (4, 5)', ' 1,5 ( , '])
      expect(cutSource(english, text).map((part) => (isThing(part) ? part.text : part)).join('')).toBe(text); // prettier-ignore
  });
});

// Brackets, separators and decimal signs as in `locales/*/language.json`, those after CLDR.
describe('how another language writes it', () => {
  it.each([
    ['de', '20 (21, 22)', '20 (21, 22)'],
    ['de', '35.5 (37, 38)', '35,5 (37; 38)'],
    ['fr', '2.5 cm', '2,5 cm'],
    ['ja', '20 (21, 22)', '20（21、22）'],
    ['de', 'k2tog', '2 M re zus-str'],
    ['de', 'RS', 'Hinr'],
    ['he', '20 (21, 22)', '20 (21, 22)'],
  ])('%s: %s is %s', (tag, text, wanted) => {
    expect(said(text, tag)).toBe(wanted);
  });
});

describe('an existing translation', () => {
  const fitted = (source: string, text: string) =>
    fitTranslation(cutSource(english, source), text, english, german)
      .map((part) => (typeof part === 'string' ? part : `<${part.id}>`))
      .join('');
  it.each([
    ['8 rows of 18', '18 Reihen, dann 8', '<n2> Reihen, dann <n1>'],
    ['every 6th', 'in jeder 6. Runde', 'in jeder <n1>. Runde'],
    ['2.5 cm', '2,5 cm', '<n1> cm'],
    ['2.5 cm', '2½ cm', '2½ cm'],
    ['5 cm', '2,5 cm', '2,5 cm'],
    ['2 rows', 'zwei Reihen', 'zwei Reihen'],
    ['on the RS', 'auf der Hinr', 'auf der <t1>'],
  ])('of “%s”: %s', (source, text, wanted) => {
    expect(fitted(source, text)).toBe(wanted);
  });
});
