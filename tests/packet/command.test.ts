/**
 * `castoff packet` as a designer meets it: papers for the editor, copies for the test knitters of one
 * size, their sheets back and said; nothing is written over, and what is wrong ends with a remedy.
 */
import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { castoff, change, copyStarter, filesBelow } from '../cli/desk-side.ts';

let folder: string;
let bundle: string;

beforeAll(async () => {
  ({ folder, bundle } = await copyStarter('breakwater-hat'));
});

const FILES = ['.json', '.pdf', '.xlsx'];

describe('castoff packet editor', () => {
  it('writes PDF, workbook and record, and the next one says what changed', async () => {
    const said = await castoff(folder, 'packet', 'editor', 'bundle', '--to', 'first');
    expect(said).toMatchObject({ code: 0, err: '' });
    const name = 'breakwater-hat-1.0.0-editor';
    expect(await filesBelow(path.join(folder, 'first'))).toEqual(FILES.map((end) => name + end));
    await change(bundle, 'cast on 108 (114', 'cast on 108 (116');
    const since = `first/${name}.json`;
    const next = await castoff(
      folder,
      'packet',
      'editor',
      'bundle',
      '--since',
      since,
      '--to',
      'second',
    );
    // A pattern that no longer follows has a packet, too.
    expect(next.code).toBe(0);
    expect(next.out).toMatch(/block the release/);
    expect(next.out).toMatch(/Changes since the last packet: [1-9]/);
    await change(bundle, 'cast on 108 (116', 'cast on 108 (114');
  });

  it('never writes over a packet that somebody may have written in', async () => {
    const again = await castoff(folder, 'packet', 'editor', 'bundle', '--to', 'first');
    expect(again.code).toBe(2);
    expect(again.err).toMatch(/is there already[\s\S]*--to/);
  });
});

describe('castoff packet test and results', () => {
  const name = 'breakwater-hat-1-0-0-test-m-en-us';

  it('make a copy and a sheet for the size, and read the sheet back', async () => {
    const said = await castoff(
      folder, 'packet', 'test', 'bundle', '--sizes', 'M', '--languages', 'en-US', '--to', 'testers',
    ); // prettier-ignore
    expect(said).toMatchObject({ code: 0, err: '' });
    expect(await filesBelow(path.join(folder, 'testers'))).toEqual(
      ['-return.csv', '-return.json', '-return.xlsx', '.pdf'].map((end) => `en-US/${name}${end}`),
    );
    const place = path.join(folder, 'testers/en-US', `${name}-return.json`);
    const sheet = JSON.parse(await readFile(place, 'utf8')) as {
      rows: { key: string; stated: number | null; answer: unknown }[];
    };
    for (const row of sheet.rows) row.answer = row.key === 'knitter' ? 'Puffin' : row.stated;
    await writeFile(path.join(folder, 'puffin.json'), JSON.stringify(sheet));
    const results = await castoff(folder, 'packet', 'results', 'puffin.json');
    expect(results).toMatchObject({ code: 0, err: '' });
    expect(results.out).toMatch(/1 sheet, sizes M; nobody knitted XS/);
    expect(results.out).toMatch(/Counts: \d+ as stated, 0 otherwise/);
    expect(results.out).not.toMatch(/outlier$/m);
    const json = await castoff(folder, 'packet', 'results', 'puffin.json', '--json');
    expect(JSON.parse(json.out)).toMatchObject({ results: { sheets: 1 }, refused: [] });
  });

  it('tell why a sheet is refused, and judge the others', async () => {
    const empty = `testers/en-US/${name}-return.xlsx`;
    const said = await castoff(folder, 'packet', 'results', 'puffin.json', empty);
    expect(said.code).toBe(1);
    expect(said.out).toMatch(/refused: .*-return\.xlsx: a row that is needed was left empty/);
    expect(said.out).toMatch(/--> F\d+, knitter/);
    expect(said.out).toMatch(/1 sheet,/);
  });
});

describe('a wrong call', () => {
  it.each([
    { args: ['packet'], says: /editor, test, results/ },
    { args: ['packet', 'sampler', 'bundle'], says: /editor, test, results/ },
    { args: ['packet', 'test', 'bundle'], says: /needs --to/ },
    {
      args: ['packet', 'test', 'bundle', '--to', 'x', '--sizes', 'XXL'],
      says: /no size XXL[\s\S]*XS/,
    },
    {
      args: ['packet', 'editor', 'bundle', '--since', 'nowhere.json'],
      says: /no file nowhere\.json/,
    },
    { args: ['packet', 'results'], says: /needs FILES/ },
  ])('$args', async ({ args, says }) => {
    const said = await castoff(folder, ...args);
    expect(said.code).toBe(2);
    expect(said.err).toMatch(says);
  });
});
