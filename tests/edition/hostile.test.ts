/**
 * Patterns nobody should write, from the bundle to the finished file: each is told of in findings, or set
 * on good pages that the proof reads back without a finding. None is an exception, an overflow or a hang.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { hashBytes } from '../../src/base/hash.ts';
import { openOwnRooms } from '../../src/cli/resources.ts';
import { blocks, type Finding } from '../../src/findings/finding.ts';
import { loadBundle } from '../../src/pattern/bundle/load.ts';
import type { Edition, Rooms } from '../../src/pipeline/ports.ts';
import { pngOf, PROSE, SKERRY, skerryFiles } from '../pipeline/studio.ts';

const STANDARD: Edition = { kind: 'standard' };
const LARGE: Edition = { kind: 'large' };

let rooms: Rooms;
beforeAll(async () => {
  rooms = await openOwnRooms();
});

interface Outcome {
  /** Codes of what keeps the pattern from being set; empty where pages were made. */
  readonly refused: readonly string[];
  readonly pages: readonly number[];
  /** Codes of what the proof found in the finished files. */
  readonly proved: readonly string[];
}

const codes = (findings: readonly Finding[]): string[] => [
  ...new Set(findings.map(({ code }) => code)),
];

/** The way of a bundle through the rooms: loaded, checked, said, set and read back. */
async function through(
  files: ReadonlyMap<string, Uint8Array>,
  editions: readonly Edition[] = [STANDARD, LARGE],
): Promise<Outcome> {
  const refuse = (found: readonly Finding[]): Outcome => ({ refused: codes(found.filter(blocks)), pages: [], proved: [] }); // prettier-ignore
  const { bundle, findings } = loadBundle(files);
  if (bundle === undefined || findings.some(blocks)) return refuse(findings);
  const checked = await rooms.check(bundle);
  const said = await rooms.checkLanguage(checked, 'en-US');
  if ([...checked.findings, ...said].some(blocks)) return refuse([...checked.findings, ...said]);
  const photograph = files.get('photos/cover.png');
  const picture = await rooms.preparePicture(photograph ?? new Uint8Array(), 'print');
  const pictures = new Map([['cover.png', { ...picture, hash: hashBytes(picture.bytes) }]]);
  const pages: number[] = [];
  const found: Finding[] = [];
  for (const edition of editions) {
    const order = { language: 'en-US', edition };
    const composed = await rooms.compose(checked, order, { pictures });
    pages.push(composed.pages);
    found.push(...(await rooms.proof(checked, order, composed.bytes, { pictures })));
  }
  return { refused: [], pages, proved: codes(found) };
}

/** A file was made in each edition, of no more than so many pages, and the proof found this in it. */
function expectPages(outcome: Outcome, most: readonly number[], proved: readonly string[] = []) {
  const tooMany = outcome.pages.filter((pages, at) => pages > (most[at] ?? 0));
  const { refused, pages } = outcome;
  expect({ refused, files: pages.length, tooMany, proved: outcome.proved }).toEqual({ refused: [], files: most.length, tooMany: [], proved }); // prettier-ignore
}

const expectRefused = (outcome: Outcome, refused: readonly string[]): void =>
  expect(outcome).toEqual({ refused, pages: [], proved: [] });

const COVER = pngOf(1600, 1200);
const english = { languages: ['en-US'] };
const hat = (changes: Readonly<Record<string, unknown>>, prose: Readonly<Record<string, unknown>> = {}) =>
  skerryFiles(
    { ...english, ...changes },
    {
      'prose/en-US.json': JSON.stringify({ ...PROSE['en-US'], ...prose }),
      'prose/de.json': undefined,
      'photos/cover.png': COVER,
    },
  ); // prettier-ignore
const pieceOf = (sections: readonly unknown[]) => ({ pieces: [{ ...SKERRY.pieces[0], sections }] });
const CAST_ON = 'CO 80 (88, 96) sts';
const WORD = 'Donaudampfschifffahrt'.repeat(15).slice(0, 300);

describe('a hostile pattern', () => {
  it('of one line is set', async () => {
    expectPages(await through(hat({})), [3, 4]);
  });

  it('with words of 300 letters is told of, and set with them divided', async () => {
    const notes = [`Before ${WORD} after.`, WORD];
    const all = { title: WORD, summary: WORD, notes, finishing: WORD, coverAlt: WORD };
    expectPages(await through(hat({}, all)), [4, 6], ['press/overflow']);
  });

  it('with 300 figures that no hyphen parts is told of', async () => {
    const notes = `Before ${'0123456789'.repeat(30)} after.`;
    expectPages(await through(hat({}, { notes })), [4, 6], ['press/overflow']);
  });

  it('with sections that have no lines is set', async () => {
    const sections = [
      { id: 'brim', lines: [CAST_ON] },
      { id: 'body', title: 'body', lines: [] },
      { id: 'crown', title: 'crown', lines: [] },
    ];
    expectPages(await through(hat(pieceOf(sections))), [3, 4]);
  });

  it('with texts that hold nothing is set', async () => {
    const texts = { notes: ['', ' '], finishing: '', summary: '' };
    expectPages(await through(hat({}, texts)), [3, 4]);
  });

  it('in 40 sizes is set, its tables shared out', async () => {
    const names = Array.from({ length: 40 }, (_, size) => `No. ${size + 1}`);
    const list = (first: number, step: number): string => {
      const rest = names.slice(1).map((_, size) => first + step * (size + 1));
      return `${first} (${rest.join(', ')})`;
    };
    const [yarn] = SKERRY.yarns;
    const yarns = [{ ...yarn, colours: [{ ...yarn!.colours[0], grams: list(70, 1) }] }];
    const round = `Rnd 1: *k2, p2; rep from * to end. ${list(80, 4)} sts`;
    const lines = [`CO ${list(80, 4)} sts`, 'Join to work in the round', round];
    const pattern = { sizes: names, yarns, ...pieceOf([{ id: 'brim', lines }]) };
    expectPages(await through(hat(pattern)), [4, 9]);
  });

  it('of 400 rows is set', async () => {
    const rows = Array.from({ length: 400 }, (_, row) => {
      const knit = (row % 3) + 1;
      return `Rnd ${row + 1}: *k${knit}, p${4 - knit}; rep from * to end`;
    });
    const pieces = pieceOf([
      { id: 'brim', lines: [CAST_ON, 'Join to work in the round', ...rows] },
    ]);
    expectPages(await through(hat(pieces)), [20, 30]);
  });

  it('with a chart of 200 stitches and 200 rows is set, the chart shared out to pages', async () => {
    const rows = Array.from({ length: 200 }, (_, row) =>
      Array.from({ length: 200 }, (_each, at) => ((row * 7 + at * at) % 5 === 0 ? '-' : '.')),
    );
    const key = { '.': { stitch: 'k' }, '-': { stitch: 'p' } };
    const sea = { id: 'sea', name: 'Chart A', form: 'round', key, rows: rows.map((row) => row.join('')) }; // prettier-ignore
    const lines = ['CO 200 sts', 'Join to work in the round', 'Work Rnds 1–200 of Chart A'];
    const outcome = await through(hat({ charts: [sea], ...pieceOf([{ id: 'brim', lines }]) }));
    expectPages(outcome, [50, 180]);
  });

  it('with a photograph of one pixel is told of', async () => {
    const files = new Map(hat({})).set('photos/cover.png', pngOf(1, 1));
    expectPages(await through(files), [3, 4], ['press/coarse-picture']);
  });

  it.each(['🧶', '👩‍🦳', '🇫🇮'])('with %s, which no face of ours has, is refused', async (sign) => {
    const outcome = await through(hat({}, { notes: `Cast on ${sign} loosely.` }));
    expectRefused(outcome, ['press/missing-glyph']);
  });

  it.each(['a\u202eb', 'x\u0000y'])('with the unseen sign in %j is refused', async (sign) => {
    const outcome = await through(hat({}, { notes: `Cast on ${sign} loosely.` }));
    expectRefused(outcome, ['bundle/character']);
  });

  it('with a letter under ten marks is set', async () => {
    const marked = `z${'\u0321\u0322\u0317\u0318\u0319\u031c\u031d\u031e\u031f\u0320'}`;
    expectPages(await through(hat({}, { notes: `Cast on ${marked} loosely.` })), [3, 4]);
  });
});
