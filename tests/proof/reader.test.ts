/** The reader of finished files: what it loads. A file of its own, since other tests load the reader whole. */
import { createRequire } from 'node:module';
import { expect, it, vi } from 'vitest';
import { loadReader } from '../../src/press/proof/reader.ts';

it('is loaded quietly, without the package it paints with', async () => {
  const said = ['log', 'warn', 'error'].map((name) => vi.spyOn(console, name as 'log'));
  expect(await loadReader()).toHaveProperty('getDocument');
  const loaded = Object.keys(createRequire(import.meta.url).cache);
  expect(loaded.filter((file) => file.includes('@napi-rs/canvas'))).toEqual([]);
  expect(said.flatMap(({ mock }) => mock.calls)).toEqual([]);
});
