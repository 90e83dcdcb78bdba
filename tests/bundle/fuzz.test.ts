/**
 * Bundles nobody would write: bytes of a zip changed at random, JSON values swapped for others. Whatever
 * happens is a fault or findings, soon, and never an exception. `CASTOFF_FUZZ_RUNS` sets how many.
 */
import { zipSync } from 'fflate';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Fault } from '../../src/base/fault.ts';
import { wordingOf } from '../../src/findings/register.ts';
import { loadBundle } from '../../src/pattern/bundle/load.ts';
import { unpackBundle } from '../../src/pattern/bundle/unpack.ts';
import { SKERRY, skerryFiles } from '../pipeline/studio.ts';

const RUNS = Number(process.env['CASTOFF_FUZZ_RUNS'] ?? 400);
const whole = zipSync(Object.fromEntries(skerryFiles()));

const change = fc.record({
  at: fc.nat(whole.length - 1),
  cut: fc.nat(40),
  put: fc.uint8Array({ maxLength: 40 }),
});

function changed(changes: readonly { at: number; cut: number; put: Uint8Array }[]): Uint8Array {
  return changes.reduce<Uint8Array>(
    (bytes, { at, cut, put }) =>
      Buffer.concat([bytes.subarray(0, at), put, bytes.subarray(at + cut)]),
    whole,
  );
}

/** Paths of every value inside a JSON value. */
function pathsOf(value: unknown, path: readonly string[] = []): readonly (readonly string[])[] {
  if (typeof value !== 'object' || value === null) return [path];
  return [path, ...Object.entries(value).flatMap(([key, each]) => pathsOf(each, [...path, key]))];
}

function withValue(value: unknown, path: readonly string[], put: unknown): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return put;
  const copy = (
    Array.isArray(value) ? [...(value as unknown[])] : { ...(value as object) }
  ) as Record<string, unknown>;
  copy[key] = withValue(copy[key], rest, put);
  return copy;
}

const strange = fc.oneof(
  fc.jsonValue({ maxDepth: 3 }),
  fc.constantFrom<unknown>(
    '',
    '\u202e',
    '__proto__',
    1e308,
    -1,
    0.5,
    [],
    {},
    null,
    'x'.repeat(9000),
    '🧶',
  ),
);

describe('a bundle changed at random', () => {
  it('as a zip ends in files, findings or a fault with a remedy', async () => {
    let slowest = 0;
    await fc.assert(
      fc.asyncProperty(fc.array(change, { minLength: 1, maxLength: 4 }), async (changes) => {
        const start = performance.now();
        try {
          const { findings } = loadBundle(await unpackBundle(changed(changes)));
          for (const each of findings) expect(wordingOf(each).headline).not.toBe('');
        } catch (error) {
          if (!(error instanceof Fault)) throw error;
          expect(error.remedy).toBeTruthy();
        }
        slowest = Math.max(slowest, performance.now() - start);
      }),
      { numRuns: RUNS },
    );
    console.log(`${RUNS} zips, the slowest took ${slowest.toFixed(0)} ms`);
  });

  it('as JSON ends in a bundle or in findings that can be worded', () => {
    const paths = pathsOf(SKERRY);
    fc.assert(
      fc.property(fc.constantFrom(...paths), strange, (path, put) => {
        const text = JSON.stringify(withValue(SKERRY, path, put));
        const { bundle, findings } = loadBundle(skerryFiles({}, { 'pattern.json': text }));
        expect(bundle !== undefined || findings.length > 0).toBe(true);
        for (const each of findings) {
          expect(wordingOf(each).headline).not.toMatch(/undefined|\[object|NaN/);
          expect(wordingOf(each).headline).not.toBe('');
        }
      }),
      { numRuns: RUNS },
    );
  });
});
