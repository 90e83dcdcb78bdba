/**
 * XLIFF 2 in the hands of the Okapi library, a reader and writer of the standard that checks what its
 * schemas cannot say: codes that may not be deleted, names that refer to nothing. Runs where
 * `fetch-jars.sh` has fetched its jars; elsewhere the tests are skipped and say why.
 */
import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { homedir, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { bundleOf, hat, send, take } from '../translation/room.ts';

const CACHE = process.env['XDG_CACHE_HOME'] ?? join(homedir(), '.cache');
const JARS = join(CACHE, 'castoff', 'xliff');
const hasJars = existsSync(JARS) && readdirSync(JARS).some((jar) => jar.startsWith('okapi-lib'));
const why = hasJars ? '' : ' (skipped: the Okapi library for XLIFF 2 is not installed)';

const folder = mkdtempSync(join(tmpdir(), 'castoff-xliff-'));
afterAll(() => rmSync(folder, { recursive: true }));

const run = (...args: readonly string[]) =>
  execFileSync('java', ['-cp', join(JARS, '*'), 'tests/conformance/xliff/Judge.java', ...args], {
    encoding: 'utf8',
    stdio: ['ignore', 'pipe', 'ignore'],
  });
const write = (name: string, text: string) => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};

const bare = bundleOf(hat.prose.get('en-US')!, {}, undefined, 'nl');
const open = send(bare, false, 'nl');

describe.skipIf(!hasJars)(`Okapi${why}`, () => {
  it('finds every file good, with all its units, and says no to spoilt ones', () => {
    const done = send(hat, true);
    const files = [
      write('nl.xlf', open.xliff!),
      write('de.xlf', done.xliff!),
      write('ja.xlf', send(hat, true, 'ja').xliff!),
      write('twice.xlf', open.xliff!.replace('<unit id="subtitle"', '<unit id="title"')),
      write('lost.xlf', done.xliff!.replace(/(<target>[^<]*)<ph id="n1"[^>]*\/>/, '$1')),
      write('nowhere.xlf', open.xliff!.replace('dataRef="d-n1"', 'dataRef="d-n9"')),
    ];
    const verdicts = run(...files)
      .trim()
      .split('\n')
      .map((line) => line.split('\t').slice(0, 2).join(' '));
    expect(verdicts).toEqual([
      'good nl.xlf',
      'good de.xlf',
      'good ja.xlf',
      'BAD twice.xlf',
      'BAD lost.xlf',
      'BAD nowhere.xlf',
    ]);
  }, 60_000);

  it('writes a file that is taken back whole', () => {
    const filled = join(folder, 'filled.xlf');
    run('fill', write('sent.xlf', open.xliff!), filled);
    const taken = take(bare, new Uint8Array(readFileSync(filled)));
    expect(taken.findings.map(({ code }) => code)).toEqual([]);
    expect(taken.taken).toEqual(open.segments);
    expect(taken.prose?.['care']).toBe(`${String(hat.prose.get('en-US')!['care'])} (nl)`);
  }, 60_000);
});
