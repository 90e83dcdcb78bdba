/** Where translations stand towards their source, and what goes out again after a change. */
import { describe, expect, it } from 'vitest';
import { wordingOf } from '../../src/findings/register.ts';
import {
  checkHeldOver,
  checkTranslation,
  recordFor,
  surveyProse,
} from '../../src/translation/index.ts';
import { bundleOf, hat, send, tied } from './room.ts';

const SOURCE = {
  title: 'Breakwater Hat',
  summary: 'A hat in 5 sizes.',
  story: ['It blew hard.', 'The wall held.', 'So will the brim.'],
  'listing.tags': ['hat', 'cables'],
};
const GERMAN = {
  title: 'Mütze Wellenbrecher',
  summary: 'Eine Mütze in 5 Größen.',
  story: ['Es stürmte.', 'Die Mauer hielt.', 'So auch das Bündchen.'],
  'listing.tags': ['Mütze', 'Zöpfe', 'Zopfmütze'],
};
const bundle = tied(SOURCE, GERMAN);

/** The source changed after it was translated. */
const changed = (change: Partial<typeof SOURCE>) =>
  bundleOf({ ...SOURCE, ...change }, GERMAN, recordFor(SOURCE, GERMAN));
const found = (of: ReturnType<typeof bundleOf>) =>
  checkTranslation(of, 'de').map(({ code, where }) => `${code} ${where.pointer}`);

describe('a translation that is tied to its source', () => {
  it('holds, and nothing goes out', () => {
    expect(found(bundle)).toEqual([]);
    expect(send(bundle)).toEqual({ xliff: undefined, segments: [], done: 0 });
  });

  it.each([
    ['a text', { summary: 'A hat in 6 sizes.' }, ['summary'], ['translation/outdated /summary']],
    [
      'one paragraph',
      { story: ['It blew hard.', 'The wall broke.', 'So will the brim.'] },
      ['story:2'],
      ['translation/outdated /story/1'],
    ],
    [
      'the words people search for, which are one text',
      { 'listing.tags': ['hat', 'ropes'] },
      ['listing.tags'],
      ['translation/outdated /listing.tags'],
    ],
    ['only white space', { summary: 'A hat  in 5\nsizes. ' }, [], []],
  ])('is outdated where the source changed: %s', (_, change, segments, findings) => {
    expect(found(changed(change))).toEqual(findings);
    expect(send(changed(change)).segments).toEqual(segments);
  });

  it('is outdated with both texts in the finding, and two ways out', () => {
    const [finding] = checkTranslation(changed({ summary: 'A hat in 6 sizes.' }), 'de');
    expect(finding?.severity).toBe('error');
    expect(wordingOf(finding!)).toEqual({
      headline: 'de: the source of “summary” was changed after it was translated',
      notes: ['source now: A hat in 6 sizes.', 'de: Eine Mütze in 5 Größen.'],
      action:
        'castoff translate BUNDLE --to de sends it out; or hold de over: "heldOver" in pattern.json',
    });
  });

  it('keeps paragraphs that a new one has moved', () => {
    const longer = changed({ story: ['At sea:', ...SOURCE.story] });
    expect(send(longer).segments).toEqual(['story:1']);
    expect(found(longer)).toEqual(['translation/outdated /story/0']);
  });

  it('names a list that was put in another order, and sends what moved with its translations', () => {
    const turned = changed({ story: SOURCE.story.toReversed() });
    expect(found(turned)).toEqual(['translation/moved /story']);
    expect(send(turned)).toMatchObject({ segments: ['story:1', 'story:3'], done: 2 });
  });

  it('names a text that is new in the source', () => {
    const longer = bundleOf({ ...SOURCE, care: 'Wash it.' }, GERMAN, recordFor(SOURCE, GERMAN));
    expect(found(longer)).toEqual(['translation/missing /care']);
    expect(send(longer).segments).toEqual(['care']);
  });
});

describe('a translation without a record', () => {
  it('is told of once, and does not block', () => {
    const plain = checkTranslation(bundleOf(SOURCE, GERMAN), 'de');
    expect(plain.map(({ code, severity }) => [code, severity])).toEqual([
      ['translation/untied', 'note'],
    ]);
    expect(wordingOf(plain[0]!).headline).toBe(
      'de: 6 texts are not tied to a source, so that a change of it is not seen',
    );
  });

  it('is not told of a language that the designer writes in', () => {
    expect(checkTranslation(bundleOf(SOURCE), 'en-US')).toEqual([]);
  });

  it('blocks where a paragraph was left open', () => {
    const holes = bundleOf(SOURCE, {
      ...GERMAN,
      story: ['Es stürmte.', '', 'So auch das Bündchen.'],
    });
    expect(found(holes)).toEqual(['translation/missing /story/1', 'translation/untied ']);
  });
});

describe('a language that is held over', () => {
  const held = (language: string) =>
    checkHeldOver({
      ...hat.data,
      languages: ['en-US', 'de'],
      heldOver: [{ language, reason: 'waits for its translator' }],
    });

  it('is told with its reason', () => {
    const [finding] = held('de');
    expect([finding?.code, finding?.severity]).toEqual(['translation/held-over', 'note']);
    expect(wordingOf(finding!).headline).toBe('de is held over: waits for its translator');
  });

  it('must be a language of the pattern', () => {
    expect(held('dk').map(({ code, severity }) => [code, severity])).toEqual([
      ['translation/held-over-unknown', 'error'],
    ]);
  });
});

it('counts what is translated, outdated and missing', () => {
  const one = { ...bundle, data: { ...bundle.data, languages: ['en-US', 'de'] } };
  const part = changed({ summary: 'A hat in 6 sizes.' });
  const two = { ...part, data: { ...part.data, languages: ['de'] } };
  expect(surveyProse(one)).toEqual([
    { tag: 'en-US', role: 'source', segments: 6, translated: 6, outdated: 0, missing: 0, untied: 0 },
    { tag: 'de', role: 'translation', segments: 6, translated: 6, outdated: 0, missing: 0, untied: 0 },
  ]);
  expect(surveyProse(two)).toMatchObject([{ segments: 6, translated: 5, outdated: 1 }]);
}); // prettier-ignore
