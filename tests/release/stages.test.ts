/**
 * Stages of a release: what each asks for, that promotion sets nothing again, that copies are numbered and
 * whole whatever fails, and that a page shows its stage. The marked file is read by pdf.js; that it stays
 * PDF/A-2a and PDF/UA-1 is judged by veraPDF in `tests/conformance`.
 */
import { zipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import { openOwnRooms } from '../../src/cli/resources.ts';
import type { Finding } from '../../src/findings/finding.ts';
import { finding } from '../../src/findings/register.ts';
import type { Rooms } from '../../src/pipeline/ports.ts';
import { publish, type Published, type PublishOptions } from '../../src/pipeline/publish.ts';
import { readPdf } from '../../src/press/proof/read-pdf.ts';
import { currentVersion } from '../../src/release/commit.ts';
import { artifactKey } from '../../src/release/keys.ts';
import type { Manifest } from '../../src/release/manifest.ts';
import { markOf, type Stage, STAGES } from '../../src/release/stage.ts';
import { memoryStore } from '../../src/store/memory.ts';
import type { Store } from '../../src/store/store.ts';
import { skerryFiles, studioRooms } from '../pipeline/studio.ts';
import { equipment } from '../shop/starters.ts';
import { failingStore } from '../store/failing-store.ts';
import { contentOf, witness } from './witness.ts';

const skerry = (changes: Readonly<Record<string, unknown>> = {}): Uint8Array =>
  zipSync(Object.fromEntries(skerryFiles(changes)));

const run = (releases: Store, stage: Stage, more: Partial<PublishOptions> = {}, rooms: Rooms = studioRooms()) =>
  publish(
    { bundle: skerry(), releases, stage, concurrency: 2, ...more },
    { rooms, token: 't', sleep: async () => undefined, random: () => 0 },
  ); // prettier-ignore

const manifestOf = (published: Published): Manifest => {
  if (published.outcome === 'blocked') throw new Error('blocked');
  return published.manifest;
};
const documentsOf = (manifest: Manifest) =>
  manifest.files.filter(({ role }) => role === 'document').map(({ artifact }) => artifact);

const where = { file: 'pattern.json', pointer: '/pieces/0' };
const wrong = finding('bundle/shape', where, { problem: 'a wrong count' });
const open: Finding = { ...wrong, severity: 'warning' };
const answered: Finding = { ...open, accepted: 'the designer means it' };

describe('what a stage asks for', () => {
  it.each([
    ['an error', [wrong], [], 'none'],
    ['a warning nobody has answered', [open], [], 'proof'],
    ['a warning that is accepted with a reason', [answered], [], 'proof test sale'],
    ['a language nobody has reviewed', [], ['de'], 'proof test'],
    ['an unreviewed language that is not offered', [], ['ja'], 'proof test sale'],
  ])('%s', async (_, findings, unreviewed, passes) => {
    for (const stage of STAGES) {
      const rooms = studioRooms({ findings: () => findings, unreviewed });
      const { outcome } = await run(memoryStore(), stage, {}, rooms);
      expect(outcome, stage).toBe(passes.split(' ').includes(stage) ? 'released' : 'blocked');
    }
  });

  it('says which language, and what can be done', async () => {
    const blocked = await run(memoryStore(), 'sale', {}, studioRooms({ unreviewed: ['de'] }));
    expect(blocked.findings).toMatchObject([
      { code: 'stage/unreviewed', where: { pointer: '/languages/1' }, facts: { language: 'de' } },
    ]);
  });

  it.each([
    ['in the bundle', { bundle: skerry({ unreviewed: ['de'] }) }],
    ['on the command line', { unreviewed: ['de'] }],
    ['for all', { unreviewed: ['all'] }],
  ])('takes “unreviewed” %s, and the manifest records it', async (_, more) => {
    const rooms = studioRooms({ unreviewed: ['de', 'fi'] });
    expect(manifestOf(await run(memoryStore(), 'sale', more, rooms)).unreviewed).toEqual(['de']);
  });

  it('takes the designer’s own reader, and records nothing', async () => {
    const bundle = skerry({ reviewed: [{ language: 'de', by: 'Ilse Brandt' }] });
    const rooms = studioRooms({ unreviewed: ['de'] });
    const manifest = manifestOf(await run(memoryStore(), 'sale', { bundle }, rooms));
    expect(manifest.unreviewed).toBeUndefined();
  });
});

describe('promotion', () => {
  it('sets every document once, and sells the document that was proved', async () => {
    const releases = memoryStore();
    const rooms = studioRooms();
    const manifests: Manifest[] = [];
    for (const stage of STAGES) manifests.push(manifestOf(await run(releases, stage, {}, rooms)));
    const worked = rooms.worked.map((each) => each.replace(/ (de|en-US)$/, '')).sort();
    expect(worked).toEqual([
      'compose', 'compose', 'mark proof', 'mark proof', 'mark test', 'mark test',
      'picture print', 'picture shop-large', 'picture shop-square',
    ]); // prettier-ignore
    expect(new Set(manifests.flatMap(documentsOf)).size).toBe(6);
    expect(manifests.map(({ stage, copy }) => [stage, copy])).toEqual([
      ['proof', 1],
      ['test', 1],
      [undefined, undefined],
    ]);
    const direct = memoryStore();
    const sold = manifestOf(await run(direct, 'sale'));
    expect(sold).toEqual(manifests[2]);
  });

  it('lets documents stand where a warning is answered or a language reviewed on the way', async () => {
    const releases = memoryStore();
    await run(releases, 'proof');
    const rooms = studioRooms();
    const accepted = [{ code: 'count/stated', where: '/pieces/0', reason: 'as worked' }];
    const bundle = skerry({ accepted, unreviewed: ['fi'] });
    await run(releases, 'sale', { bundle }, rooms);
    expect(rooms.worked).toEqual([]);
  });
});

describe('copies', () => {
  it('are numbered as they are made; equal ones are one', async () => {
    const releases = memoryStore();
    const changed = skerry({ level: 'basic' });
    const made = [
      await run(releases, 'proof'),
      await run(releases, 'proof'),
      await run(releases, 'proof', { bundle: changed }),
      await run(releases, 'proof'),
      await run(releases, 'test', { bundle: changed }),
    ];
    const told = made.map((each) => [each.outcome, manifestOf(each).stage, manifestOf(each).copy]);
    expect(told).toEqual([
      ['released', 'proof', 1],
      ['already', 'proof', 1],
      ['released', 'proof', 2],
      ['already', 'proof', 1],
      ['released', 'test', 1],
    ]);
    expect(await currentVersion(releases, 'skerry-hat')).toBeUndefined();
    await witness(releases, 'skerry-hat');
  });

  it('of a version that is for sale with other content are refused', async () => {
    const releases = memoryStore();
    await run(releases, 'sale');
    const changed = { bundle: skerry({ level: 'basic' }) };
    await expect(run(releases, 'proof', changed)).rejects.toMatchObject({ kind: 'conflict' });
    expect((await run(releases, 'proof')).outcome).toBe('released');
  });

  it.each(['before', 'after'] as const)(
    'are whole whatever operation fails %s its effect, and promotion ends in the same bytes',
    async (when) => {
      const undisturbed = memoryStore();
      for (const stage of STAGES) await run(undisturbed, stage);
      for (let at = 1; ; at += 1) {
        const store = memoryStore();
        await run(store, 'proof');
        const troubled = failingStore(store, { at, when, forGood: true });
        await run(troubled, 'test').catch(() => undefined);
        await witness(store, 'skerry-hat');
        for (const stage of ['test', 'sale'] as const) await run(store, stage);
        expect(await contentOf(store)).toEqual(await contentOf(undisturbed));
        if (!troubled.failed()) break;
      }
    },
  );

  it('of twenty publishers at once are one where they are equal', async () => {
    const store = memoryStore();
    const ends = await Promise.all(Array.from({ length: 20 }, () => run(store, 'proof')));
    expect(new Set(ends.map((end) => manifestOf(end).copy))).toEqual(new Set([1]));
    expect(ends.filter(({ outcome }) => outcome === 'released')).toHaveLength(1);
  });
});

describe('the page', () => {
  const TAGS = ['en-US', 'he', 'ja'];
  const order = { bundle: 'templates/starters/breakwater-hat', languages: TAGS };
  const releases = memoryStore();
  let rooms: Rooms;
  const manifests = new Map<Stage, Manifest>();
  beforeAll(async () => {
    rooms = await openOwnRooms();
    for (const stage of STAGES) {
      const published = await publish({ ...order, releases, stage }, { rooms, token: 't' });
      manifests.set(stage, manifestOf(published));
    }
  });

  const bytesOf = async (stage: Stage, tag: string): Promise<Uint8Array> => {
    const { files } = manifests.get(stage)!;
    const file = files.find(({ role, language }) => role === 'document' && language === tag)!;
    return (await releases.get(artifactKey(file.artifact, file.mediaType)))!.bytes;
  };

  it.each(TAGS)('shows its stage in %s; what is for sale is the same file without it', async (tag) => {
    const { languages } = await equipment();
    const sold = await bytesOf('sale', tag);
    for (const stage of ['proof', 'test'] as const) {
      const marked = await bytesOf(stage, tag);
      expect(Buffer.compare(marked.subarray(0, sold.length), sold)).toBe(0);
      expect(marked.length - sold.length).toBeLessThan(8192);
      const mark = markOf(languages.get(tag)!, stage);
      const [plain, read] = [await readPdf(sold), await readPdf(marked)];
      read.pages.forEach((page, at) => {
        const heads = page.furniture.filter(({ text }) => text === mark);
        expect(heads).toHaveLength(1);
        const [, bottom = 0] = heads[0]?.box ?? [];
        expect(bottom).toBeGreaterThan(page.heightPoints - 60);
        expect(page.pieces).toEqual(plain.pages[at]?.pieces);
        expect(plain.pages[at]?.furniture.map(({ text }) => text)).not.toContain(mark);
      });
    }
  }); // prettier-ignore

  it('without its mark is found by the proof', async () => {
    const { unpackBundle } = await import('../../src/pattern/bundle/unpack.ts');
    const { loadBundle } = await import('../../src/pattern/bundle/load.ts');
    const checked = await rooms.check(loadBundle(await unpackBundle(order.bundle)).bundle!);
    const document = { language: 'en-US', edition: { kind: 'standard' }, stage: 'proof' } as const;
    const blank = { hash: '', mediaType: 'image/jpeg', widthPixels: 900, heightPixels: 900 };
    const { photos } = checked.pattern.bundle.data;
    const pictures = new Map(photos.map(({ file }) => [file, blank]));
    const found = await rooms.proof(checked, document, await bytesOf('sale', 'en-US'), {
      pictures,
    });
    const pages = (await readPdf(await bytesOf('sale', 'en-US'))).pages.length;
    expect(found.filter(({ code }) => code === 'stage/mark')).toHaveLength(pages);
  });

  it('of the web shows it too, and neither shops nor buyers are served before the sale', async () => {
    const page = manifests.get('test')!.files.find(({ role }) => role === 'page')!;
    const stored = await releases.get(artifactKey(page.artifact, page.mediaType));
    expect(new TextDecoder().decode(stored!.bytes)).toContain('Not for sale.');
    const roles = (stage: Stage) => new Set(manifests.get(stage)!.files.map(({ role }) => role));
    expect(roles('test').has('shop')).toBe(false);
    expect(roles('sale').has('shop')).toBe(true);
  });

  it('has room for the mark on one line in every language, on both papers and in large print', async () => {
    const { languages, fonts } = await equipment();
    const { layMark } = await import('../../src/press/layout/lay-out.ts');
    const { pageStyle } = await import('../../src/press/layout/style.ts');
    for (const language of languages.values())
      for (const stage of ['proof', 'test'] as const)
        for (const paper of ['A4', 'Letter'] as const)
          for (const kind of ['standard', 'large'] as const) {
            const { direction } = language.settings;
            const document = { language: language.tag, direction, paper };
            const laid = layMark(markOf(language, stage), document, pageStyle(kind), fonts);
            expect([language.tag, laid.trouble]).toEqual([language.tag, []]);
            expect(laid.marks.length).toBeGreaterThan(0);
          }
  });
});
