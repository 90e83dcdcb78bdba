/**
 * PDF/A-2a (ISO 19005-2) and PDF/UA-1 (ISO 14289-1) by veraPDF, the validator of the PDF Association.
 * Runs where `verapdf/install.sh` has fetched its jars; elsewhere the tests are skipped and say why.
 * Files spoilt on purpose prove that the judge can say no.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { homedir, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Laid } from '../../src/press/layout/frames.ts';
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

const CACHE = process.env['XDG_CACHE_HOME'] ?? join(homedir(), '.cache');
const JARS = join(CACHE, 'castoff', 'verapdf');
const hasJars =
  existsSync(JARS) && readdirSync(JARS).some((jar) => jar.startsWith('validation-model'));
const why = hasJars ? '' : ' (skipped: veraPDF is not installed)';

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

/** Lines of the judge, by file name without its ending. */
function judge(folder: string, files: ReadonlyMap<string, Uint8Array>): Map<string, string[]> {
  const paths = Array.from(files, ([name, bytes]) => {
    const path = join(folder, `${name}.pdf`);
    writeFileSync(path, bytes);
    return path;
  });
  const verdicts = new Map<string, string[]>();
  let name = '';
  for (const line of runJudge(paths).split('\n')) {
    const head = /^(?:pass|FAIL)\t\w+\t.*?([\w-]+)\.pdf\t/.exec(line);
    if (head) name = head[1] ?? '';
    if (name) verdicts.set(name, [...(verdicts.get(name) ?? []), line]);
  }
  return verdicts;
}

function runJudge(paths: readonly string[]): string {
  const judgeFile = join('tests', 'conformance', 'verapdf', 'Judge.java');
  try {
    return execFileSync('java', ['-cp', join(JARS, '*'), judgeFile, ...paths], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
    });
  } catch (failure) {
    // Exit 1 says that a file failed; its lines are on the output as always.
    return String((failure as { stdout?: string }).stdout ?? '');
  }
}

describe.skipIf(!hasJars)(`veraPDF${why}`, () => {
  const folder = mkdtempSync(join(tmpdir(), 'castoff-verapdf-'));
  afterAll(() => rmSync(folder, { recursive: true }));
  let verdicts: Map<string, string[]>;
  beforeAll(() => {
    verdicts = judge(folder, new Map([...goodFiles(), ...spoiltFiles()]));
  });

  it.each([...Object.keys(SAMPLES), 'notes'])('finds nothing in %s', (name) => {
    const lines = (verdicts.get(name) ?? []).filter((line) => line !== '');
    expect(lines.map((line) => line.split('\t').slice(0, 2))).toEqual([
      ['pass', '2a'],
      ['pass', 'ua1'],
    ]);
    for (const line of lines) expect(Number(/(\d+) checks/.exec(line)?.[1])).toBeGreaterThan(100);
  });

  it.each([
    ['silent', /^FAIL\tua1/, /\t7\.3-1\t/],
    ['skipping', /^FAIL\tua1/, /\t7\.4\.2-1\t/],
  ])('finds the fault in %s', (name, verdict, rule) => {
    const lines = verdicts.get(name) ?? [];
    expect(lines.some((line) => verdict.test(line))).toBe(true);
    expect(lines.some((line) => rule.test(line))).toBe(true);
  });
});
