/** Findings as a terminal shows them: carets, tables, wrapping, widths; and as other programs read them. */
import { describe, expect, it } from 'vitest';
import { columnsOf } from '../../src/findings/columns.ts';
import type { Finding } from '../../src/findings/finding.ts';
import { printFindingsJson } from '../../src/findings/json.ts';
import { printFinding, printFindings } from '../../src/findings/text.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import { bundleOf } from '../needle/working.ts';

const SIZES = ['S', 'M', 'L', 'XL', '2XL', '3XL'];

/** A yoke with one count mistyped: 109 for 108. */
const yoke = () =>
  checkPattern(
    bundleOf({
      sizes: SIZES,
      lines: [
        'Cast on 86 (94, 110, 111, 118, 126) sts.',
        'Row 12 (RS): k1, ssk, k to last 3 sts, k2tog, k1. 84 (92, 109, 109, 116, 124) sts.',
        'Row 13 (WS): Purl.',
        'Row 14 (RS): k1, ssk, k to last 3 sts, k2tog, k1. 82 (90, 106, 107, 114, 122) sts.',
      ],
    }),
  ).findings.filter(({ severity }) => severity === 'error');

describe('the text printer', () => {
  it('shows the fact, the place, the caret, the sizes and what to do', () => {
    expect(printFindings(yoke())).toBe(
      `error[count/stated]: size L ends row 12 with 108 sts; the pattern states 109
  --> Piece: part, row 12   (/pieces/0/sections/0/lines/1)
  | Row 12 (RS): k1, ssk, k to last 3 sts, k2tog, k1. 84 (92, 109, 109, 116, 124) sts.
  |                                                           ^^^
  |          S   M    L   XL  2XL  3XL
  | before  86  94  110  111  118  126
  | worked  84  92  108  109  116  124
  | stated  84  92  109  109  116  124
  = row 14 can be worked from 108 only
  = change 109 to 108: row 12 to row 14 then agree in every size
`,
    );
  });

  it('cuts a long row down to what stands around the caret', () => {
    const long = `Row 1: ${'k2, p2, '.repeat(40)}k7, p2.`;
    const at = long.indexOf('k7');
    const item: Finding = {
      code: 'count/left-over',
      severity: 'error',
      where: { file: 'pattern.json', pointer: '/x', text: long, span: { start: at, end: at + 2 } },
      sizes: [],
      facts: { row: 'row 1', sizes: ['one'], affected: [0], numbers: { before: [9], leftOver: [1] }, words: {} },
    }; // prettier-ignore
    const [, , shown = '', caret = ''] = printFinding(item, { width: 60 }).split('\n');
    expect(columnsOf(shown)).toBeLessThanOrEqual(60);
    expect(shown.slice(caret.indexOf('^'), caret.lastIndexOf('^') + 1)).toBe('k7');
    expect(shown).toContain('…');
  });

  it('wraps the table of forty sizes', () => {
    const sizes = Array.from({ length: 40 }, (_, at) => `size ${at + 1}`);
    const counts = sizes.map((_, at) => 100 + at * 8);
    const wrong = counts.map((count, at) => (at === 30 ? count + 1 : count)).join(', ');
    const list = wrong.replace(', ', ' (') + ')';
    const cast = counts.join(', ').replace(', ', ' (') + ')';
    const { findings } = checkPattern(
      bundleOf({
        sizes,
        lines: [`Cast on ${cast} sts.`, `Row 1: Knit. ${list} sts.`, 'Row 2: Purl.'],
      }),
    );
    const text = printFindings(findings);
    const lines = text.split('\n');
    expect(Math.max(...lines.map(columnsOf))).toBeLessThanOrEqual(100);
    expect(lines.filter((line) => line.startsWith('  | worked'))).toHaveLength(4);
    expect(text).toContain('size 31 ends row 1 with 340 sts; the pattern states 341');
  });

  it('lines up under wide letters', () => {
    expect(columnsOf('表8目')).toBe(5);
    expect(columnsOf('é')).toBe(1);
    const item: Finding = {
      code: 'bundle/shape',
      severity: 'error',
      where: {
        file: 'prose/ja.json', pointer: '/title', text: '表編みの帽子', span: { start: 2, end: 4 },
      },
      sizes: [],
      facts: { problem: 'x' },
    }; // prettier-ignore
    const [, place, text, caret] = printFinding(item).split('\n');
    expect(place).toBe('  --> prose/ja.json/title');
    expect(text).toBe('  | 表編みの帽子');
    expect(caret).toBe('  |     ^^^^');
  });

  it('says that a warning is accepted, and why', () => {
    const lines = ['Cast on 20 sts.', 'Work even in stockinette.'];
    const where = '/pieces/0/sections/0/lines/1';
    const accepted = [{ code: 'count/open-ended', where, reason: 'as long as the yarn lasts' }];
    const { findings } = checkPattern(bundleOf({ lines, data: { accepted } }));
    expect(printFindings(findings)).toContain('warning[count/open-ended] (accepted)');
    expect(printFindings(findings)).toContain('= accepted: as long as the yarn lasts');
  });
});

describe('the JSON printer', () => {
  it('gives the same keys in the same order', () => {
    const parsed = JSON.parse(printFindingsJson(yoke())) as { findings: object[] };
    expect(Object.keys(parsed)).toEqual(['format', 'blocking', 'findings']);
    expect(Object.keys(parsed.findings[0] ?? {})).toEqual([
      'code', 'severity', 'blocks', 'headline', 'where', 'sizes', 'facts', 'table', 'notes', 'action',
    ]); // prettier-ignore
    expect(printFindingsJson(yoke())).toBe(printFindingsJson(yoke()));
  });
});
