/** Names of what was made, and the list of it in a store: for sale, proofs, test copies. */
import { describe, expect, it } from 'vitest';
import { copyKey, currentKey, manifestKey } from '../../src/release/keys.ts';
import {
  findMade,
  listMade,
  listPatterns,
  madeName,
  readMadeName,
} from '../../src/release/made.ts';
import { writeManifest } from '../../src/release/manifest.ts';
import { memoryStore } from '../../src/store/memory.ts';

const manifest = (version: string, more = {}) =>
  writeManifest({
    format: 'castoff-release/1', pattern: 'skerry-hat', version, issued: '2026-03-02',
    bundle: '0'.repeat(64), languages: ['en-US'], accepted: [], files: [], ...more,
  }); // prettier-ignore

async function filled() {
  const store = memoryStore();
  const copies = [['1.0.0', 'proof', 1], ['1.0.0', 'proof', 2], ['1.0.0', 'proof', 10], ['1.0.0', 'test', 1], ['1.10.0', 'proof', 1]] as const; // prettier-ignore
  for (const [version, stage, copy] of copies)
    await store.put(copyKey('skerry-hat', version, stage, copy), manifest(version, { stage, copy }), {}); // prettier-ignore
  for (const version of ['1.0.0', '1.2.0', '1.10.0'])
    await store.put(manifestKey('skerry-hat', version), manifest(version), {});
  await store.put(currentKey('skerry-hat'), new TextEncoder().encode('{"version":"1.10.0"}'), {});
  await store.put(manifestKey('skerry-hat-two', '3.0.0'), manifest('3.0.0'), {});
  return store;
}

describe('the name of what was made', () => {
  it.each([
    ['1.0.0', { version: '1.0.0' }],
    ['1.0.0-proof-2', { version: '1.0.0', stage: 'proof', copy: 2 }],
    ['12.0.3-test-10', { version: '12.0.3', stage: 'test', copy: 10 }],
  ] as const)('%s is read, and said again', (name, made) => {
    expect(readMadeName(name)).toEqual(made);
    expect(madeName(made)).toBe(name);
  });

  it.each(['', '1.0', '1.0.0-sale-1', '1.0.0-proof', '1.0.0-proof-0', '1.0.0/proof/1', '../1.0.0', '1.0.0-proof-2/..'])(
    '“%s” names nothing',
    (name) => expect(readMadeName(name)).toBeUndefined(),
  ); // prettier-ignore
});

describe('what was made of a pattern', () => {
  it('is listed by version and number, not by letters, and never of another pattern', async () => {
    const { versions, copies } = await listMade(await filled(), 'skerry-hat');
    expect(versions).toEqual(['1.10.0', '1.2.0', '1.0.0']);
    expect(copies.map(madeName)).toEqual([
      '1.10.0-proof-1', '1.0.0-test-1', '1.0.0-proof-10', '1.0.0-proof-2', '1.0.0-proof-1',
    ]); // prettier-ignore
  });

  it('is found by its name, and by no other word', async () => {
    const store = await filled();
    expect(await findMade(store, 'skerry-hat', '1.0.0-proof-2')).toMatchObject({ copy: 2 });
    expect((await findMade(store, 'skerry-hat', '1.0.0'))?.stage).toBeUndefined();
    expect(await findMade(store, 'skerry-hat', '1.0.0-proof-3')).toBeUndefined();
    expect(await findMade(store, 'skerry-hat', '1.0.0/proof/1')).toBeUndefined();
  });
});

describe('the list of patterns', () => {
  it('names each of which something is for sale once, and no more than are wanted', async () => {
    const store = await filled();
    await store.put(copyKey('tern-hat', '1.0.0', 'proof', 1), manifest('1.0.0'), {});
    expect(await listPatterns(store, 9)).toEqual(['skerry-hat', 'skerry-hat-two']);
    expect(await listPatterns(store, 1)).toHaveLength(1);
    expect(await listPatterns(memoryStore(), 9)).toEqual([]);
  });
});
