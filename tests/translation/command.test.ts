/** `castoff translate` and `castoff languages` as a designer uses them, from first file to errata. */
import { readdir, readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { castoff, change, copyStarter, filesBelow } from '../cli/desk-side.ts';
import { fill } from './room.ts';

let folder = '';
let bundle = '';
beforeEach(async () => {
  ({ folder, bundle } = await copyStarter('breakwater-hat'));
});

const text = (name: string) => readFile(path.join(folder, name), 'utf8');
const prose = async (tag: string) =>
  JSON.parse(await text(`bundle/prose/${tag}.json`)) as Record<string, unknown>;

/** A bundle whose Dutch is not there yet. */
async function withoutDutch() {
  const { rm } = await import('node:fs/promises');
  await rm(path.join(bundle, 'prose/nl.json'), { force: true });
  const place = path.join(bundle, 'pattern.json');
  const data = JSON.parse(await readFile(place, 'utf8')) as { languages: string[] };
  await writeFile(place, JSON.stringify({ ...data, languages: ['en-US', 'de'] }, null, 2));
}

describe('out and back', () => {
  it('writes XLIFF and TBX, takes the file back, and has nothing left to send', async () => {
    await withoutDutch();
    const sent = await castoff(folder, 'translate', 'bundle', '--to', 'nl', '--out', 'sent');
    expect(sent.code).toBe(0);
    expect(await readdir(path.join(folder, 'sent'))).toEqual([
      'breakwater-hat-1.0.0-nl.tbx',
      'breakwater-hat-1.0.0-nl.xlf',
    ]);
    const file = await text('sent/breakwater-hat-1.0.0-nl.xlf');
    await writeFile(
      path.join(folder, 'back.xlf'),
      fill(file, (source) => `Z ${source}`),
    );
    const back = await castoff(folder, 'translate', 'bundle', '--from', 'back.xlf');
    expect(back).toMatchObject({ code: 0, err: '' });
    expect(back.out).toContain('Add "nl" to "languages"');
    const [english, dutch] = [await prose('en-US'), await prose('nl')];
    expect(Object.keys(dutch)).toEqual([...Object.keys(english), '$source']);
    expect(dutch['title']).toBe('Z Breakwater Hat');
    const again = await castoff(folder, 'translate', 'bundle', '--to', 'nl');
    expect(again.out).toBe('nl: nothing to translate; every text holds.');
  });

  it('writes nothing where one number was lost, and says where', async () => {
    await withoutDutch();
    await castoff(folder, 'translate', 'bundle', '--to', 'nl');
    const file = await text('translation/breakwater-hat-1.0.0-nl.xlf');
    const spoilt = fill(file, (source) => `Z ${source.replace(/<ph id="n2"[^>]*>/, '')}`);
    await writeFile(path.join(folder, 'back.xlf'), spoilt);
    const before = await filesBelow(bundle);
    const back = await castoff(folder, 'translate', 'bundle', '--from', 'back.xlf');
    expect(back.code).toBe(1);
    expect(back.out).toContain('error[translation/placeholder]: “summary”: 8 is missing');
    expect(back.out).toContain('Nothing was written.');
    expect(await filesBelow(bundle)).toEqual(before);
  });

  it('never writes over a file that somebody may have worked on', async () => {
    await withoutDutch();
    const call = () => castoff(folder, 'translate', 'bundle', '--to', 'nl');
    expect((await call()).code).toBe(0);
    expect((await call()).code).toBe(0);
    await change(folder, 'Breakwater Hat', 'Golfbreker', 'translation/breakwater-hat-1.0.0-nl.xlf');
    const refused = await call();
    expect(refused.code).toBe(2);
    expect(refused.err).toContain('is there already, and may have been worked on');
  });
});

describe('a correction', () => {
  it('sends out the one text that changed, and blocks until it is back', async () => {
    await change(bundle, 'Hand wash in cool water', 'Hand wash in cold water', 'prose/en-US.json');
    const german = await text('bundle/prose/de.json');
    const checked = await castoff(folder, 'check', 'bundle');
    expect(checked.code).toBe(1);
    expect(checked.out).toContain('error[translation/outdated]: de: the source of “care”');
    expect((await castoff(folder, 'languages', 'bundle')).out).toMatch(/^de +German +\d+ +\d+ +1 +0 +0 +not finished$/m); // prettier-ignore
    expect((await castoff(folder, 'translate', 'bundle', '--to', 'de')).out).toContain('with 1 text;');
    const file = await text('translation/breakwater-hat-1.0.0-de.xlf');
    await writeFile(path.join(folder, 'back.xlf'), fill(file, () => 'Kalt von Hand waschen.'));
    expect((await castoff(folder, 'translate', 'bundle', '--from', 'back.xlf')).code).toBe(0);
    const now = (await text('bundle/prose/de.json')).split('\n');
    const changed = german.split('\n').filter((line, at) => line !== now[at]);
    expect(changed.map((line) => line.trim().split(':')[0])).toEqual(['"care"', '"care"']);
    const after = await castoff(folder, 'check', 'bundle');
    expect(after.out).not.toContain('translation/outdated]: de');
  }); // prettier-ignore

  it('is recorded where the translation needs no change', async () => {
    await change(bundle, 'Do not wring.', 'Never wring.', 'prose/en-US.json');
    const said = await castoff(folder, 'translate', 'bundle', '--record', 'all');
    expect(said.code).toBe(0);
    expect(said.out).toMatch(/^de: \d+ texts tied to the source as it is$/m);
    const checked = await castoff(folder, 'check', 'bundle');
    expect(checked.out).not.toContain('[translation/');
  });
});

describe('what a call cannot mean', () => {
  it.each([
    [['bundle'], 'translate needs one of --to, --from and --record'],
    [['bundle', '--to', 'de', '--record', 'de'], 'translate needs one of'],
    [['bundle', '--to', 'xx'], 'there is no language xx'],
    [['bundle', '--to', 'en-US'], 'the pattern is written in en-US'],
    [['bundle', '--from', 'no.xlf'], 'no.xlf cannot be read'],
  ])('%j', async (words, message) => {
    const said = await castoff(folder, 'translate', ...words);
    expect(said.code).toBe(2);
    expect(said.err).toContain(message);
  });
});

it('lists every language with its script, direction, paper and review', async () => {
  const { code, out } = await castoff(folder, 'languages');
  expect(code).toBe(0);
  expect(out.split('\n').find((line) => line.startsWith('he '))).toMatch(/Hebrew +עברית +Hebr +rtl +A4 +\d+ +\d+ +\d+ +unreviewed: \S/); // prettier-ignore
  expect(out.split('\n').filter((line) => / (ltr|rtl) /.test(line))).toHaveLength(20);
}); // prettier-ignore
