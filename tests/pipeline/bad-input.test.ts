/**
 * Bad input, from the file to the folder: each ends in a finding or a fault that names the place and the
 * remedy, and nothing is written. The rooms are the real ones.
 */
import { mkdir, mkdtemp, readdir, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Fault } from '../../src/base/fault.ts';
import { blocks } from '../../src/findings/finding.ts';
import { wordingOf } from '../../src/findings/register.ts';
import type { Rooms } from '../../src/pipeline/ports.ts';
import { publish } from '../../src/pipeline/publish.ts';
import { openRooms } from '../../src/pipeline/rooms.ts';
import { folderStore } from '../../src/store/folder.ts';
import { SKERRY, skerryFiles } from './studio.ts';

const zip = (files: ReadonlyMap<string, Uint8Array>): Uint8Array =>
  zipSync(Object.fromEntries(files));
const pattern = (changes: Readonly<Record<string, unknown>>) => zip(skerryFiles(changes));
const file = (name: string, content: string | Uint8Array | undefined) =>
  zip(skerryFiles({}, { [name]: content }));
const lines = (...given: string[]) =>
  pattern({
    pieces: [
      { ...SKERRY.pieces[0], sections: [{ id: 'brim', lines: ['CO 80 (88, 96) sts', ...given] }] },
    ],
  });

const BAD: readonly (readonly [string, Uint8Array, string])[] = [
  ['a pattern that is not JSON', file('pattern.json', '{"format": castoff}'), 'bundle/syntax'],
  ['a value of the wrong type', pattern({ sizes: 'S, M' }), 'bundle/wrong-type'],
  ['an unknown key', pattern({ colour: 'red' }), 'bundle/unknown-key'],
  ['a missing photograph', file('photos/cover.png', undefined), 'bundle/missing-file'],
  ['an image that is no image', file('photos/cover.png', 'not a picture'), 'bundle/no-picture'],
  ['a missing language', file('prose/de.json', undefined), 'bundle/missing-file'],
  ['a size list one short', lines('Rnd 1: k40 (44), k to end'), 'notation/size-list'],
  [
    'a size list of yarn one short',
    pattern({
      yarns: [
        { ...SKERRY.yarns[0], colours: [{ ...SKERRY.yarns[0]?.colours[0], grams: '70 (80)' }] },
      ],
    }),
    'measure/size-list',
  ],
  ['an unknown abbreviation', lines('Rnd 1: *kk2tog; rep from * to end'), 'notation/unknown-word'],
  ['an unbalanced star', lines('Rnd 1: *k1, p1'), 'notation/open-repeat'],
  ['an unbalanced bracket', lines('Rnd 1: [k1, p1 40 times'), 'notation/open-bracket'],
  [
    'a needle that is not there',
    pattern({ gauges: [{ ...SKERRY.gauges[0], needle: 'none' }] }),
    'reference/unknown',
  ],
  ['no zip', new TextEncoder().encode('hello'), 'input: the file is no zip'],
  [
    'half a zip',
    zip(skerryFiles()).subarray(0, 500),
    'input: the zip cannot be read: End of central directory record signature not found. Either not a zip file, or file is truncated.',
  ],
  [
    'a path that climbs',
    zip(skerryFiles({}, { '../../evil.txt': 'x' })),
    'input: the zip cannot be read: invalid relative path: ../../evil.txt',
  ],
];

describe('bad input', () => {
  let rooms: Rooms;
  let root: string;
  beforeAll(async () => {
    rooms = await openRooms({ root: process.cwd(), program: 'test' });
    root = await mkdtemp(join(tmpdir(), 'castoff-bad-input-'));
  });
  afterAll(() => rm(root, { recursive: true, force: true }));
  let targets = 0;

  it.each(BAD)('%s is told, and nothing is written', async (_title, bundle, expected) => {
    const folder = join(root, String((targets += 1)));
    await mkdir(folder);
    const releases = folderStore(join(folder, '.store'));
    const end = await publish({ bundle, releases, folder }, { rooms, token: 't' }).catch(
      (error: unknown) => error,
    );
    if (end instanceof Fault) {
      expect(`${end.kind}: ${end.message}`).toBe(expected);
      expect(end.place).toBeTruthy();
      expect(end.remedy).toBeTruthy();
    } else {
      const { outcome, findings } = end as Awaited<ReturnType<typeof publish>>;
      expect(outcome).toBe('blocked');
      const found = findings.find(({ code }) => code === expected);
      expect(found && blocks(found), JSON.stringify(findings)).toBe(true);
      if (found) expect(wordingOf(found).headline).not.toBe('');
    }
    expect(await readdir(folder)).toEqual([]);
    expect((await readdir(root)).every((name) => /^\d+$/.test(name))).toBe(true);
  });

  it('is told in words for a row repeated a thousand million times, and soon', async () => {
    const bundle = lines('Rnd 1: knit.', 'Rep rnd 1 1000000000 more times.');
    const releases = folderStore(join(root, 'never'));
    const end = await publish({ bundle, releases }, { rooms, token: 't' });
    expect(end.outcome).toBe('blocked');
    expect(
      end.findings
        .filter(blocks)
        .map((each) => wordingOf(each))
        .every(({ headline }) => headline !== ''),
    ).toBe(true);
  }, 10_000);
});
