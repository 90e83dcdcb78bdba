/** What comes back from a translator is let in whole, or refused with the segment and the remedy. */
import { describe, expect, it } from 'vitest';
import { wordingOf } from '../../src/findings/register.ts';
import { bundleOf, codes, fill, send, take, tied } from './room.ts';

const SOURCE = {
  title: 'Breakwater Hat',
  summary: 'Cast on 20 (21, 22, 23, 24) sts, then work 8 rows.',
  care: 'Leave a tail of 6 in and work 2 rounds on the RS.',
  'special.rope': 'Rope: four strands.',
  story: ['It blew hard.', 'The wall held.'],
};
const bundle = bundleOf(SOURCE);
const sent = send(bundle).xliff!;
const ph = (id: string) => new RegExp(`<ph id="${id}"[^>]*/>`);

/** The whole file filled in with copies, one unit in its own way. */
const filled = (unit: string, translate: (source: string) => string, from = sent) =>
  fill(from, (text, id) => (id === unit ? translate(text) : `Ü ${text}`));
const headlines = (unit: string, translate: (source: string) => string) =>
  take(bundle, filled(unit, translate)).findings.map((each) => wordingOf(each).headline);
const proseOf = (unit: string, translate: (source: string) => string, from = sent) =>
  take(bundle, filled(unit, translate, from)).prose?.[unit];

describe('a file that fits', () => {
  it('gives the prose with its numbers as the language writes them, and its sources', () => {
    const taken = take(
      bundle,
      fill(sent, (text) => `Ü ${text}`),
    );
    expect(taken.findings).toEqual([]);
    expect(taken.prose).toEqual({
      title: 'Ü Breakwater Hat',
      summary: 'Ü Cast on 20 (21, 22, 23, 24) sts, then work 8 rows.',
      care: 'Ü Leave a tail of 6 in and work 2 rounds on the Hinr.',
      'special.rope': 'Ü Rope: four strands.',
      story: ['Ü It blew hard.', 'Ü The wall held.'],
    });
    expect(send(bundleOf(SOURCE, taken.prose, taken.record)).segments).toEqual([]);
  });

  it.each([
    ['placeholders in another order', 'summary', (text: string) => `${ph('n2').exec(text)![0]} R, ${ph('n1').exec(text)![0]} M.`, '8 R, 20 (21, 22, 23, 24) M.'],
    ['a word for 2', 'care', (text: string) => text.replace(ph('n2'), 'zwei'), 'Leave a tail of 6 in and work zwei rounds on the Hinr.'],
    ['a length in the other unit', 'care', (text: string) => text.replace(ph('n1'), '15').replace(' in ', ' cm '), 'Leave a tail of 15 cm and work 2 rounds on the Hinr.'],
    ['a number typed as it should be', 'summary', (text: string) => text.replace(ph('n2'), '8'), SOURCE.summary],
    ['digits for a word', 'special.rope', () => 'ロープ：4本', 'ロープ：4本'],
    ['digits as wide as letters', 'summary', (text: string) => text.replace(ph('n2'), '８'), SOURCE.summary.replace('8', '８')],
    ['a term in full words', 'care', (text: string) => text.replace(ph('t1'), 'Hinreihe(n): die Vorderseite liegt vorn'), 'Leave a tail of 6 in and work 2 rounds on the Hinreihe(n): die Vorderseite liegt vorn.'],
    ['a section of character data', 'title', () => '<![CDATA[Mütze & <Wellen>]]>', 'Mütze & <Wellen>'],
    ['entities and references', 'title', () => 'M&#xFC;tze &amp; Meer', 'Mütze & Meer'],
    ['an annotation round words', 'title', () => '<mrk id="m1" type="term">Mütze</mrk> am <sm id="m2"/>Meer<em startRef="m2"/>', 'Mütze am Meer'],
    ['letters in two parts', 'title', () => 'Mu\u0308tze', 'Mütze'],
    ['broken lines', 'title', () => '\n   Mütze\r\n   am Meer  \n', 'Mütze am Meer'],
    ['no-break spaces, which are kept', 'title', () => 'Mütze\u00a0am\u3000Meer', 'Mütze\u00a0am\u3000Meer'],
  ])('may have %s', (_, unit, translate, wanted) => {
    expect(headlines(unit, translate)).toEqual([]);
    expect(proseOf(unit, translate)).toBe(wanted);
  }); // prettier-ignore

  it('may be cut into sentences, in another order', () => {
    const cut = sent.replace(
      '<source>It blew hard.</source>',
      '<source>It blew </source><target order="3">stürmte es.</target></segment><ignorable><source> </source><target order="2"> </target></ignorable><segment state="translated"><source>hard.</source><target order="1">Hart</target>',
    );
    // The space between the two parts of the source belongs to the first of them here.
    const fits = cut.replace('<ignorable><source> </source>', '<ignorable><source></source>');
    expect(take(bundle, fits).prose?.['story']).toEqual(['Hart stürmte es.', '']);
  });

  it.each([
    ['notes of another tool', (xliff: string) => xliff.replaceAll('<notes>', '<notes><note category="tool">seen by Ines</note>')],
    ['a module we do not know', (xliff: string) => xliff.replaceAll(/(<unit [^>]*>)/g, '$1<x:memory xmlns:x="urn:x"><x:source>8</x:source></x:memory>')],
    ['another prefix', (xliff: string) => xliff.replaceAll(/<(\/?)(?=[a-z]+[ />])(?!slr)/g, '<$1q:').replace('xmlns="', 'xmlns:q="')],
    ['other states', (xliff: string) => xliff.replaceAll('state="initial"', 'state="reviewed" subState="tool:ok"')],
    ['no states', (xliff: string) => xliff.replaceAll(' state="initial"', '')],
    ['groups', (xliff: string) => xliff.replace('</notes>\n    <unit', '</notes>\n<group id="g"><group id="h"><unit').replace('  </file>', '</group></group></file>')],
    ['XLIFF 2.0', (xliff: string) => xliff.replace('version="2.1"', 'version="2.0"')],
    ['the tag with its country', (xliff: string) => xliff.replace('trgLang="de"', 'trgLang="de-DE"')],
    ['line ends of Windows', (xliff: string) => xliff.replaceAll('\n', '\r\n')],
  ])('may come with %s', (_, rewrite) => {
    const plain = take(bundle, fill(sent, (text) => `Ü ${text}`));
    const other = take(bundle, rewrite(fill(sent, (text) => `Ü ${text}`)));
    expect(other).toEqual(plain);
  }); // prettier-ignore

  it.each([
    ['UTF-8 with a mark', (text: string) => Buffer.from(`\ufeff${text}`, 'utf8')],
    ['UTF-16', (text: string) => Buffer.from(`\ufeff${text.replace('UTF-8', 'UTF-16')}`, 'utf16le')],
    ['UTF-16, big end first', (text: string) => Buffer.from(`\ufeff${text.replace('UTF-8', 'UTF-16')}`, 'utf16le').swap16()],
  ])('may be %s', (_, encode) => {
    const taken = take(bundle, new Uint8Array(encode(filled('title', () => 'Mütze'))));
    expect(taken.prose?.['title']).toBe('Mütze');
  }); // prettier-ignore
});

describe('a file that does not fit', () => {
  it.each([
    ['a number left out', 'summary', (text: string) => text.replace(ph('n2'), ''), ['“summary”: 8 is missing']],
    ['a size list left out', 'summary', (text: string) => text.replace(ph('n1'), ''), ['“summary”: 20 (21, 22, 23, 24) is missing']],
    ['a number twice', 'summary', (text: string) => text.replace(ph('n2'), (code) => `${code} ${code}`), ['“summary”: 8 stands there more than once']],
    ['a placeholder of another segment', 'title', () => 'Mütze <ph id="n7" equiv="44"/>', ['“title”: the placeholder 44 is none of this segment']],
    ['a code of the tool', 'title', () => '<pc id="b">Mütze</pc>', ['“title”: the placeholder <pc> is none of this segment']],
    ['a number typed wrong', 'summary', (text: string) => text.replace(ph('n2'), '9'), ['“summary”: 8 is missing', '“summary” has 9, which the source has not']],
    ['one size typed wrong', 'summary', (text: string) => text.replace(ph('n1'), '20 (21, 22, 32, 24)'), ['“summary”: 20 (21, 22, 23, 24) is missing', '“summary” has 20, 21, 22, 32, 24, which the source has not']],
    ['a small number typed wrong', 'care', (text: string) => text.replace(ph('n2'), '3'), ['“care”: 2 is missing', '“care” has 3, which the source has not']],
    ['a length converted wrong', 'care', (text: string) => text.replace(ph('n1'), '25').replace(' in ', ' cm '), ['“care”: 6 is missing', '“care” has 25, which the source has not']],
    ['a number added', 'title', () => 'Mütze 1847', ['“title” has 1847, which the source has not']],
    ['a term left out', 'care', (text: string) => text.replace(ph('t1'), 'Seite'), ['“care”: RS is missing']],
    ['a title too long for its place', 'title', () => 'Wellenbrecher '.repeat(5), ['“title” has 69 characters; its place has room for 60']],
    ['a mark that turns the text', 'title', () => 'Mütze\u202e', ['“title” holds U+202E, which turns the direction of text']],
    ['a control character by its number', 'title', () => '<cp hex="0007"/>Mütze', ['“title” holds U+0007, a control code']],
  ])('is refused for %s', (_, unit, translate, wanted) => {
    const taken = take(bundle, filled(unit, translate));
    expect(headlines(unit, translate)).toEqual(wanted);
    expect(taken.prose).toBeUndefined();
  }); // prettier-ignore

  it('is refused with every segment that does not fit, each with its place', () => {
    const file = fill(sent, (text) => `Ü ${text.replace(ph('n1'), '')}`);
    const lineOf = (id: string) => file.slice(0, file.indexOf(`<unit id="${id}"`)).split('\n').length;
    expect(take(bundle, file).findings.map(({ where }) => [where.file, where.pointer, where.label])).toEqual([
      ['sent.xlf', '/summary', `summary, line ${lineOf('summary')}`],
      ['sent.xlf', '/care', `care, line ${lineOf('care')}`],
    ]);
  }); // prettier-ignore

  it.each([
    ['another pattern', (xliff: string) => xliff.replace('original="breakwater-hat"', 'original="undertow-shawl"'), 'the file is of undertow-shawl, not of breakwater-hat'],
    ['another source language', (xliff: string) => xliff.replace('srcLang="en-US"', 'srcLang="fr"'), 'the file is translated from fr; the pattern is written in en-US'],
  ])('is refused as of %s', (_, rewrite, headline) => {
    const taken = take(bundle, rewrite(fill(sent, (text) => text)));
    expect(taken.findings.map((each) => wordingOf(each).headline)).toEqual([headline]);
  }); // prettier-ignore

  it('is refused where a segment is not known, or is there twice', () => {
    const unit = /    <unit id="title"[^]*?<\/unit>\n/.exec(sent)![0];
    const file = fill(sent.replace(unit, `${unit}${unit}${unit.replaceAll('title', 'tide')}`), () => 'Ü'); // prettier-ignore
    expect(codes(take(bundle, file)).slice(0, 2)).toEqual([
      'translation/twice',
      'translation/unknown-segment',
    ]);
  });

  it('is refused where the source was changed while it was away', () => {
    const later = bundleOf({ ...SOURCE, summary: 'Cast on 20 (21, 22, 23, 24) sts, then work 10 rows.', title: 'Breakwater' });
    const taken = take(later, fill(sent, (text) => `Ü ${text}`));
    expect(taken.findings.map(({ code, where }) => `${code} ${where.pointer}`)).toEqual([
      'translation/source-changed /title',
    ]);
  }); // prettier-ignore
});

describe('a file that is not finished', () => {
  it('is taken as far as it goes; the rest goes out again', () => {
    const part = sent.replace('<source>It blew hard.</source>', '$&<target>Es stürmte.</target>');
    const taken = take(bundle, part);
    expect(codes(taken)).toEqual(['translation/open']);
    expect(taken.prose).toEqual({ story: ['Es stürmte.', ''] });
    const next = bundleOf(SOURCE, taken.prose, taken.record);
    expect(send(next).segments).toEqual(['title', 'summary', 'care', 'special.rope', 'story:2']);
    const whole = take(
      next,
      fill(send(next).xliff!, (text) => `Ü ${text}`),
    );
    expect(whole.prose?.['story']).toEqual(['Es stürmte.', 'Ü The wall held.']);
  });

  it('takes no copy of the source for a translation, unless somebody says it is one', () => {
    const copied = fill(sent, (text) => text);
    expect(codes(take(bundle, copied))).toEqual(['translation/nothing', 'translation/open']);
    const meant = copied.replaceAll('state="initial"', 'state="translated"');
    expect(take(bundle, meant).prose?.['title']).toBe('Breakwater Hat');
  });
});

it('leaves alone what the file does not speak of', () => {
  const old = { title: 'Mütze', 'name.own': 'nur deutsch', story: ['Es stürmte.', 'Die Mauer hielt.'] };
  const before = tied({ title: SOURCE.title, story: SOURCE.story }, old);
  const now = bundleOf({ ...SOURCE, title: 'Breakwater Cap' }, old, before.sources!.get('de'));
  const out = send(now);
  expect(out.segments).toEqual(['title', 'summary', 'care', 'special.rope']);
  expect(out.xliff).toContain('Translation of an earlier source: Mütze');
  const taken = take(now, fill(out.xliff!, (text) => `Ü ${text}`));
  expect(taken.prose).toMatchObject({ 'name.own': 'nur deutsch', story: old.story, title: 'Ü Breakwater Cap' });
}); // prettier-ignore
