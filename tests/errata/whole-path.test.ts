/**
 * A correction from the slip to the buyer, on two starters. Version 1.0.0 goes out with a slip that no
 * count can notice. A knitter writes; the designer corrects the row and mistypes a count on the way: the
 * check finds it and nothing is made. Corrected, the number 1.0.0 is refused; 1.0.1 is released with
 * sheets, which are golden texts, read as a knitter in five languages.
 */
import { zipSync } from 'fflate';
import { beforeAll, describe, expect, it } from 'vitest';
import { openOwnRooms } from '../../src/cli/resources.ts';
import { unpackBundle } from '../../src/pattern/bundle/unpack.ts';
import { PRINT_SIZE, type Rooms } from '../../src/pipeline/ports.ts';
import { publish } from '../../src/pipeline/publish.ts';
import { readPdf } from '../../src/press/proof/read-pdf.ts';
import { artifactKey } from '../../src/release/keys.ts';
import type { Manifest } from '../../src/release/manifest.ts';
import { memoryStore } from '../../src/store/memory.ts';

const TAGS = ['en-US', 'de', 'fr', 'es', 'ja'];

interface Story {
  readonly starter: string;
  /** As it should read, and as it went out. */
  readonly right: string;
  readonly slip: string;
  /** What is mistyped while it is corrected. */
  readonly count: string;
  readonly miscount: string;
  readonly found: { readonly code: string; readonly sizes: readonly string[] };
  /** Sizes of the sheet. */
  readonly concerns: RegExp;
}

const STORIES: readonly Story[] = [
  {
    starter: 'breakwater-hat',
    right: 'Next 1 (4, 1, 4, 1) rnds',
    slip: 'Next 1 (4, 1, 5, 1) rnds',
    count: '90 (95, 100, 105, 110) sts',
    miscount: '90 (95, 101, 105, 110) sts',
    found: { code: 'count/stated', sizes: ['M'] },
    concerns: /Sizes: L$/m,
  },
  {
    starter: 'cold-front-mittens',
    right: 'Inc rnd: k8 (9, 10, 11), m1L',
    slip: 'Inc rnd: k8 (9, 11, 11), m1L',
    count: '38 (42, 46, 50) sts',
    miscount: '38 (42, 46, 52) sts',
    found: { code: 'count/stated', sizes: ['XL'] },
    concerns: /Sizes: L$/m,
  },
];

let rooms: Rooms;
beforeAll(async () => {
  const own = await openOwnRooms();
  // Pictures play no part in a correction; two of their sizes are enough.
  rooms = { ...own, pictureSizes: [PRINT_SIZE, 'whole-1200'] };
});

/** The starter with places of its pattern written otherwise. */
async function bundleOf(starter: string, ...edits: readonly Edit[]) {
  const files = new Map(await unpackBundle(`templates/starters/${starter}`));
  const text = new TextDecoder().decode(files.get('pattern.json'));
  const changed = edits.reduce((before, [from, to]) => {
    expect(before).toMatch(from);
    return before.replace(from, to);
  }, text);
  files.set('pattern.json', new TextEncoder().encode(changed));
  return zipSync(Object.fromEntries(files), { level: 0 });
}

/** A version with its day of issue. */
const VERSION = /"version": "1\.0\.0",\s+"issued": "[\d-]+"/;
const NEXT = [VERSION, '"version": "1.0.1",\n  "issued": "2026-06-15"'] as const;
type Edit = readonly [from: string | RegExp, to: string];

describe.each(STORIES)('a slip in $starter', (story) => {
  const { starter, right, slip, count, miscount, found, concerns } = story;
  const releases = memoryStore();
  const run = async (...edits: readonly Edit[]) =>
    publish(
      { bundle: await bundleOf(starter, ...edits), releases, languages: TAGS },
      { rooms, token: 't' },
    );
  const textOf = async ({ files }: Manifest, ending: string, tag: string): Promise<string> => {
    const file = files.find(({ path }) => path.startsWith(`${tag}/`) && path.endsWith(ending))!;
    const stored = await releases.get(artifactKey(file.artifact, file.mediaType));
    return new TextDecoder().decode(stored!.bytes);
  };

  it('goes the whole way from the slip to the buyer', async () => {
    expect((await run([right, slip])).outcome).toBe('released');

    const mistyped = await run([count, miscount], NEXT);
    expect(mistyped.outcome).toBe('blocked');
    const told = mistyped.findings.filter(({ severity }) => severity === 'error');
    expect(told.map(({ code, sizes }) => ({ code, sizes }))).toContainEqual(found);

    await expect(run()).rejects.toMatchObject({
      kind: 'conflict',
      remedy: expect.stringContaining('above 1.0.0') as string,
    });

    const corrected = await run(NEXT);
    if (corrected.outcome === 'blocked') throw new Error('blocked');
    const { manifest } = corrected;
    expect(manifest.earlier).toEqual(['1.0.0']);
    expect(await textOf(manifest, 'errata.txt', 'en-US')).toMatch(concerns);
    for (const tag of TAGS) {
      const sheet = await textOf(manifest, 'errata.txt', tag);
      const notice = await textOf(manifest, 'notice.txt', tag);
      const golden = `../golden/errata/${starter}.${tag}.txt`;
      await expect(`${sheet}\n--- notice ---\n\n${notice}`).toMatchFileSnapshot(golden);
    }
  }, 120_000);

  it('is told in the history of the new document, and the sheet is a proved PDF', async () => {
    const again = await run(NEXT);
    if (again.outcome === 'blocked') throw new Error('blocked');
    const { files } = again.manifest;
    const bytesOf = async (ending: string) => {
      const file = files.find(({ path }) => path.startsWith('en-US/') && path.endsWith(ending))!;
      return (await releases.get(artifactKey(file.artifact, file.mediaType)))!.bytes;
    };
    const document = await readPdf(await bytesOf('1.0.1-en-US.pdf'));
    const text = document.pages.flatMap(({ pieces }) => pieces.map((each) => each.text)).join('');
    expect(text).toMatch(/1\.0\.1[^]*Corrected:/);
    const sheet = await readPdf(await bytesOf('errata.pdf'));
    expect(sheet.pages.length).toBeLessThan(3);
  }, 120_000);
});
