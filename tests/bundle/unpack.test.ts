import { mkdir, mkdtemp, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Zippable } from 'fflate';
import { zipSync } from 'fflate';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Fault } from '../../src/base/fault.ts';
import { BUNDLE_LIMITS } from '../../src/base/limits.ts';
import { unpackBundle } from '../../src/pattern/bundle/unpack.ts';
import { skerryFiles } from '../pipeline/studio.ts';

const MIB = 1024 * 1024;
const good = Object.fromEntries(skerryFiles());
const text = (value: string): Uint8Array => new TextEncoder().encode(value);
const zip = (more: Zippable = {}): Uint8Array => zipSync({ ...good, ...more });

async function refusal(source: string | Uint8Array): Promise<string> {
  const fault = await unpackBundle(source).then(
    () => undefined,
    (error: unknown) => error,
  );
  if (!(fault instanceof Fault)) return `no fault: ${String(fault)}`;
  expect(fault.place).toBeTruthy();
  expect(fault.remedy).toBeTruthy();
  return `${fault.kind}: ${fault.message}`;
}

/** Every occurrence of a name in the zip, in its local headers and its directory, written anew. */
function renamed(bytes: Uint8Array, from: string, to: string): Uint8Array {
  const copy = Buffer.from(bytes);
  for (let at = copy.indexOf(from); at >= 0; at = copy.indexOf(from, at + 1))
    copy.write(to, at, 'latin1');
  return copy;
}

/** Writes into the directory entry of a file: offset from its signature, APPNOTE.TXT 4.3.12. */
function patched(
  bytes: Uint8Array,
  name: string,
  offset: number,
  value: number,
  width: 2 | 4,
): Uint8Array {
  const copy = Buffer.from(bytes);
  const start = copy.lastIndexOf(name) - 46;
  expect(copy.readUInt32LE(start)).toBe(0x02014b50);
  if (width === 2) copy.writeUInt16LE(value, start + offset);
  else copy.writeUInt32LE(value, start + offset);
  return copy;
}

describe('a good zip', () => {
  it('gives the files by path, in order', async () => {
    const files = await unpackBundle(zip());
    expect([...files.keys()]).toEqual(Object.keys(good).sort());
    for (const [name, bytes] of Object.entries(good)) {
      expect(Buffer.compare(files.get(name) ?? new Uint8Array(), bytes)).toBe(0);
    }
  });

  it('may hold the folder it was made from, and what computers leave behind', async () => {
    const inFolder = Object.fromEntries(
      Object.entries(good).map(([name, bytes]) => [`hat/${name}`, bytes]),
    );
    const clutter = {
      '__MACOSX/hat/._cover.png': text('x'),
      'hat/.DS_Store': text('x'),
      'hat/photos/Thumbs.db': text('x'),
    };
    const files = await unpackBundle(zipSync({ ...inFolder, ...clutter }));
    expect([...files.keys()]).toEqual(Object.keys(good).sort());
  });

  it('brings names to one normal form', async () => {
    const name = 'photos/mütze.png';
    expect((await unpackBundle(zip({ [name.normalize('NFD')]: text('x') }))).has(name)).toBe(true);
  });
});

describe('a zip with a trick', () => {
  const link = { os: 3, attrs: (0o120777 << 16) >>> 0 };
  it.each<[string, Uint8Array, string | RegExp]>([
    ['no zip', text('{"format": "castoff/1"}'), 'input: the file is no zip'],
    ['nothing', new Uint8Array(), 'input: the file is no zip'],
    ['a zip of two letters', text('PK'), /^input: the zip cannot be read: /],
    ['a zip cut off', zip().subarray(0, 400), /^input: the zip cannot be read: /],
    ['an empty zip', zipSync({}), 'input: the bundle is empty'],
    [
      'a path that climbs',
      zip({ '../../evil.json': text('x') }),
      /^input: the zip cannot be read: invalid relative path/,
    ],
    [
      'a path that climbs inside',
      zip({ 'photos/../../evil': text('x') }),
      /^input: the zip cannot be read: invalid relative path/,
    ],
    [
      'an absolute path',
      zip({ '/etc/cron.d/x': text('x') }),
      /^input: the zip cannot be read: absolute path/,
    ],
    ['a drive', zip({ 'C:/x': text('x') }), /^input: the zip cannot be read: absolute path/],
    [
      'backslashes',
      zip({ 'photos\\..\\x': text('x') }),
      /^input: the zip cannot be read: invalid characters in fileName/,
    ],
    [
      'a link',
      zip({ 'photos/b.png': [text('/etc/passwd'), link] }),
      'input: photos/b.png is a link',
    ],
    [
      'a device file',
      zip({ 'photos/b.png': [text(''), { os: 3, attrs: (0o060000 << 16) >>> 0 }] }),
      'input: photos/b.png is a link',
    ],
    [
      'a zip in the zip',
      zip({ 'photos/more.png': zipSync({ a: text('x') }) }),
      'input: photos/more.png is a zip inside the zip',
    ],
    [
      'a control code in a name',
      zip({ 'photos/ä\u0007b.png': text('x') }),
      'input: photos/ä<U+0007>b.png has a name that holds U+0007, a control code',
    ],
    [
      'a name that turns round',
      zip({ 'photos/gnp.\u202ejpg': text('x') }),
      'input: photos/gnp.<U+202E>jpg has a name that holds U+202E, which turns the direction of text',
    ],
    [
      'names that differ by case',
      zip({ 'photos/Cover.png': text('x') }),
      'input: photos/Cover.png looks the same as photos/cover.png',
    ],
    [
      'names that look alike',
      zip({ 'photos/соver.png': text('x') }),
      'input: photos/соver.png looks the same as photos/cover.png',
    ],
    [
      'a name twice',
      renamed(zip({ 'photos/c0ver.png': text('x') }), 'photos/c0ver.png', 'photos/cover.png'),
      'input: photos/cover.png is in the bundle twice',
    ],
    [
      'a device name',
      zip({ 'photos/NUL.png': text('x') }),
      'input: photos/NUL.png has a name that is a name that not every computer can store',
    ],
    [
      'a long name',
      zip({ [`photos/${'a'.repeat(300)}`]: text('x') }),
      /is longer than 200 characters$/,
    ],
    [
      'deep folders',
      zip({ 'a/b/c/d/e/f/g.txt': text('x') }),
      'input: a/b/c/d/e/f/g.txt has a name that is deeper than 6 folders',
    ],
    [
      'a password',
      patched(zip(), 'photos/cover.png', 8, 1, 2),
      'input: photos/cover.png is encrypted',
    ],
    [
      'a strange packing',
      patched(zip(), 'prose/de.json', 10, 99, 2),
      'input: prose/de.json is packed in a way that is not read',
    ],
    [
      'a wrong checksum',
      patched(zip(), 'prose/de.json', 16, 7, 4),
      'input: prose/de.json is damaged: its checksum is not the one the zip states',
    ],
    [
      'a size too small',
      patched(zip(), 'prose/de.json', 24, 5, 4),
      /^input: the zip cannot be read: too many bytes/,
    ],
    [
      'a huge size',
      patched(zip(), 'photos/cover.png', 24, 0x7fffffff, 4),
      `input: photos/cover.png has ${0x7fffffff} bytes; at most ${BUNDLE_LIMITS.fileBytes} are read`,
    ],
    [
      'a JSON file of 5 MB',
      zip({ 'prose/fr.json': [new Uint8Array(5 * MIB), { level: 0 }] }),
      `input: prose/fr.json has ${5 * MIB} bytes; at most ${BUNDLE_LIMITS.jsonBytes} are read`,
    ],
    [
      'a bomb of zeros',
      zip({ 'photos/b.png': new Uint8Array(20 * MIB) }),
      /^input: photos\/b.png unpacks to \d+ times its packed size$/,
    ],
    [
      '600 files',
      zip(Object.fromEntries(Array.from({ length: 600 }, (_, each) => [`f${each}`, text('x')]))),
      'input: more than 500 files',
    ],
    [
      '10,000 files',
      zip(Object.fromEntries(Array.from({ length: 10_000 }, (_, each) => [`f${each}`, text('')]))),
      /^input: the zip lists 10004 files; at most 500 are read$/,
    ],
  ])('%s is refused', async (_title, bytes, expected) => {
    const said = await refusal(bytes);
    if (typeof expected === 'string') expect(said).toBe(expected);
    else expect(said).toMatch(expected);
  });

  it('is judged by what all files claim together before any is unpacked', async () => {
    const claims = Object.fromEntries(
      Array.from({ length: 20 }, (_, each) => [`photos/p${each}.png`, new Uint8Array(64)]),
    );
    let bytes: Uint8Array = zipSync({ ...good, ...claims }, { level: 0 });
    for (const name of Object.keys(claims)) {
      bytes = patched(patched(bytes, name, 24, 40 * MIB, 4), name, 20, 40 * MIB, 4);
    }
    expect(await refusal(bytes)).toBe(
      `input: the files together have more than ${BUNDLE_LIMITS.totalBytes} bytes`,
    );
  });
});

describe('a folder', () => {
  let folder: string;
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'castoff-unpack-'));
    for (const [name, bytes] of Object.entries(good)) {
      await mkdir(join(folder, 'hat', name, '..'), { recursive: true });
      await writeFile(join(folder, 'hat', name), bytes);
    }
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  it('gives the same files as its zip', async () => {
    await writeFile(join(folder, 'hat', '.hidden'), 'x');
    const [fromFolder, fromZip] = [
      await unpackBundle(join(folder, 'hat')),
      await unpackBundle(zip()),
    ];
    expect([...fromFolder.keys()]).toEqual([...fromZip.keys()]);
  });

  it('is refused where it holds a link, and where it is not there', async () => {
    await symlink('/etc/passwd', join(folder, 'hat', 'photos', 'link.png'));
    expect(await refusal(join(folder, 'hat'))).toBe('input: photos/link.png is a link');
    await rm(join(folder, 'hat', 'photos', 'link.png'));
    expect(await refusal(join(folder, 'nowhere'))).toBe(
      `missing: there is no bundle at ${join(folder, 'nowhere')}`,
    );
    expect(await refusal('/dev/null')).toBe('input: /dev/null is neither a folder nor a file');
  });
});
