/** Every row of the public-domain cases counts as worked out by hand; every book error is found. */
import { describe, expect, it } from 'vitest';
import { countText } from '../../src/pattern/checks/count-text.ts';
import { counted, isHard } from '../../src/pattern/needle/piece.ts';
import { type State, stitchesOn } from '../../src/pattern/needle/state.ts';
import {
  BOOK_ERRORS,
  type BookError,
  type Case,
  type CaseRow,
  CASES,
  forSize,
  writtenRow,
} from './cases.ts';
import { castOn, workText } from './working.ts';

/** Sets the needle as the case says where it goes on with other stitches. */
function readyFor(state: State, row: CaseRow, form: 'flat' | 'round', size: number): State {
  const here = row.form ?? form;
  if (row.setCount !== undefined) return castOn(forSize(row.setCount, size), here);
  return state.form === here ? state : { ...state, form: here, side: 'RS' };
}

interface Worked {
  readonly label: string;
  readonly before: number;
  readonly after: number;
  readonly codes: readonly string[];
}

/** Works a case row by row; the numbering of rows is let go, because the books leave rows out. */
function workCase(each: Case, size: number, rows = each.rows, cast?: number): readonly Worked[] {
  const sizes = each.sizes ?? ['one'];
  let state = castOn(cast ?? forSize(each.castOn, size), each.form);
  return rows.map((row) => {
    state = { ...readyFor(state, row, each.form, size), number: undefined };
    const before = stitchesOn(state);
    const result = workText(state, writtenRow(row, size), size, sizes);
    const codes = result.problems.filter(isHard).map(({ code }) => code);
    const after = stitchesOn(result.state);
    state = codes.length > 0 ? counted(result.state, forSize(row.countAfter, size)) : result.state;
    return { label: row.label, before, after, codes };
  });
}

describe('public-domain cases', () => {
  it.each(CASES.map((each) => [each.id, each] as const))('%s', (_, each) => {
    for (const [size] of (each.sizes ?? ['one']).entries()) {
      const stated = each.rows.map((row) => ({
        label: row.label,
        before: forSize(row.countBefore, size),
        after: forSize(row.countAfter, size),
        codes: [],
      }));
      expect(workCase(each, size)).toEqual(stated);
    }
  });
});

/** Cases whose text goes on with other stitches than those on the needle: the jump is a finding. */
const JUMPS = new Set(
  CASES.filter(({ rows }) => rows.some((row) => row.setCount !== undefined)).map(({ id }) => id),
);

describe('public-domain cases as running text', () => {
  const texts = CASES.filter(({ patternText }) => patternText !== undefined);
  it.each(texts.map((each) => [each.id, each] as const))('%s', (_, each) => {
    const { lines, findings } = countText(each.patternText ?? '');
    const errors = findings.filter(({ severity }) => severity === 'error');
    if (JUMPS.has(each.id)) return expect(lines.length).toBeGreaterThan(each.rows.length);
    expect(errors).toEqual([]);
    const last = each.rows.at(-1);
    expect(lines.at(-1)?.after).toEqual([last?.countAfter]);
  });
});

// ---------------------------------------------------------------- errors as the books print them

/** The row of the case with the text as printed; a wrong cast-on is a wrong number instead. */
function asPrinted(each: Case, error: BookError): { rows: readonly CaseRow[]; cast?: number } {
  if (error.label === 'CAST ON') return { rows: each.rows, cast: Number(error.printed) };
  return {
    rows: each.rows.map((row) =>
      row.label === error.label ? { ...row, text: error.printed } : row,
    ),
  };
}

describe('errors as the books print them', () => {
  it.each(BOOK_ERRORS.map((error) => [`${error.caseId}, ${error.label}`, error] as const))(
    '%s',
    (_, error) => {
      const each = CASES.find(({ id }) => id === error.caseId)!;
      const { rows, cast } = asPrinted(each, error);
      const tripped = workCase(each, 0, rows, cast).find(({ codes }) => codes.length > 0);
      // A row that is too long or short for its own count trips there, else where the count is used.
      expect(tripped?.label).toBe(error.tripsAt.split(':')[0]);
    },
  );
});
