/**
 * The files for translators in other hands: XLIFF against the OASIS schemas (core and the module for
 * sizes), read by the npm package xliff; TBX against a schema of TBX-Basic. Files spoilt on purpose prove
 * that each judge can say no. What schemas cannot say, `tests/conformance` asks another library.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import xliff2js from 'xliff/xliff2js';
import { validateXML } from 'xmllint-wasm';
import { readXml } from '../../src/translation/xml.ts';
import { writeTbx } from '../../src/translation/index.ts';
import { bytesOf, english, hat, languages, send } from './room.ts';

const FOLDER = 'tests/translation/schemas';
const read = (name: string) => readFileSync(`${FOLDER}/${name}`, 'utf8');
const preload = [
  { fileName: 'xliff_core_2.0.xsd', contents: read('xliff/xliff_core_2.0.xsd') },
  { fileName: 'size_restriction.xsd', contents: read('xliff/size_restriction.xsd') },
  { fileName: 'informativeCopiesOf3rdPartySchemas/w3c/xml.xsd', contents: read('xliff/xml.xsd') },
];

async function judgeXliff(files: ReadonlyMap<string, string>): Promise<readonly string[]> {
  const xml = Array.from(files, ([fileName, contents]) => ({ fileName, contents }));
  const schema = { fileName: 'both.xsd', contents: read('xliff/both.xsd') };
  const { errors } = await validateXML({ xml, schema, preload });
  return errors.map(({ rawMessage }) => rawMessage);
}

const others = [...languages.keys()].filter((tag) => tag !== 'en-US');
const bare = { ...hat, prose: new Map([['en-US', hat.prose.get('en-US')!]]), sources: new Map() };
const sent = send(bare).xliff!;

describe('XLIFF', () => {
  it('is valid in every language, new and translated', async () => {
    const files = new Map(others.map((tag) => [`${tag}.xlf`, send(bare, false, tag).xliff!]));
    for (const tag of ['de', 'fr', 'ja']) files.set(`${tag}-all.xlf`, send(hat, true, tag).xliff!);
    expect(await judgeXliff(files)).toEqual([]);
  });

  it.each([
    ['a segment without a source', (text: string) => text.replace(/<source>[^]*?<\/source>/, '')],
    ['a state nobody knows', (text: string) => text.replace('"initial"', '"done"')],
    ['a placeholder without a name', (text: string) => text.replace('<ph id="n1" ', '<ph ')],
    [
      'a size profile nobody knows',
      (text: string) => text.replace('general="nfc"', 'general="nfx"'),
    ],
  ])('is not where it has %s', async (_, spoil) => {
    expect(spoil(sent)).not.toBe(sent);
    expect(await judgeXliff(new Map([['spoilt.xlf', spoil(sent)]]))).not.toEqual([]);
  });

  it('is read by another library with the same texts', async () => {
    const file = await xliff2js(send(hat, true).xliff!);
    expect([file.sourceLanguage, file.targetLanguage]).toEqual(['en-US', 'de']);
    const units = file.resources['prose'] ?? {};
    expect(Object.keys(units)).toHaveLength(send(hat, true).segments.length);
    expect(units['title']).toMatchObject({
      source: 'Breakwater Hat',
      target: 'Mütze Wellenbrecher',
    });
    expect(JSON.stringify(units['note.crown']?.source)).toContain('"dataRef":"d-n1"');
  });
});

describe('TBX', () => {
  const judge = async (contents: string) => {
    const xml = { fileName: 'terms.tbx', contents };
    const schema = { fileName: 'tbx.rng', contents: read('tbx-basic-dca.rng') };
    return (await validateXML({ xml, schema, extension: 'relaxng' })).errors;
  };
  const german = writeTbx(english, languages.get('de')!);

  it.each(others)('is valid in %s', async (tag) => {
    expect(await judge(writeTbx(english, languages.get(tag)!))).toEqual([]);
  });

  it.each([
    ['an entry without a language', (text: string) => text.replace(/<langSec[^]*?<\/langSec>\s*<langSec[^]*?<\/langSec>/, '')],
    ['a kind of term nobody knows', (text: string) => text.replace('>fullForm<', '>longForm<')],
    ['one name twice', (text: string) => text.replace('"c-rnd"', '"c-st"')],
  ])('is not where it has %s', async (_, spoil) => {
    expect(spoil(german)).not.toBe(german);
    expect(await judge(spoil(german))).not.toEqual([]);
  });

  it('holds each term with its abbreviation in both languages', () => {
    const entry = /<conceptEntry id="c-stitches_3ak_23tog_402">[^]*?<\/conceptEntry>/.exec(german)![0];
    const terms = [...entry.matchAll(/<term>(.*?)<\/term>/g)].map(([, term]) => term);
    expect(terms).toEqual(['knit 2 together', 'k2tog', '2 Maschen rechts zusammenstricken', '2 M re zus-str']);
    expect(readXml(bytesOf(german), 'terms.tbx').attributes.get('type')).toBe('TBX-Basic');
  });
}); // prettier-ignore
