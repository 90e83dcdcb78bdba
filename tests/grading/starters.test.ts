/**
 * The starters, graded from the body up: the rules they carry (body, ease, gauge, repeat) give the very
 * counts their rows have, in every size, every piece has an outline that carries all its letters, and
 * their swatches weigh what such fabric weighs. The rules are ours, the counts are the starters' own.
 */
import { readdirSync, readFileSync, statSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { measurementLines } from '../../src/cli/grade/numbers-report.ts';
import { printFindings } from '../../src/findings/text.ts';
import { type BundleData, bundleSchema, type ProseData } from '../../src/pattern/bundle/schema.ts';
import { contextOf } from '../../src/pattern/checks/context.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import { followedRows } from '../../src/pattern/checks/pattern-rows.ts';
import { resolveNumbers } from '../../src/pattern/grading/rules/resolve.ts';
import { settleAfresh } from '../../src/pattern/grading/rules/settle.ts';
import { outlineFromRows } from '../../src/pattern/outlines/index.ts';

const FOLDER = 'templates/starters';
const STARTERS = readdirSync(FOLDER).filter(
  (name) => statSync(path.join(FOLDER, name)).isDirectory() && name !== 'render',
);

function read(name: string, file: string): unknown {
  return JSON.parse(readFileSync(path.join(FOLDER, name, file), 'utf8'));
}

const starter = (name: string): BundleData => bundleSchema.parse(read(name, 'pattern.json'));

function graded(name: string, data = starter(name)) {
  const prose = new Map([['en-US', read(name, 'prose/en-US.json') as ProseData]]);
  return checkPattern({ data, prose, photos: new Map(), hash: name });
}

describe.each(STARTERS)('%s', (name) => {
  const data = starter(name);
  const withRules = (data.numbers ?? []).filter(({ rule }) => rule !== undefined);

  it('carries rules, each at its places in the rows', () => {
    expect(withRules.length).toBeGreaterThan(0);
    expect(withRules.filter(({ places, value }) => !places || value === undefined)).toEqual([]);
  });

  it('its rules give its counts, in every size', () => {
    const { findings } = graded(name);
    expect(printFindings(findings.filter(({ code }) => code.startsWith('grade/'))).trim()).toBe('');
  });

  it('what it states is what grading from nothing gives', () => {
    const afresh = settleAfresh(data);
    for (const { data: number, stated } of resolveNumbers(data).numbers)
      data.sizes.forEach((size, at) => {
        const own = stated?.values[stated.values.length === 1 ? 0 : at];
        expect([number.id, size, afresh[at]?.values.get(number.id)]).toEqual([
          number.id,
          size,
          own,
        ]);
      });
  });

  it('a rule that is off by a repeat is told', () => {
    const [first] = withRules;
    const numbers = data.numbers?.map((each) =>
      each === first ? { ...each, rule: `8 sts + ${first.rule}` } : each,
    );
    const { findings } = graded(name, { ...data, numbers });
    expect(findings.some(({ code }) => /^grade\/(value|exactly|units)/.test(code))).toBe(true);
  });

  it('every piece of its schematic has an outline with all letters, in every size', () => {
    const checked = graded(name);
    for (const entry of checked.pattern.bundle.data.schematic)
      checked.pattern.sizes.forEach((_, size) => {
        const outline = outlineFromRows(checked, entry, size);
        const roles = outline?.places.map(({ role }) => role) ?? [];
        expect(Object.keys(entry.measurements).filter((role) => !roles.includes(role))).toEqual([]);
      });
  });
});

it('a piece whose rows do not tell its outline is named', () => {
  const own = starter('breakwater-hat');
  const said = (data: BundleData) => {
    const { pattern, pieces } = graded('breakwater-hat', data);
    return measurementLines(contextOf(pattern, pieces)).join('\n');
  };
  expect(said(own)).not.toMatch(/do not tell the outline/);
  const schematic = own.schematic.map((entry) => ({ ...entry, outline: 'sock' as const }));
  expect(said({ ...own, schematic })).toMatch(/^hat in XS, S, M, L, XL: its rows do not tell/m);
});

describe('the row of each chart at armhole, neck and thumb, by hand', () => {
  // Rows worked on a chart of 8: 90 to the underarm, so row 2; two more by the bound-off underarm;
  // then 43, 45, 49 … rows of shaping. The pullover's neck begins 34, 36, 40 … rows after row 2 of 8.
  it.each([
    ['harbor-light-cardigan', 'left-front', 'underarm', 'chart-a', [2, 2, 2, 2, 2, 2, 2]],
    ['harbor-light-cardigan', 'left-front', 'shaping', 'chart-a', [7, 1, 5, 1, 5, 7, 3]],
    ['harbor-light-cardigan', 'right-front', 'bind-off', 'chart-b', [4, 4, 4, 4, 4, 4, 4]],
    ['sea-fret-pullover', 'front', 'underarm', 'chart-a', [2, 2, 2, 2, 2, 2, 2, 2, 2]],
    ['sea-fret-pullover', 'front', 'neck', 'chart-a', [4, 6, 2, 6, 2, 4, 8, 4, 8]],
    ['tideline-socks', 'sock', 'leg', 'chart-a', [8, 8, 8, 8]],
  ])('%s, %s: %s', (name, piece, place, chart, rows) => {
    const { pattern, pieces } = graded(name);
    const trace = pieces.find(({ piece: { data } }) => data.id === piece);
    const at = trace?.lines.findIndex(({ line }) => line.id === place) ?? -1;
    const followed = trace && followedRows(contextOf(pattern, pieces), trace)[at];
    expect(followed?.map((each) => each[chart])).toEqual(rows);
  });
});

/**
 * A loop takes a length that its density fixes: wales × courses × length² = k, with k 19.0 for plain
 * knitting off the needle and 23.1 when fully relaxed (Munden 1959, from memory). So a square inch of
 * stockinette takes √(k × stitches × rows) inches of yarn, and the ball band says what they weigh.
 */
const LOOSE = 19;
const RELAXED = 23.1;

describe.each(STARTERS)('swatches of %s', (name) => {
  const { gauges, yarns } = starter(name);
  const plain = gauges.filter(({ pattern, swatch }) => pattern === 'stockinette' && swatch);

  it.each(plain.map((gauge) => [gauge.id, gauge] as const))(
    '%s weighs what stockinette weighs',
    (_, gauge) => {
      const { stitches, rows, swatch } = gauge;
      const { grams, metres } = yarns[0]?.ball ?? { grams: 0, metres: 1 };
      const weight = (k: number) =>
        Math.sqrt(k * (stitches / 4) * (rows / 4)) * 0.0254 * (grams / metres);
      const inches = Number(swatch?.width?.in) * Number(swatch?.length?.in);
      expect(Number(swatch?.grams) / inches).toBeGreaterThan(weight(LOOSE));
      expect(Number(swatch?.grams) / inches).toBeLessThan(weight(RELAXED));
    },
  );

  it('are counted in several places', () => {
    expect(gauges.filter(({ swatch }) => (swatch?.readings?.length ?? 0) < 3)).toEqual([]);
    expect(gauges.some(({ swatch }) => (swatch?.before?.length ?? 0) >= 3)).toBe(true);
  });
});
