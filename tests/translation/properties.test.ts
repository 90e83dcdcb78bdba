/**
 * Properties of the round trip, over texts made at random: nothing is lost on the way out and back,
 * nothing that was tampered with comes in, and a changed source sends out exactly what changed.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cutSource, isThing, sayThing } from '../../src/translation/protect.ts';
import { fitTranslation } from '../../src/translation/fit.ts';
import { recordFor } from '../../src/translation/index.ts';
import { segmentsOf } from '../../src/translation/segments.ts';
import { bundleOf, english, fill, languages, send, take, tied } from './room.ts';

const RUNS = { numRuns: 60, seed: 20261125 };
const TAGS = ['de', 'fr', 'ja', 'he', 'pl'];

const word = fc.constantFrom(
  'rope',
  'the wall',
  'Mütze',
  '海',
  'שלום',
  '<b>',
  '&amp;',
  '"a"',
  'in',
);
const number = fc.integer({ min: 3, max: 400 }).map(String);
const sizes = fc
  .array(fc.integer({ min: 3, max: 200 }), { minLength: 2, maxLength: 6 })
  .map(([first, ...rest]) => `${first} (${rest.join(', ')})`);
const piece = fc.oneof(
  { weight: 4, arbitrary: word },
  number,
  sizes,
  fc.constantFrom('k2tog', 'RS', '2½', '1.5'),
);
/** A sentence with letters at both ends, so that it is never only a number. */
const sentence = fc
  .array(piece, { minLength: 1, maxLength: 7 })
  .map((parts) => `Now ${parts.join(' , ')} so.`);
const prose = fc.record({
  title: fc.constantFrom('Breakwater', 'Tide & Wind'),
  summary: sentence,
  story: fc.array(sentence, { minLength: 1, maxLength: 4 }),
  'note.rib': sentence,
}); // prettier-ignore
const tag = fc.constantFrom(...TAGS);

describe('out and back', () => {
  it('is the same prose, whatever the language has', () => {
    fc.assert(
      fc.property(prose, prose, tag, fc.boolean(), (source, translation, to, known) => {
        const story = source.story.map((_, at) => translation.story[at] ?? 'Ende.');
        const own = { ...translation, story };
        const bundle = known ? tied(source, own, to) : bundleOf(source, own, undefined, to);
        const taken = take(bundle, send(bundle, true, to).xliff!);
        expect(taken.findings).toEqual([]);
        expect(taken.prose).toEqual(own);
        expect(taken.record).toEqual(recordFor(source, own));
      }),
      RUNS,
    );
  });

  it('gives a new translation with every number of its source', () => {
    fc.assert(
      fc.property(prose, tag, (source, to) => {
        const bundle = bundleOf(source, {}, undefined, to);
        const taken = take(
          bundle,
          fill(send(bundle, false, to).xliff!, (text) => `Ü ${text}`),
        );
        expect(taken.findings).toEqual([]);
        const wanted = cutSource(english, source.summary)
          .map((part) => (isThing(part) ? sayThing(part, english, languages.get(to)!) : part))
          .join('');
        expect(taken.prose?.['summary']).toBe(`Ü ${wanted}`.normalize('NFC'));
      }),
      RUNS,
    );
  });

  it('cuts an existing text so that it can be put together again', () => {
    fc.assert(
      fc.property(sentence, sentence, tag, (source, text, to) => {
        const target = languages.get(to)!;
        const template = cutSource(english, source);
        const things = new Map(template.filter(isThing).map((thing) => [thing.id, thing]));
        const fitted = fitTranslation(template, text, english, target);
        const again = fitted.map((part) =>
          typeof part === 'string' ? part : sayThing(things.get(part.id)!, english, target),
        );
        expect(again.join('')).toBe(text);
      }),
      RUNS,
    );
  });
});

/** What may befall one placeholder in a translator's tool. */
const MISHAPS: Readonly<Record<string, (code: string, said: string) => string>> = {
  dropped: () => '',
  doubled: (code) => `${code} ${code}`,
  renamed: (code) => code.replace(/id="[nt]/, 'id="z'),
  retyped: (_, said) => said.replace(/\d/, (digit) => String((Number(digit) + 1) % 10 || 1)),
};

describe.each(Object.entries(MISHAPS))('a placeholder that was %s', (name, mishap) => {
  it('is refused, and nothing is taken', () => {
    fc.assert(
      fc.property(sentence, fc.nat(), tag, (summary, which, to) => {
        const bundle = bundleOf({ title: 'Hat', summary }, { title: 'Ü' }, undefined, to);
        const file = fill(send(bundle, false, to).xliff!, (text) => `Ü ${text}`);
        const target = /<target>[^]*<\/target>/.exec(file)?.[0] ?? '';
        const found = [...target.matchAll(/<ph [^>]*equiv="([^"]*)"[^>]*>/g)];
        // A length may be given in the other unit, and a term has no digit of ours to retype.
        const codes = found.filter(
          ([code]) => !/castoff:(length|small)/.test(code) && !(name === 'retyped' && code.includes('castoff:term')),
        );
        fc.pre(codes.length > 0);
        const [code = '', said = ''] = codes[which % codes.length] ?? [];
        // Another number of the same text may happen to be the one that was typed.
        const typed = mishap(code, said);
        fc.pre(name !== 'retyped' || !found.some(([, other]) => other === typed));
        const taken = take(bundle, file.replace(target, target.replace(code, typed)));
        expect(taken.findings.some(({ severity }) => severity === 'error')).toBe(true);
        expect(taken.prose).toBeUndefined();
      }),
      RUNS,
    );
  }); // prettier-ignore
});

describe('a changed source', () => {
  it('sends out exactly the segments that changed', () => {
    fc.assert(
      fc.property(prose, fc.array(fc.nat(), { maxLength: 3 }), (source, places) => {
        const names = segmentsOf(source).map(({ id }) => id);
        const changed = new Set(places.map((at) => names[at % names.length]));
        const edit = (id: string, text: string) => (changed.has(id) ? `${text} And then.` : text);
        const now = {
          title: edit('title', source.title),
          summary: edit('summary', source.summary),
          story: source.story.map((text, at) => edit(`story:${at + 1}`, text)),
          'note.rib': edit('note.rib', source['note.rib']),
        };
        const bundle = bundleOf(now, source, recordFor(source, source));
        const sent = send(bundle);
        expect(new Set(sent.segments)).toEqual(changed);
        expect(sent.segments).toHaveLength(changed.size);
        if (sent.xliff === undefined) return;
        const taken = take(
          bundle,
          fill(sent.xliff, (text) => `Ü ${text}`),
        );
        expect(taken.findings).toEqual([]);
        expect(send(bundleOf(now, taken.prose, taken.record)).segments).toEqual([]);
      }),
      RUNS,
    );
  });
});
