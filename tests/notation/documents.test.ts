/**
 * Documents of written lines. In `us.rows` and `uk.rows` each line is followed by the same thing in
 * canonical notation; in `problems.rows` by carets under the blameworthy text, the code, and a part of
 * what is said of it.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { REGISTER } from '../../src/findings/register.ts';
import type { Wording } from '../../src/findings/finding.ts';
import { printLine, readLine, type NotationProblem } from '../../src/pattern/notation/index.ts';
import { CATALOGUE } from '../../src/pattern/stitches/index.ts';
import { withoutPlaces } from './shown.ts';

const names = {
  charts: new Map([
    ['a', 'A'],
    ['chart a', 'A'],
    ['b', 'B'],
  ]),
  fabrics: new Map([['shell lace', 'shell-lace']]),
};
const plain = { sizes: ['S', 'M', 'L'], catalogue: CATALOGUE };

function linesOf(file: string): string[] {
  const text = readFileSync(new URL(`documents/${file}`, import.meta.url), 'utf8');
  return text.split('\n').filter((line) => line !== '' && !line.startsWith('#'));
}

/** A line and the lines after it that begin with a mark. */
function pairs(file: string, mark: RegExp): [string, string][] {
  const found: [string, string][] = [];
  for (const line of linesOf(file)) {
    const last = found.at(-1);
    if (mark.test(line) && last) last[1] = line;
    else found.push([line, '']);
  }
  return found;
}

describe.each(['us.rows', 'uk.rows'])('%s', (file) => {
  test.each(pairs(file, /^= /))('%s', (written, canonical) => {
    const { line, problems } = readLine(written, plain);
    expect(problems).toEqual([]);
    if (!line) throw new Error(written);
    expect(`= ${printLine(line)}`).toBe(canonical);
    const again = readLine(printLine(line), plain).line;
    expect(withoutPlaces(again)).toEqual(withoutPlaces(line));
  });
});

function said(problem: NotationProblem): string {
  const entry = REGISTER[problem.code] as { word(facts: unknown): Wording };
  const { headline, notes = [], action = '' } = entry.word(problem.facts);
  return [headline, ...notes, action].join(' | ');
}

describe('problems.rows', () => {
  test.each(pairs('problems.rows', /^ *\^+ notation\//))('%s', (written, expected) => {
    const { line, problems } = readLine(written, { ...plain, names });
    expect(line).toBeUndefined();
    expect(problems.map(({ code }) => code)).toHaveLength(1);
    const [problem] = problems;
    if (!problem) throw new Error(written);
    const { start, end } = problem.span;
    const [, carets = '', code = '', part = ''] = /^( *\^+) (\S+) (.*)$/.exec(expected) ?? [];
    expect(' '.repeat(start) + '^'.repeat(Math.max(1, end - start))).toBe(carets);
    expect(problem.code).toBe(code);
    expect(said(problem)).toContain(part);
  });

  test('every code of the family is raised by a document', () => {
    const raised = new Set(
      linesOf('problems.rows').map((line) => /\^ (notation\/\S+)/.exec(line)?.[1]),
    );
    const elsewhere = ['notation/too-long', 'notation/too-many-lines']; // in hostile.test.ts
    const codes = Object.keys(REGISTER).filter((code) => code.startsWith('notation/'));
    expect(codes.filter((code) => !raised.has(code) && !elsewhere.includes(code))).toEqual([]);
  });
});
