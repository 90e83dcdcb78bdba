/**
 * A language that is held over is left out of the release, which says so; its texts need not be there.
 * And a record of sources goes with the bundle through every step, so that nothing is forgotten between
 * two of them.
 */
import { zipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import { loadBundle } from '../../src/pattern/bundle/load.ts';
import { keepBundle, recallBundle } from '../../src/pipeline/claims.ts';
import { publish } from '../../src/pipeline/publish.ts';
import { readRecord, writeRecord } from '../../src/release/record.ts';
import { memoryStore } from '../../src/store/memory.ts';
import { PROSE, skerryFiles, studioRooms } from './studio.ts';

const REASON = 'waits for its translator';
const order = (files: ReadonlyMap<string, Uint8Array>, languages?: readonly string[]) => ({
  bundle: zipSync(Object.fromEntries(files)),
  releases: memoryStore(),
  ...(languages && { languages: [...languages] }),
});
const world = () => ({ rooms: studioRooms(), token: 't' });
const held = skerryFiles({ heldOver: [{ language: 'de', reason: REASON }] }, { 'prose/de.json': undefined }); // prettier-ignore

describe('a language that is held over', () => {
  it('is not published, and the manifest tells it with the reason', async () => {
    const published = await publish(order(held), world());
    if (published.outcome === 'blocked') throw new Error('it was blocked');
    expect(published.manifest.languages).toEqual(['en-US']);
    expect(published.manifest.heldOver).toEqual([{ language: 'de', reason: REASON }]);
    expect(published.findings.map(({ code }) => code)).toEqual(['translation/held-over']);
  });

  it('cannot be asked for', async () => {
    await expect(publish(order(held, ['de']), world())).rejects.toThrow('de is held over');
  });

  it('cannot be the only one', async () => {
    const all = ['en-US', 'de'].map((language) => ({ language, reason: REASON }));
    await expect(publish(order(skerryFiles({ heldOver: all })), world())).rejects.toThrow(
      'every language is held over',
    );
  });
});

describe('a record of sources', () => {
  const $source = { title: 'aaaaaaaaaaaa', summary: ['bbbbbbbbbbbb'] };
  const load = (de: unknown) =>
    loadBundle(skerryFiles({}, { 'prose/de.json': Buffer.from(JSON.stringify(de)) }));

  it('is no text, and goes with the bundle from step to step and into the release', async () => {
    const bundle = load({ ...PROSE.de, $source }).bundle!;
    expect(Object.keys(bundle.prose.get('de')!)).toEqual(['title', 'summary', 'coverAlt']);
    expect(bundle.sources?.get('de')).toEqual($source);
    const work = memoryStore();
    await keepBundle(work, bundle);
    expect((await recallBundle(work, bundle.hash)).sources?.get('de')).toEqual($source);
    const photos = new Map<string, string>();
    const bare = loadBundle(skerryFiles({}, { 'prose/de.json': Buffer.from(JSON.stringify({ ...PROSE.de, $source })) }), { withoutPhotos: true }).bundle!;
    expect(readRecord(writeRecord(bare, photos), 'record').sources?.get('de')).toEqual($source);
  });

  it('is a part of what the bundle is; without one the bundle is what it always was', () => {
    const [plain, recorded] = [load(PROSE.de).bundle!, load({ ...PROSE.de, $source }).bundle!];
    expect(plain.sources).toBeUndefined();
    expect(recorded.hash).not.toBe(plain.hash);
  });

  it.each([
    [{ title: 'no hash' }, '/$source/title'],
    [['aaaaaaaaaaaa'], '/$source'],
    [{ 'a b': 'aaaaaaaaaaaa' }, '/$source/a b'],
  ])('that is none is a finding: %j', (record, pointer) => {
    const { bundle, findings } = load({ ...PROSE.de, $source: record });
    expect(bundle).toBeUndefined();
    expect(findings.map(({ where }) => where)).toEqual([{ file: 'prose/de.json', pointer }]);
  });
}); // prettier-ignore
