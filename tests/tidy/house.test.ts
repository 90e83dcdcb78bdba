/** House rules that a machine can watch: sizes of files, opening words, banned words, open ends. */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readSources } from './sources.ts';

const sources = readSources('src', 'functions', 'infra', 'tests', 'templates');
/** Code without its comments. */
const bare = (text: string) => text.replace(/\/\*[^]*?\*\/|\/\/.*/g, '');

const code = sources.filter(({ file }) => !file.startsWith('tests/'));

describe('the house', () => {
  it('has nothing at the top but what is agreed', () => {
    const agreed = [
      'README.md', 'DEVELOPERS.md', 'LICENSE', 'package.json', 'package-lock.json', 'tsconfig.json',
      'vitest.config.ts', 'cdk.json', 'functions', 'templates', 'locales', 'src', 'tests', 'infra',
    ]; // prettier-ignore
    const made = ['node_modules', 'dist', 'out', 'coverage', 'cdk.out'];
    const found = readdirSync('.').filter((name) => !name.startsWith('.') && !made.includes(name));
    expect(found.filter((name) => !agreed.includes(name))).toEqual([]);
  });

  it('opens every module with what it is for', () => {
    const silent = code
      .filter(({ text }) => !/^(#!.*\n)?\/\*\*/.test(text))
      .map(({ file }) => file);
    expect(silent).toEqual([]);
  });

  it('keeps files short', () => {
    const long = code
      .filter(({ file }) => !file.includes('/catalogue/'))
      .map(({ file, text }) => ({ file, lines: text.split('\n').length }))
      .filter(({ lines }) => lines > 500);
    expect(long).toEqual([]);
  });

  it('has no loose types and no vague names', () => {
    const loose = code
      .filter(({ text }) => /(:|<|\bas) any(?=\s*[;,)\]>=|&[])/.test(bare(text)))
      .map(({ file }) => file);
    const vague = sources.filter(({ file }) => /(utils?|helpers?|manager|misc)\.ts$/.test(file));
    expect(loose).toEqual([]);
    expect(vague.map(({ file }) => file)).toEqual([]);
  });

  it('has no clock and no chance outside the edges', () => {
    const edges = /^(src\/cli|src\/store|src\/pipeline|functions|infra|templates|src\/desk)/;
    const impure = code
      .filter(({ file }) => !edges.test(file))
      .filter(({ text }) => /Date\.now\(|new Date\(\)|Math\.random\(/.test(text))
      .map(({ file }) => file);
    expect(impure).toEqual([]);
  });

  it('tells nobody where it was made', () => {
    const told = sources
      .filter(({ file }) => file !== 'tests/tidy/house.test.ts')
      .filter(({ text }) => /\/work\/(main|shared)|\.\.\/shared\/|registry\.npmjs/.test(text))
      .map(({ file }) => file);
    expect(told).toEqual([]);
    expect(readFileSync('package-lock.json', 'utf8')).not.toMatch(/"resolved": "https?:/);
  });
});
