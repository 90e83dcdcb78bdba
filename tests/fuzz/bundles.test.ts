/**
 * Starters with a slip in them, thousands of them: a digit, a bracket, a word, a number, a whole value put
 * elsewhere. Each is loaded, worked in every size and asked for a language; whatever comes of it is findings
 * that can be worded or a fault with a remedy, never an exception. `npm run fuzz` runs 10,000 and prints
 * the slowest; `npm test` a few hundred.
 */
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { Fault } from '../../src/base/fault.ts';
import { openOwnRooms } from '../../src/cli/resources.ts';
import { wordingOf } from '../../src/findings/register.ts';
import { loadBundle } from '../../src/pattern/bundle/load.ts';
import { unpackBundle } from '../../src/pattern/bundle/unpack.ts';
import type { Rooms } from '../../src/pipeline/ports.ts';

const RUNS = Number(process.env['CASTOFF_FUZZ_RUNS'] ?? 120);
const STARTERS = ['breakwater-hat', 'cold-front-mittens', 'undertow-shawl', 'tideline-socks'];
const MINUTES = 60;

type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
type Path = readonly (string | number)[];

let rooms: Rooms;
const starters = new Map<string, { files: ReadonlyMap<string, Uint8Array>; pattern: Json }>();
beforeAll(async () => {
  rooms = await openOwnRooms();
  for (const name of STARTERS) {
    const unpacked = await unpackBundle(`templates/starters/${name}`);
    const files = new Map(
      [...unpacked].filter(([file]) => !file.startsWith('prose/') || file === 'prose/en-US.json'),
    );
    const text = new TextDecoder().decode(files.get('pattern.json'));
    const pattern = { ...(JSON.parse(text) as { [key: string]: Json }), languages: ['en-US'] };
    starters.set(name, { files, pattern });
  }
});

/** Where every leaf of the pattern lies; rows come first in nearly every pattern. */
function leavesOf(value: Json, path: Path = []): readonly Path[] {
  if (typeof value !== 'object' || value === null) return [path];
  return Object.entries(value).flatMap(([key, each]) =>
    leavesOf(each, [...path, Array.isArray(value) ? Number(key) : key]),
  );
}

function edit(value: Json, path: Path, change: (leaf: Json) => Json): Json {
  const [key, ...rest] = path;
  if (key === undefined) return change(value);
  if (Array.isArray(value)) {
    return value.map((each, at) => (at === key ? edit(each, rest, change) : each));
  }
  const record = value as { [name: string]: Json };
  return { ...record, [key]: edit(record[key] ?? null, rest, change) };
}

/** Slips of the pen and of the keyboard, in a text. */
type Slip = (text: string, at: number, more: string) => string;
const SLIPS: Readonly<Record<string, Slip>> = {
  'a letter lost': (text, at) => text.slice(0, at) + text.slice(at + 1),
  'a letter twice': (text, at) => text.slice(0, at + 1) + text.slice(at),
  'something put in': (text, at, more) => text.slice(0, at) + more + text.slice(at),
  'a tail lost': (text, at) => text.slice(0, at),
  'a part twice': (text, at) => `${text}, ${text.slice(at)}`,
  'a part a hundred times': (text, at) => text.slice(0, at) + text.slice(at, at + 9).repeat(100),
  'another number': (text, at, more) =>
    text.replaceAll(/\d+/g, (number, where: number) =>
      where >= at ? String(Number(number) + more.length - 3) : number,
    ),
  'a huge number': (text, at) =>
    text.replace(/\d+/g, (number, where: number) => (where >= at ? '999999999' : number)),
  'words changed round': (text, at) => {
    const words = text.split(' ');
    return [...words.slice(at % words.length), ...words.slice(0, at % words.length)].join(' ');
  },
};
const PUT_IN = ['(', ')', '[', ']', '*', ';', ', ', '0', '-1', 'k', 'p2tog', 'rep from *', ' to end', '½', '–', '"', '{{x}}', '\u202e', '🧶', 'x'.repeat(300)]; // prettier-ignore

const slip = fc.record({
  starter: fc.constantFrom(...STARTERS),
  leaf: fc.nat(9999),
  kind: fc.constantFrom(...Object.keys(SLIPS)),
  at: fc.nat(120),
  more: fc.constantFrom(...PUT_IN),
});

function changeLeaf(
  leaf: Json,
  { kind, at, more }: { kind: string; at: number; more: string },
): Json {
  if (typeof leaf === 'string') return SLIPS[kind]?.(leaf, at % (leaf.length + 1), more) ?? '';
  if (typeof leaf === 'number') return [leaf + 1, -leaf, leaf * 1e6, 0.5, 0][at % 5] ?? 0;
  return more;
}

async function checkWhole(files: ReadonlyMap<string, Uint8Array>): Promise<readonly string[]> {
  const { bundle, findings } = loadBundle(files);
  if (bundle === undefined) return findings.map((each) => wordingOf(each).headline);
  const checked = await rooms.check(bundle);
  const said = checked.findings.some(({ severity }) => severity === 'error')
    ? []
    : await rooms.checkLanguage(checked, 'en-US');
  return [...findings, ...checked.findings, ...said].map((each) => wordingOf(each).headline);
}

describe('a starter with a slip in it', () => {
  it(
    'ends in findings that can be worded, or in a fault with a remedy',
    async () => {
      let slowest = { milliseconds: 0, what: '' };
      let [found, refused, unseen] = [0, 0, 0];
      await fc.assert(
        fc.asyncProperty(slip, async (chosen) => {
          const { files, pattern } = starters.get(chosen.starter) ?? {
            files: new Map(),
            pattern: null,
          };
          const leaves = leavesOf(pattern);
          const path = leaves[chosen.leaf % leaves.length] ?? [];
          const text = JSON.stringify(edit(pattern, path, (leaf) => changeLeaf(leaf, chosen)));
          const begun = performance.now();
          try {
            const headlines = await checkWhole(
              new Map([...files, ['pattern.json', new TextEncoder().encode(text)]]),
            );
            for (const headline of headlines) {
              expect(headline).not.toMatch(/undefined|\[object|NaN|Infinity/);
              expect(headline).not.toBe('');
            }
            if (headlines.length > 0) found += 1;
            else unseen += 1;
          } catch (error) {
            if (!(error instanceof Fault)) throw error;
            expect(error.remedy).toBeTruthy();
            refused += 1;
          }
          const milliseconds = performance.now() - begun;
          if (milliseconds > slowest.milliseconds) {
            slowest = {
              milliseconds,
              what: `${chosen.starter} /${path.join('/')}: ${chosen.kind}`,
            };
          }
        }),
        { numRuns: RUNS },
      );
      console.log(
        `${RUNS} bundles: ${found} with findings, ${refused} refused, ${unseen} without a word; the slowest ${slowest.milliseconds.toFixed(0)} ms, ${slowest.what}`,
      );
    },
    MINUTES * 60_000,
  );
});
