/**
 * Zips and photographs with bytes changed, names made up and headers that lie. Whatever comes of an upload
 * is files that stay inside its folder, a picture, or a fault with a remedy. `npm run fuzz` runs 2,000 of
 * each and prints the slowest; `npm test` fewer.
 */
import path from 'node:path';
import { zipSync } from 'fflate';
import fc from 'fast-check';
import sharp from 'sharp';
import { beforeAll, describe, expect, it } from 'vitest';
import { Fault } from '../../src/base/fault.ts';
import { BUNDLE_LIMITS } from '../../src/base/limits.ts';
import { loadBundle } from '../../src/pattern/bundle/load.ts';
import { unpackBundle } from '../../src/pattern/bundle/unpack.ts';
import { wordingOf } from '../../src/findings/register.ts';
import { preparePicture } from '../../src/press/pictures/prepare.ts';
import { skerryFiles } from '../pipeline/studio.ts';

const PLACE = { file: 'photos/cover', pointer: '' };
const RUNS = Math.min(2000, Number(process.env['CASTOFF_FUZZ_RUNS'] ?? 150));
const MINUTES = 30;

const change = fc.record({ at: fc.nat(), cut: fc.nat(60), put: fc.uint8Array({ maxLength: 60 }) });
type Change = { readonly at: number; readonly cut: number; readonly put: Uint8Array };
const changes = fc.array(change, { minLength: 1, maxLength: 6 });

const apply = (whole: Uint8Array, all: readonly Change[]): Uint8Array =>
  all.reduce<Uint8Array>((bytes, { at, cut, put }) => {
    const place = at % (bytes.length + 1);
    return Buffer.concat([bytes.subarray(0, place), put, bytes.subarray(place + cut)]);
  }, whole);

class Slowest {
  #milliseconds = 0;
  async watch<Value>(work: () => Promise<Value>): Promise<Value | Fault> {
    const begun = performance.now();
    try {
      return await work();
    } catch (error) {
      if (!(error instanceof Fault)) throw error;
      expect(error.remedy).toBeTruthy();
      return error;
    } finally {
      this.#milliseconds = Math.max(this.#milliseconds, performance.now() - begun);
    }
  }
  toString(): string {
    return `the slowest ${this.#milliseconds.toFixed(0)} ms`;
  }
}

describe('an uploaded zip', () => {
  const step = fc.constantFrom('..', '.', '', 'C:', '/', '\\', 'con', 'a', 'ａ', 'prose', 'photos', '~', '\u202e', 'x'.repeat(300), '%2e%2e', '\0', ' ', '🧶'); // prettier-ignore
  const name = fc.array(step, { minLength: 1, maxLength: 9 }).map((steps) => steps.join('/'));
  const target = path.resolve('/tmp/target');

  it(
    'with made-up names and changed bytes stays inside its folder and its limits',
    async () => {
      const slowest = new Slowest();
      let kept = 0;
      await fc.assert(
        fc.asyncProperty(
          fc.array(name, { maxLength: 5 }),
          fc.oneof(fc.constant([]), changes),
          async (names, all) => {
            const extra = Object.fromEntries(names.map((each) => [each, new Uint8Array(5)]));
            const zip = zipSync({ ...Object.fromEntries(skerryFiles()), ...extra }, { level: 1 });
            const files = await slowest.watch(() => unpackBundle(apply(zip, all)));
            if (files instanceof Fault) return;
            kept += 1;
            let sum = 0;
            for (const [file, bytes] of files) {
              sum += bytes.length;
              expect(path.resolve(target, file).startsWith(target + path.sep), file).toBe(true);
              expect(file).not.toMatch(/\p{Cc}|[\\:]|\u202e/u);
            }
            expect(sum).toBeLessThan(BUNDLE_LIMITS.totalBytes);
            loadBundle(files);
          },
        ),
        { numRuns: RUNS },
      );
      console.log(`${RUNS} zips, ${kept} could be unpacked; ${slowest.toString()}`);
    },
    MINUTES * 60_000,
  );
});

describe('an uploaded photograph', () => {
  const whole = new Map<string, Uint8Array>();
  beforeAll(async () => {
    const image = () => sharp('templates/starters/breakwater-hat/photos/cover.jpg').resize(240);
    whole.set(
      'jpeg',
      await image()
        .withExif({ IFD0: { Orientation: '6' } })
        .jpeg()
        .toBuffer(),
    );
    whole.set('jpeg, progressive', await image().jpeg({ progressive: true }).toBuffer());
    whole.set('png', await image().png().toBuffer());
    whole.set('webp', await image().webp().toBuffer());
    whole.set('tiff', await image().tiff().toBuffer());
    whole.set('gif', await image().gif().toBuffer());
  });

  it(
    'with changed bytes becomes a picture or a finding',
    async () => {
      const slowest = new Slowest();
      let pictures = 0;
      const kinds = fc.constantFrom('jpeg', 'jpeg, progressive', 'png', 'webp', 'tiff', 'gif');
      await fc.assert(
        fc.asyncProperty(kinds, changes, async (kind, all) => {
          const bytes = apply(whole.get(kind) ?? new Uint8Array(), all);
          const use = { kind: 'print', widthPoints: 200 } as const;
          const made = await slowest.watch(() => preparePicture(bytes, use, PLACE));
          if (made instanceof Fault) throw made;
          if (made.picture) pictures += 1;
          else expect(made.findings.map((each) => wordingOf(each).headline)).not.toEqual([]);
        }),
        { numRuns: RUNS },
      );
      console.log(`${RUNS} photographs, ${pictures} could be used; ${slowest.toString()}`);
    },
    MINUTES * 60_000,
  );
});
