/**
 * Correction sheets as a buyer reads them: every language, sheet and notice, PDF proved, and the exact
 * rows and sizes named for any one number that changes. Who is concerned is found among all versions.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { plainText, sayPattern } from '../../src/language/index.ts';
import { assembleBundle } from '../../src/pattern/bundle/load.ts';
import type { BundleData } from '../../src/pattern/bundle/schema.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import type { Bundle, CheckedPattern } from '../../src/pattern/pattern.ts';
import { compareVersions } from '../../src/release/errata/changes.ts';
import { markDifferences } from '../../src/release/errata/emphasis.ts';
import { writeErrata, writeHistory } from '../../src/release/errata/errata.ts';
import { readRecord, writeRecord } from '../../src/release/record.ts';
import { hashBytes } from '../../src/base/hash.ts';
import { bundleOf, equipment } from '../shop/starters.ts';

const { languages, templates, fonts } = await equipment();
const hat = await bundleOf('breakwater-hat');

function corrected(version: string, ...edits: readonly (readonly [string, string])[]): Bundle {
  const text = edits.reduce(
    (before, [from, to]) => {
      expect(before).toContain(from);
      return before.replace(from, to);
    },
    JSON.stringify({ ...hat.data, version }),
  );
  return assembleBundle(JSON.parse(text) as BundleData, hat.prose, hat.photos);
}

/** A decrease that leans the wrong way: no count notices, every knitter does. */
const LEAN = ['*ssk, k2, k2tog, p1', '*k2tog, k2, ssk, p1'] as const;
const YARN = ['60 (70, 75, 85, 90)', '60 (70, 75, 85, 95)'] as const;

describe('a sheet', () => {
  const now = checkPattern(corrected('1.0.1', LEAN, YARN));
  const earlier = [checkPattern(hat)];

  it.each([
    ['en-US', 'Rnd 7', 'ssk', 'All sizes', 'Sizes: XL', 'Corrected: Breakwater Hat'],
    ['de', '7. Rd', 'Alle Größen', 'Größen: XL', 'Bisher', 'Berichtigt: Mütze Wellenbrecher'],
    ['fr', 'Tr 7', 'Toutes les tailles', 'Tailles\u00a0: XL', 'Avant', 'Correction\u00a0: Bonnet'],
    ['ja', '7段め', '全サイズ', 'サイズ：XL', '誤', '訂正のお知らせ'],
  ])('says place, sizes, was and is in %s', async (tag, ...said) => {
    const order = { now, language: languages.get(tag)!, earlier };
    const errata = writeErrata(order, templates)!;
    for (const words of said) expect(`${errata.text}\n${errata.notice}`).toContain(words);
    expect(errata.text).toMatch(/1\.0\.0[^]*1\.0\.1/);
    expect(errata.history).toBe(writeHistory(order));
    const { files, findings } = await errata.print(fonts);
    expect(findings).toEqual([]);
    expect(files.map(({ name }) => name)).toEqual([
      'errata.pdf', 'errata.html', 'errata.txt', 'notice.txt',
    ]); // prettier-ignore
    const again = await writeErrata(order, templates)!.print(fonts);
    expect(again.files.map(({ bytes }) => hashBytes(bytes))).toEqual(
      files.map(({ bytes }) => hashBytes(bytes)),
    );
  });

  it('is set and proved in every language of the house', async () => {
    for (const [tag, language] of languages) {
      const prose = new Map([[tag, hat.prose.get('en-US')!]]);
      const [old, next] = [hat, corrected('1.0.1', LEAN)].map((each) =>
        checkPattern(assembleBundle(each.data, prose, each.photos)),
      );
      const errata = writeErrata({ now: next!, language, earlier: [old!] }, templates)!;
      expect((await errata.print(fonts)).findings, tag).toEqual([]);
    }
  });

  it('tells counts from workings, and workings from wording', () => {
    const english = languages.get('en-US')!;
    const effects = (next: CheckedPattern) =>
      compareVersions(earlier[0]!, next, english).map((each) =>
        'effect' in each ? each.effect : each.kind,
      );
    expect(effects(now)).toEqual(['work', 'yarn']);
    const fewer = corrected(
      '1.0.1',
      ['*k2tog; rep from * to end. 18 (19, 20, 21, 22)', '*k1; rep from * to end. 36 (38, 40, 42, 44)'], // prettier-ignore
    );
    expect(effects(checkPattern(fewer))[0]).toBe('count');
    const prose = new Map(hat.prose);
    prose.set('en-US', { ...hat.prose.get('en-US'), care: 'By hand.', finishing: ['Weave in.'] });
    const reworded = assembleBundle({ ...hat.data, version: '1.0.1' }, prose, hat.photos);
    expect(effects(checkPattern(reworded)).sort()).toEqual(['wording', 'work']);
    prose.set('en-US', { ...hat.prose.get('en-US'), care: 'By hand.' });
    const worded = assembleBundle({ ...hat.data, version: '1.0.1' }, prose, hat.photos);
    const order = { now: checkPattern(worded), language: english, earlier };
    const { text, notice } = writeErrata(order, templates)!;
    expect(text).toContain('No number is different');
    expect(notice).not.toContain('download');
  });

  it('gives the designer’s reasons', () => {
    const entry = {
      version: '1.0.1',
      issued: '2026-04-01',
      change: 'history.lean',
      why: { 'hat/crown-start': 'why.crown' },
    };
    const next = corrected('1.0.1', LEAN);
    const prose = new Map(hat.prose);
    prose.set('en-US', { ...hat.prose.get('en-US'), 'history.lean': 'Ada saw it in the mirror.' });
    const told = assembleBundle({ ...next.data, history: [entry] }, prose, hat.photos);
    const order = { now: checkPattern(told), language: languages.get('en-US')!, earlier };
    expect(writeErrata(order, templates)!.text).toContain('Why: Ada saw it in the mirror.');
  });

  it('names the versions that have the errors, and those that never had', () => {
    const versions = [
      checkPattern(corrected('1.2.0', LEAN)), // the slip was made here
      checkPattern(corrected('1.1.0')),
      checkPattern(corrected('1.0.0')),
    ];
    const good = checkPattern(corrected('1.2.1'));
    const order = { now: good, language: languages.get('en-US')!, earlier: versions };
    const { text, affected } = writeErrata(order, templates)!;
    expect(affected).toEqual(['1.2.0']);
    expect(text).toContain('Versions without them: 1.1.0, 1.0.0');
  });
});

describe('for any one number', () => {
  const english = languages.get('en-US')!;
  const numbers = [...JSON.stringify(hat.data.pieces).matchAll(/\d+/g)];
  const old = checkPattern(hat);
  /** Every line of every size by its place: what is printed for that knitter. */
  const printed = (checked: CheckedPattern) =>
    checked.pattern.sizes.map((_, size) => {
      const { pieces } = sayPattern(checked, english, size);
      const lines = pieces.flatMap((piece) => piece.sections.flatMap((section) => section.lines));
      return new Map(
        lines.map(({ written, said }) => [
          written.pointer,
          [said.label, said.body, said.count].map(plainText).filter(Boolean).join(' '),
        ]),
      );
    });
  const before = printed(old);

  it('the errata name exactly the rows and sizes whose printed text differs', () => {
    fc.assert(
      fc.property(fc.nat(numbers.length - 1), fc.integer({ min: 1, max: 4 }), (at, more) => {
        const match = numbers[at]!;
        const text = JSON.stringify(hat.data.pieces);
        const value = String(Number(match[0]) + more);
        const pieces = text.slice(0, match.index) + value + text.slice(match.index + match[0].length); // prettier-ignore
        const data = { ...hat.data, pieces: JSON.parse(pieces) as BundleData['pieces'] };
        const now = checkPattern(assembleBundle(data, hat.prose, hat.photos));
        const after = printed(now);
        const differing = after.flatMap((lines, size) => {
          const pointers = new Set([...lines.keys(), ...(before[size]?.keys() ?? [])]);
          return [...pointers]
            .filter((pointer) => lines.get(pointer) !== before[size]?.get(pointer))
            .map((pointer) => `${pointer} ${size}`);
        });
        const named = compareVersions(old, now, english).flatMap((change) =>
          change.kind === 'line' ? change.sizes.map((size) => `${change.pointer} ${size}`) : [],
        );
        expect(named.sort()).toEqual(differing.sort());
      }),
      { numRuns: 15 },
    );
  });
});

describe('what differs', () => {
  it.each([
    ['k2tog 84 (92) sts', 'k2tog 84 (93) sts', 'k2tog 84 (<strong>92</strong>) sts', 'k2tog 84 (<strong>93</strong>) sts'],
    ['a & b', 'a & c', 'a &amp; <strong>b</strong>', 'a &amp; <strong>c</strong>'],
    ['one', 'quite another line', 'one', 'quite another line'],
  ])('%s → %s', (was, is, marked, now) => {
    expect(markDifferences(was, is)).toEqual([marked, now]);
  }); // prettier-ignore
});

describe('the record of a release', () => {
  it('gives the bundle back, and notices when it was changed', () => {
    const photos = new Map([...hat.photos].map(([file, bytes]) => [file, hashBytes(bytes)]));
    const bytes = writeRecord(hat, photos);
    const back = readRecord(bytes, 'here');
    expect(back.hash).toBe(hat.hash);
    expect(compareVersions(checkPattern(hat), checkPattern(back), languages.get('de')!)).toEqual(
      [],
    );
    const text = new TextDecoder().decode(bytes).replace('"1.0.0"', '"1.0.9"');
    expect(() => readRecord(new TextEncoder().encode(text), 'here')).toThrow(/not the one/);
    expect(() => readRecord(new TextEncoder().encode('{}'), 'here')).toThrow(/cannot be read/);
  });
});
