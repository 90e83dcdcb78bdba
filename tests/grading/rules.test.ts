/**
 * Numbers that carry their rules: what a rule gives in each size, what is told where it cannot be
 * reckoned, and counts that are moved until every demand is kept. Worked by hand at 20 sts and 28 rows
 * over 4 in, for the busts 34, 38 and 42 in.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { printFindings } from '../../src/findings/text.ts';
import { readSizeList } from '../../src/pattern/bundle/size-list.ts';
import { printSizes, settledValues } from '../../src/pattern/grading/rules/in-rows.ts';
import { readRule } from '../../src/pattern/grading/rules/read-rule.ts';
import { resolveNumbers } from '../../src/pattern/grading/rules/resolve.ts';
import { settleNumbers } from '../../src/pattern/grading/rules/settle.ts';
import { checked, codes, dataWith, PLAIN } from './bundle.ts';

const RIB = { id: 'rib', name: 'rib', multiple: 4, plus: 2, form: 'flat', lines: [] };

type Entry = Readonly<Record<string, unknown>>;

const numbers = (...given: readonly Entry[]) => dataWith({ numbers: given, stitchPatterns: [RIB] });

function valuesOf(...given: readonly Entry[]) {
  const data = numbers(...given);
  const resolved = resolveNumbers(data);
  expect(resolved.numbers.flatMap(({ problem }) => problem ?? [])).toEqual([]);
  return settledValues(data, resolved);
}

const one = (rule: string, unit = 'sts') => valuesOf({ id: 'it', unit, rule }).get('it');

describe('what a rule gives', () => {
  it.each([
    ['body bust / 2 at body', 'sts', [85, 95, 105]],
    ['(body bust + 4 in) / 2 at body + 2 sts', 'sts', [97, 107, 117]],
    ['(body bust + 4 in) / 2 at body + 2 sts, nearest even', 'sts', [98, 108, 118]],
    ['body bust / 2 at body, nearest multiple of rib', 'sts', [86, 94, 106]],
    ['body bust / 2 at body, down to a multiple of 4 + 2', 'sts', [82, 94, 102]],
    ['body bust / 2 at body, up to a multiple of 10', 'sts', [90, 100, 110]],
    ['bust / 2 at body', 'sts', [95, 105, 115]], // the measurement
    ['8% of body bust at body', 'sts', [14, 15, 17]], // 13.6, 15.2, 16.8
    ['7½ in at body, nearest even', 'rows', [52, 52, 52]], // 52.5
    ['20 (30, 40) rows + 2', 'rows', [22, 32, 42]],
    ['(100 − 2 × 20) / 4', 'times', [15, 15, 15]],
    ['body bust / 2 at body at body', 'in', [17, 19, 21]], // there and back
    ['body bust / 3, nearest ¼ in', 'in', [11.25, 12.75, 14]],
    ['– (4, 5) sts', 'sts', undefined],
  ])('%s', (rule, unit, values) => {
    if (values) expect(one(rule, unit)).toEqual(values);
    else expect('problem' in readRule(rule)).toBe(true);
  });

  it('takes centimetres through a gauge counted over 10 cm, never converted inches', () => {
    const gauges = [{ ...PLAIN.gauges[0], id: 'fine', stitches: 22, rows: 30, over: '10 cm' }];
    const data = dataWith({
      gauges: [...PLAIN.gauges, ...gauges],
      numbers: [{ id: 'it', unit: 'sts', rule: 'body bust at fine, nearest even' }],
    });
    // 86.5 × 2.2 = 190.3; from 34 in it would be 86.36 × 2.2 = 189.99, as a nearest even also 190;
    // 106.5 × 2.2 = 234.3 → 234; 42 in are 106.68 cm, 234.7 → 234. The exact amounts tell them apart.
    expect(resolveNumbers(data).numbers[0]?.derived.map((each) => each?.exact)).toEqual(
      [86.5, 96.5, 106.5].map((bust) => expect.closeTo(bust * 2.2, 9) as number),
    );
  });

  it('a stated value goes on into what builds on it', () => {
    const values = valuesOf(
      { id: 'yoke', unit: 'sts', rule: 'back + front' },
      { id: 'front', unit: 'sts', value: '90 (100, 110)' },
      { id: 'back', unit: 'sts', rule: 'body bust / 2 at body' },
    );
    expect(values.get('yoke')).toEqual([175, 195, 215]);
  });

  it('a dash does not apply, and neither does what builds on it', () => {
    const values = valuesOf(
      { id: 'dart', unit: 'sts', value: '– (4, 6)' },
      { id: 'waist', unit: 'sts', rule: 'body bust / 2 at body − 2 × dart' },
    );
    expect(values.get('waist')).toEqual([null, 87, 93]);
  });
});

describe('what is told', () => {
  it.each([
    ['body bust at', 'grade/rule', /end of the rule/],
    ['body bust + at body', 'grade/rule', /at|gauge|operator/],
    ['(body bust at body', 'grade/rule', /closing bracket/],
    ['body bust at body, nearest', 'grade/rule', /even, odd/],
    ['bst at body', 'grade/name', /did you mean “bust”/],
    ['body hip at body', 'grade/name', /no such body measurement/],
    ['bust at boddy', 'grade/name', /no such gauge[^]*“body”/],
    ['bust at body, nearest multiple of rbi', 'grade/name', /stitch pattern[^]*rib/],
    ['bust + 2 at body', 'grade/units', /like 2 in/],
    ['bust at body + 7 in', 'grade/units', /gauge first/],
    ['bust', 'grade/units', /end the sum with “at”/],
    ['bust × bust at body', 'grade/units', /multiplied/],
    ['6 at body', 'grade/units', /only a length or a count/],
    ['bust at body, nearest ¼ in', 'grade/units', /whole numbers/],
    ['it + 2', 'grade/name', /“it”/],
  ])('%s', (rule, code, says) => {
    const { findings } = checked(numbers({ id: 'it', unit: 'sts', rule }));
    expect(findings.map((each) => each.code)).toEqual([code]);
    expect(printFindings(findings)).toMatch(says);
    expect(printFindings(findings)).toMatch(/\^/);
  });

  it('a circle is told once, with its numbers', () => {
    const data = numbers(
      { id: 'body-sts', unit: 'sts', rule: 'yoke / 2' },
      { id: 'yoke', unit: 'sts', rule: 'body-sts × 2' },
    );
    const { findings } = checked(data);
    expect(findings.map(({ code }) => code)).toEqual(['grade/circle']);
    expect(printFindings(findings)).toMatch(/yoke → body-sts → yoke|body-sts → yoke → body-sts/);
  });

  it('a stated number that its rule does not give, in the size where it does not', () => {
    const data = numbers({
      id: 'it',
      unit: 'sts',
      rule: 'body bust / 2 at body',
      value: '85 (96, 105)',
    });
    const { findings } = checked(data);
    expect(findings).toMatchObject([{ code: 'grade/value', sizes: ['M'] }]);
    expect(printFindings(findings)).toMatch(/gives 95 sts; stated is 96[^]*\^\^/);
  });

  it('rows that do not have the number at its place', () => {
    const rule = '(body bust + 4 in) / 2 at body + 2 sts';
    const at = (places: readonly unknown[], unit = 'sts', text = rule) =>
      codes(numbers({ id: 'it', unit, rule: text, places }));
    expect(at(['back/cast-on', 'back/end', 'back'])).toEqual([]);
    expect(at(['back/cast-on'], 'sts', `${rule}, nearest even`)).toEqual(['grade/place']);
    expect(at([['back/cast-on', 'back/end']], 'rows', '4 in at body')).toEqual([]);
    expect(at([['back/cast-on', 'back/end']], 'in', '4 in + 0 in')).toEqual([]);
    expect(at([['back/cast-on', 'back/end']], 'cm', '10.5 cm + 0 cm')).toEqual(['grade/place']);
    expect(at(['back/castoff'])).toEqual(['reference/unknown']);
  });

  it('two numbers of one name', () => {
    const it = { id: 'it', unit: 'sts', value: 4 };
    expect(codes(numbers(it, it))).toEqual(['reference/twice']);
  });
});

describe('rows that name a number', () => {
  const withRow = (text: string, ...given: readonly Entry[]) => {
    const [piece] = PLAIN.pieces;
    const [section] = piece.sections;
    const lines = [{ id: 'cast-on', text }, ...section.lines.slice(1)];
    const pieces = [{ ...piece, sections: [{ ...section, lines }] }];
    return dataWith({ pieces, numbers: given, stitchPatterns: [RIB] });
  };
  const back = { id: 'back-sts', unit: 'sts', rule: 'body bust / 2 at body, nearest even' };

  it('are read with it, in every size', () => {
    const pattern = checked(withRow('Cast on {back-sts} sts.', back));
    expect(pattern.findings).toEqual([]);
    const [line] = pattern.pieces[0]?.lines ?? [];
    expect(line?.line.text).toBe('Cast on 86 (96, 106) sts.');
    expect(line?.outcomes.map(({ after }) => after)).toEqual([86, 96, 106]);
  });

  it('tell a name that stands for nothing, where it stands', () => {
    const pattern = checked(withRow('Cast on {bakc-sts} sts.', back));
    expect(pattern.findings.map(({ code }) => code)).toEqual(['grade/no-number']);
    expect(printFindings(pattern.findings)).toMatch(/\{bakc-sts\}[^]*\^{10}\n[^]*\{back-sts\}/);
  });
});

describe('counts that must fit each other', () => {
  // A yoke of body and two sleeves, less 8 sts at each of four underarm edges, in repeats of 12.
  const yoke = [
    { id: 'around', unit: 'sts', rule: 'body bust + 4 in at body, nearest multiple of 2' },
    { id: 'sleeve', unit: 'sts', rule: '12 (13, 14) in at body, nearest even, within ½ in' },
    { id: 'yoke', unit: 'sts', rule: 'around + 2 × sleeve − 32, exactly multiple of 12' },
  ];

  it('moves open counts by as little as possible', () => {
    // Nearest: 190 + 2 × 60 − 32 = 278; 276 is 23 repeats: the body takes 2 sts less (0.4 in).
    const data = numbers(...yoke);
    const settled = settleNumbers(data, resolveNumbers(data));
    const values = settledValues(data, resolveNumbers(data));
    expect(values.get('yoke')?.map((count) => (count ?? 1) % 12)).toEqual([0, 0, 0]);
    expect(values.get('yoke')?.[0]).toBe(276);
    expect(settled[0]?.moved).toEqual([
      { id: 'around', nearest: 190, count: 188, deviationInches: -0.4 },
    ]);
    expect(settled[0]?.others.length).toBeGreaterThan(0);
    expect(codes(data)).toEqual([]);
  });

  it('what it filled in is what the check then wants, and so is the next best fit', () => {
    const open = numbers(...yoke);
    const values = settledValues(open, resolveNumbers(open));
    const filled = (change: Readonly<Record<string, readonly number[]>> = {}) =>
      yoke.map((each) => ({ ...each, value: change[each.id] ?? values.get(each.id) }));
    expect(codes(numbers(...filled()))).toEqual([]);
    const [, second] = values.get('around') ?? [];
    const slipped = { around: [188, (second ?? 0) + 24, 230] };
    expect(codes(numbers(...filled(slipped)))).toContain('grade/value');
  });

  it('never moves what is stated, and says where nothing fits', () => {
    const [around, sleeve, sum] = yoke;
    const stated = numbers(
      { ...around, value: '190 (210, 230)' },
      { ...sleeve, value: '60 (66, 70)' },
      sum ?? {},
    );
    // 278, 310 and 338: none is a multiple of 12. The sleeve of M is 13 in: 65, nearest even 66.
    expect(codes(stated)).toEqual(['grade/exactly']);
  });

  it('says where a count lies further from its length than the rule allows', () => {
    const rule = '8 in at body, nearest multiple of 12, within ½ in'; // 40 → 36 is 0.8 in
    const { findings } = checked(numbers({ id: 'it', unit: 'sts', rule }));
    expect(findings.map(({ code }) => code)).toEqual(['grade/within']);
  });
});

describe('size lists', () => {
  it('are read back as they were written', () => {
    const values = fc.array(fc.option(fc.integer({ min: 0, max: 999 }), { nil: null }), {
      minLength: 1,
      maxLength: 16,
    });
    fc.assert(
      fc.property(values, (list) => {
        const read = readSizeList(printSizes(list, 'sts'));
        const back = 'sized' in read ? read.sized.values : [];
        expect(back.length === 1 ? list.map(() => back[0]) : back).toEqual(list);
      }),
    );
  });
});
