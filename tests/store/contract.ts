/**
 * What every store promises, as tests. Run against the folder, the memory, the front on loopback, and
 * any real server named in the environment. Each case gets a fresh store.
 */
import { expect, it } from 'vitest';
import { Fault } from '../../src/base/fault.ts';
import type { Listed, Store } from '../../src/store/store.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const text = (value: Uint8Array | undefined): string | undefined =>
  value && new TextDecoder().decode(value);

async function listed(store: Store, prefix = ''): Promise<Listed[]> {
  const all: Listed[] = [];
  for await (const each of store.list(prefix)) all.push(each);
  return all;
}

const read = async (store: Store, key: string): Promise<string | undefined> =>
  text((await store.get(key))?.bytes);

export function storeContract(open: () => Promise<Store>): void {
  it('gives back what was put, byte for byte', async () => {
    const store = await open();
    const all = Uint8Array.from({ length: 70_000 }, (_, index) => (index * 7) % 256);
    await store.put('a/b.bin', all, { contentType: 'application/pdf' });
    expect(Buffer.compare((await store.get('a/b.bin'))?.bytes ?? bytes(''), all)).toBe(0);
    await store.put('empty.bin', bytes(''));
    expect((await store.get('empty.bin'))?.bytes).toHaveLength(0);
  });

  it('has nothing where nothing was put', async () => {
    const store = await open();
    expect(await store.get('none')).toBeUndefined();
    expect(await store.has('none')).toBe(false);
    await store.put('some/thing', bytes('1'));
    expect(await store.has('some/thing')).toBe(true);
    expect(await store.has('some')).toBe(false);
    expect(await store.get('some')).toBeUndefined();
  });

  it('puts over, and tells versions apart by tag', async () => {
    const store = await open();
    const first = await store.put('k', bytes('1'));
    const second = await store.put('k', bytes('2'));
    expect(first.ok && second.ok && first.tag !== second.tag).toBe(true);
    expect((await store.get('k'))?.tag).toBe(second.ok && second.tag);
    expect(await read(store, 'k')).toBe('2');
  });

  it('puts where nothing is, once', async () => {
    const store = await open();
    expect((await store.put('once', bytes('1'), { condition: 'absent' })).ok).toBe(true);
    expect(await store.put('once', bytes('2'), { condition: 'absent' })).toEqual({ ok: false });
    expect(await read(store, 'once')).toBe('1');
    await store.delete('once');
    expect((await store.put('once', bytes('3'), { condition: 'absent' })).ok).toBe(true);
  });

  it('puts against a tag only while it is unchanged', async () => {
    const store = await open();
    const first = await store.put('k', bytes('1'));
    const tag = first.ok ? first.tag : '';
    const second = await store.put('k', bytes('2'), { condition: { tag } });
    expect(second.ok).toBe(true);
    expect(await store.put('k', bytes('3'), { condition: { tag } })).toEqual({ ok: false });
    expect(await read(store, 'k')).toBe('2');
    expect(await store.put('gone', bytes('3'), { condition: { tag } })).toEqual({ ok: false });
    expect(await store.has('gone')).toBe(false);
  });

  it('lets one of twenty win', async () => {
    const store = await open();
    const racers = Array.from({ length: 20 }, (_, each) => `racer ${each}`);
    const results = await Promise.all(
      racers.map((name) => store.put('race', bytes(name), { condition: 'absent' })),
    );
    const winners = racers.filter((_, each) => results[each]?.ok);
    expect(winners).toHaveLength(1);
    expect(await read(store, 'race')).toBe(winners[0]);
  });

  it('loses no step of twenty that count together', async () => {
    const store = await open();
    await store.put('sum', bytes('0'));
    const addOne = async (): Promise<void> => {
      for (;;) {
        const now = await store.get('sum');
        const next = bytes(String(Number(text(now?.bytes)) + 1));
        if ((await store.put('sum', next, { condition: { tag: now?.tag ?? '' } })).ok) return;
      }
    };
    await Promise.all(Array.from({ length: 20 }, addOne));
    expect(await read(store, 'sum')).toBe('20');
  });

  it('lists by prefix, in order, with sizes', async () => {
    const store = await open();
    const keys = ['b/1', 'a/2.txt', 'a/1', 'a-b/1', 'ab', 'a/sub/x', 'a.c/1'];
    for (const key of keys) await store.put(key, bytes(key));
    const names = async (prefix: string) => (await listed(store, prefix)).map(({ key }) => key);
    expect(await names('')).toEqual(['a-b/1', 'a.c/1', 'a/1', 'a/2.txt', 'a/sub/x', 'ab', 'b/1']);
    expect(await names('a/')).toEqual(['a/1', 'a/2.txt', 'a/sub/x']);
    expect(await names('a/s')).toEqual(['a/sub/x']);
    expect(await names('a')).toEqual(['a-b/1', 'a.c/1', 'a/1', 'a/2.txt', 'a/sub/x', 'ab']);
    expect(await names('nothing')).toEqual([]);
    const after = async (key: string) => {
      const found: string[] = [];
      for await (const each of store.list('a/', key)) found.push(each.key);
      return found;
    };
    expect(await after('a/1')).toEqual(['a/2.txt', 'a/sub/x']);
    expect(await after('a/3')).toEqual(['a/sub/x']);
    expect(await after('a/sub/x')).toEqual([]);
    const [first] = await listed(store, 'a/2');
    expect(first).toMatchObject({ key: 'a/2.txt', sizeBytes: 7 });
    expect(first?.modified).toBeInstanceOf(Date);
  });

  it('deletes, and does not mind what is gone', async () => {
    const store = await open();
    await store.put('a/b', bytes('1'));
    await store.delete('a/b');
    await store.delete('a/b');
    expect(await store.has('a/b')).toBe(false);
    expect(await listed(store)).toEqual([]);
  });

  it.each([
    '',
    '/a',
    'a/',
    'a//b',
    '../a',
    'a/../b',
    '.work/x',
    'a b',
    'a\\b',
    'ä',
    'a\u0000',
    '-a',
    'x'.repeat(600),
  ])('refuses the key %j', async (key) => {
    const store = await open();
    await expect(store.put(key, bytes('1'))).rejects.toBeInstanceOf(Fault);
    await expect(store.get(key)).rejects.toBeInstanceOf(Fault);
  });
}
