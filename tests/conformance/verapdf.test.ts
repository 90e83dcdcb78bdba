/**
 * PDF/A-2a (ISO 19005-2) and PDF/UA-1 (ISO 14289-1) by veraPDF, the validator of the PDF Association.
 * Runs where `fetch-jars.sh` has fetched its jars; elsewhere the tests are skipped and say why.
 * Files spoilt on purpose prove that the judge can say no.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Laid } from '../../src/press/layout/frames.ts';
import { layMark } from '../../src/press/layout/lay-out.ts';
import { pageStyle } from '../../src/press/layout/style.ts';
import { stampPdf } from '../../src/press/pdf/stamp.ts';
import { writePdf } from '../../src/press/pdf/write.ts';
import {
  factsFor,
  fonts,
  greyJpeg,
  HandSet,
  pictures,
  sampleBook,
  SAMPLES,
} from '../pdf/hand-set.ts';
import { hasVeraPdf, judge, type Verdict, whySkipped } from './verapdf/judge.ts';

const MARKED: Readonly<Record<string, string>> = { 'en-US': 'Proof', he: 'הגהה לעריכה' };
const resources = { fonts, pictures: pictures(greyJpeg()) };

/** Files by name: what must pass, and what must not. */
function goodFiles(): Map<string, Uint8Array> {
  const files = new Map<string, Uint8Array>();
  for (const language of Object.keys(SAMPLES)) {
    const title = SAMPLES[language]?.title ?? '';
    files.set(
      language,
      writePdf(sampleBook(language).laid(), factsFor(language, { title }), resources),
    );
  }
  const notes = new HandSet('en');
  notes.heading('Notes', 1);
  notes.line('See below', notes.tag('Note'));
  notes.line('and here', notes.tag('Note'));
  files.set('notes', writePdf(notes.laid(), factsFor('en', { author: '', subject: '', keywords: [] }), resources)); // prettier-ignore
  return files;
}

/** The sample book with its stage painted over every page, from left to right and from right to left. */
async function markedFile(language: string): Promise<readonly [string, Uint8Array]> {
  const facts = factsFor(language, { title: SAMPLES[language]?.title ?? '' });
  const laid = sampleBook(language).laid();
  const document = { language, direction: facts.direction, paper: laid.paper };
  const stamp = layMark(MARKED[language] ?? '', document, pageStyle('standard'), fonts);
  const bytes = await stampPdf(writePdf(laid, facts, resources), stamp, fonts);
  return [`marked-${language}`, bytes];
}

/** A figure that says nothing, and a heading two levels down. */
function spoiltFiles(): Map<string, Uint8Array> {
  const mute = sampleBook('en-US').laid();
  const silent: Laid = {
    ...mute,
    tags: mute.tags.map(({ role, children, scope }) => ({
      role,
      children,
      ...(scope && { scope }),
    })),
  };
  const skipping = new HandSet('en');
  skipping.heading('One', 1);
  skipping.heading('Three', 3);
  return new Map([
    ['silent', writePdf(silent, factsFor('en-US'), resources)],
    ['skipping', writePdf(skipping.laid(), factsFor('en'), resources)],
  ]);
}

describe.skipIf(!hasVeraPdf)(`veraPDF${whySkipped}`, () => {
  const folder = mkdtempSync(join(tmpdir(), 'castoff-verapdf-'));
  afterAll(() => rmSync(folder, { recursive: true }));
  let verdicts: Map<string, Verdict[]>;
  beforeAll(async () => {
    const marked = await Promise.all(Object.keys(MARKED).map(markedFile));
    const files = [...goodFiles(), ...marked, ...spoiltFiles()].map(([name, bytes]) => {
      const path = join(folder, `${name}.pdf`);
      writeFileSync(path, bytes);
      return path;
    });
    verdicts = judge(files);
  });

  it.each([...Object.keys(SAMPLES), 'marked-en-US', 'marked-he', 'notes'])(
    'finds nothing in %s',
    (name) => {
      const own = verdicts.get(name) ?? [];
      expect(own.map(({ standard, broken }) => [standard, broken])).toEqual([
        ['2a', []],
        ['ua1', []],
      ]);
      for (const { pass, checks } of own) expect([pass, checks > 100]).toEqual([true, true]);
    },
  );

  it.each([
    ['silent', '7.3-1'],
    ['skipping', '7.4.2-1'],
  ])('finds the fault in %s', (name, rule) => {
    const verdict = verdicts.get(name)?.find(({ standard }) => standard === 'ua1');
    expect(verdict?.pass).toBe(false);
    expect(verdict?.broken.map((line) => line.split('\t')[0])).toContain(rule);
  });
});
