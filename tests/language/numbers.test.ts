/**
 * Numbers, units and dates: decimals and dates against Intl.NumberFormat and Intl.DateTimeFormat (ICU),
 * needle sizes against published conversion tables, rounding by the trade's rule (quarter inches, half
 * centimetres, each from the true value).
 */
import { describe, expect, test } from 'vitest';
import {
  decimal, loadLanguages, plainText, sayDate, saySizeNames, sizeName, sayGrams, sayLength, sayNeedle, sayNumber,
  sayStitches, sayYarnLength,
} from '../../src/language/index.ts'; // prettier-ignore
import { groupSizes } from '../../src/language/numbers.ts';
import { sizedOf } from '../../src/pattern/bundle/size-list.ts';

const languages = await loadLanguages('locales');
const get = (tag: string) => languages.get(tag)!;
const plain = (parts: Parameters<typeof plainText>[0]) =>
  plainText(parts).replaceAll('\u00a0', ' ');

describe.each([...languages])('%s', (tag, language) => {
  test.each([0, 1, 2.5, 35.5, 96, 1234, 1.25])('%d has the decimal sign of Intl', (value) => {
    const intl = new Intl.NumberFormat(tag, { maximumFractionDigits: 2, useGrouping: false });
    expect(decimal(language, value)).toBe(intl.format(value));
  });

  test.each(['2026-03-02', '2025-12-31'])('%s has year, month and day of Intl', (iso) => {
    const said = sayDate(language, iso);
    const format = new Intl.DateTimeFormat(tag, { dateStyle: 'long', timeZone: 'UTC' });
    const parts = format.formatToParts(new Date(`${iso}T00:00:00Z`));
    for (const { type, value } of parts) {
      if (type === 'month' || type === 'year' || type === 'day') expect(said).toContain(value);
    }
  });
});

describe('size lists', () => {
  test.each([
    ['en-US', [80], '80 sts'],
    ['en-US', [80, 80, 80], '80 sts'],
    ['en-US', [1, 1], '1 st'],
    ['en-US', [80, 88, 96, 104], '80 (88, 96, 104) sts'],
    ['en-US', [80, 88, 96, 104, 112, 120, 128], '80 (88, 96, 104) [112, 120, 128] sts'],
    ['en-US', [80, null, 96], '80 (–, 96) sts'],
    ['de', [80, 88, 96], '80 (88, 96) M'],
    ['fr', [80, 88, 96], '80 (88, 96) m'],
    ['ja', [80, 88, 96], '80（88、96）目'],
  ] as const)('%s %j', (tag, values, expected) => {
    expect(plain(sayStitches(get(tag), sizedOf(...values)))).toBe(expected);
  });

  test('names of sizes stand in the same groups', () => {
    const names = ['S', 'M', 'L', 'XL', '2XL', '3XL', '4XL'];
    expect(plain(saySizeNames(get('en-US'), names))).toBe('S (M, L, XL) [2XL, 3XL, 4XL]');
  });

  test('names of sizes each keep their direction in Hebrew, and so their order', () => {
    const [open, close] = ['\u2068', '\u2069'];
    const said = plain(saySizeNames(get('he'), ['XS', 'S', '1X']));
    expect(said).toBe(`${open}XS${close} \u2067(${open}S${close}, ${open}1X${close})${close}`);
  });

  test.each([
    ['en-US', 'One size', 'One size'],
    ['pl', 'one size', 'Jeden rozmiar'],
    ['en-US', '3 mo', '3 mo'],
    ['de', '3–6 months', '3–6 Mon.'],
    ['ko', '12 mo', '12개월'],
    ['he', '1X', '1X'],
    ['fr', '2XL', '2XL'],
  ])('%s says size %s as %s', (tag, name, said) => {
    expect(sizeName(get(tag), name)).toBe(said);
  });

  test('one size says its own number', () => {
    expect(plain(sayStitches(get('en-US'), sizedOf(80, 88, 96), 1))).toBe('88 sts');
  });

  test('groups are few and nearly equal', () => {
    expect([1, 5, 6, 7, 8, 9, 12, 20].map((rest) => groupSizes(rest))).toEqual([
      [1], [5], [3, 3], [4, 3], [4, 4], [3, 3, 3], [4, 4, 4], [7, 7, 6],
    ]); // prettier-ignore
  });

  test('decimal commas are kept apart from the separator', () => {
    expect(plain(sayNumber(get('de'), sizedOf(35.5, 37, 38.5)))).toBe('35,5 (37; 38,5)');
  });
});

describe('lengths', () => {
  test.each([
    ['en-US', { inches: sizedOf(14, 14.5) }, '14 (14½) in / 35.5 (37) cm'],
    ['de', { inches: sizedOf(14, 14.5) }, '35,5 (37) cm / 14 (14½) Zoll'],
    ['ja', { centimetres: sizedOf(10) }, '10cm／4インチ'],
    ['en-US', { inches: sizedOf(0.25) }, '¼ in / 0.5 cm'],
    ['en-US', { centimetres: sizedOf(61) }, '24 in / 61 cm'],
    ['fr', { inches: sizedOf(2.5), centimetres: sizedOf(6.5) }, '6,5 cm / 2½ po'],
  ])('%s %j', (tag, length, expected) => {
    expect(plain(sayLength(get(tag), length))).toBe(expected);
  });

  test('each unit is rounded from the true value, never from the other', () => {
    // 14.6 in is 37.08 cm: 14½ in and 37 cm. From the rounded 14½ in it would also be 37; 14.63 in is
    // 37.16 cm, 14¾ in (14.625 and up), and 37 cm: from 14¾ in it would be 37.5.
    expect(plain(sayLength(get('en-US'), { inches: sizedOf(14.63) }))).toBe('14¾ in / 37 cm');
  });
});

/** Published needle conversion tables; Japanese number n has 2.1 + 0.3 n mm. */
const NEEDLES = [
  [2, 'US 0 (2 mm)', '0号（2mm）'],
  [2.75, 'US 2 (2.75 mm)', '2号（2.75mm）'],
  [3.5, 'US 4 (3.5 mm)', '5号（3.5mm）'],
  [4, 'US 6 (4 mm)', '6号（4mm）'],
  [4.5, 'US 7 (4.5 mm)', '8号（4.5mm）'],
  [6.5, 'US 10.5 (6.5 mm)', '15号（6.5mm）'],
  [7, '7 mm', '7mm'],
  [8, 'US 11 (8 mm)', '8mm'],
] as const;

describe('needles', () => {
  test.each(NEEDLES)('%d mm', (mm, us, jp) => {
    expect(plain(sayNeedle(get('en-US'), mm))).toBe(us);
    expect(plain(sayNeedle(get('ja'), mm))).toBe(jp);
    expect(plain(sayNeedle(get('de'), mm))).toBe(`${String(mm).replace('.', ',')} mm`);
  });
});

test('yarn lengths and weights stand in the order of the country', () => {
  expect(plain(sayYarnLength(get('en-US'), 200, 219))).toBe('219 yd / 200 m');
  expect(plain(sayYarnLength(get('de'), 200, 219))).toBe('200 m / 219 yd');
  expect(plain(sayGrams(get('de'), sizedOf(350, 400)))).toBe('350 (400) g');
});
