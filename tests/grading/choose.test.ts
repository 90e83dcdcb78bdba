/**
 * A rule that is chosen: what it does to the number, to those that build on it and to the garment, and
 * what is then written. Worked by hand at 20 sts and 28 rows over 4 in (5 sts and 7 rows an inch), for
 * the busts 34, 38 and 42 in; shares of a body from `formulas.json`, with its sources.
 */
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { changeJson } from '../../src/pattern/bundle/edit.ts';
import { type BundleData, bundleSchema } from '../../src/pattern/bundle/schema.ts';
import { type Chosen, chooseRule } from '../../src/pattern/grading/rules/choose.ts';
import { measuredChanges } from '../../src/pattern/grading/rules/measured.ts';
import {
  motifFits,
  motifNumber,
  motifRule,
  otherRepeats,
  standingWays,
  WRITTEN_WAYS,
  type WrittenWay,
} from '../../src/pattern/grading/rules/motif-rule.ts';
import { resolveNumbers } from '../../src/pattern/grading/rules/resolve.ts';
import { fieldsOfRule, ruleOfFields } from '../../src/pattern/grading/rules/rule-fields.ts';
import { dataWith, PLAIN } from './bundle.ts';

const chosen = (data: BundleData, id: string, rule: string): Chosen => {
  const found = chooseRule(data, { id, rule });
  if ('problem' in found) throw new Error(JSON.stringify(found.problem));
  return found;
};

const counts = ({ numbers }: Chosen, id: string) =>
  numbers.find(({ data }) => data.id === id)?.sizes.map(({ before, after }) => [before, after]);

const BACK = {
  id: 'back',
  unit: 'sts',
  rule: '(body bust + 4 in) / 2 at body + 2 sts, nearest odd',
  value: '97 (107, 117)',
  places: ['back/cast-on'],
};
const HEM = { id: 'hem', unit: 'sts', rule: 'back − 5 sts', value: '92 (102, 112)' };
const WIDTH = {
  id: 'width',
  name: 'width',
  letter: 'B',
  size: { in: '19 (21, 23)' },
  from: { width: 'back/cast-on', less: 2 },
};
const AROUND = {
  ...WIDTH,
  id: 'around',
  letter: 'C',
  size: { in: '38 (42, 46)' },
  from: { ...WIDTH.from, times: 2 },
  ease: { over: 'bust', size: { in: 4 } },
};
const body = (more: Parameters<typeof dataWith>[0] = {}) =>
  dataWith({ numbers: [BACK, HEM], measurements: [WIDTH, AROUND], ...more });

describe('a rule that is chosen', () => {
  // (34 + 4) / 2 = 19 in, 95 sts + 2 = 97; nearest of 12 n + 2: 98; 107 → 110; 117 → 122, a tie goes up? 116 / 12 = 9.6 → 10.
  const choice = chosen(body(), 'back', '(body bust + 4 in) / 2 at body + 2 sts, nearest multiple of 12 + 2'); // prettier-ignore

  it('reckons the number and those that follow it, size by size', () => {
    expect(counts(choice, 'back')).toEqual([[97, 98], [107, 110], [117, 122]]); // prettier-ignore
    expect(counts(choice, 'hem')).toEqual([[92, 93], [102, 105], [112, 117]]); // prettier-ignore
    expect(choice.numbers.map(({ how }) => how)).toEqual(['chosen', 'follows']);
    // 1, 3 and 5 sts at 5 an inch.
    expect(choice.numbers[0]?.sizes.map(({ offInches }) => offInches)).toEqual([0.2, 0.6, 1].map((off) => expect.closeTo(off, 9) as number)); // prettier-ignore
  });

  it('tells what it does to measurements and ease: 98 sts less 2 are 19.2 in, twice 38.4', () => {
    const [number] = choice.numbers;
    const found = number ? measuredChanges(body(), number) : [];
    expect(found.map(({ measurement }) => measurement.id)).toEqual(['width', 'around']);
    const around = found[1]?.sizes.map(({ afterInches, bodyInches }) => (afterInches ?? 0) - (bodyInches ?? 0)); // prettier-ignore
    expect(around).toEqual([4.4, 5.2, 6].map((ease) => expect.closeTo(ease, 9) as number)); // prettier-ignore
  });

  it('a count that another number of rows stands for is no measurement of it', () => {
    const other = { ...HEM, places: ['back/end'] };
    const data = body({ numbers: [BACK, { ...other, value: '40 (44, 48)', rule: undefined }] });
    const [hem] = chosen(data, 'hem', 'back − 5 sts').numbers;
    expect(hem && measuredChanges(data, hem)).toEqual([]); // 40 sts are not 38 in round
  });

  it('writes the rule and every value that changes, and leaves how they are written', () => {
    const data = body({ numbers: [{ ...BACK, value: [97, 107, 117] }, HEM] });
    const { edits } = chosen(data, 'back', 'body bust / 2 at body, nearest even');
    expect(edits.map(({ pointer, value }) => [pointer, value])).toEqual([
      ['/numbers/0/rule', 'body bust / 2 at body, nearest even'],
      ['/numbers/0/value', [86, 96, 106]], // 85, 95 and 105: a tie goes up
      ['/numbers/1/value', '81 (91, 101)'],
    ]);
  });

  it('leaves what was typed over its rule, and says so', () => {
    const data = body({ numbers: [BACK, { ...HEM, value: '90 (102, 112)' }] });
    const over = chosen(data, 'back', 'body bust / 2 at body, nearest even');
    expect(counts(over, 'hem')).toEqual([[90, 90], [102, 91], [112, 101]]); // prettier-ignore
    const all = body({ numbers: [BACK, { ...HEM, value: '90 (100, 110)' }] });
    expect(chosen(all, 'back', 'body bust / 2 at body').numbers[1]?.how).toBe('stays');
  });

  it('accepts what the rule gives, without another rule', () => {
    const data = body({ numbers: [{ ...BACK, value: '97 (107, 119)' }] });
    const { edits } = chosen(data, 'back', BACK.rule);
    expect(edits).toEqual([{ pointer: '/numbers/0/value', value: '97 (107, 117)', after: 'rule' }]); // prettier-ignore
    expect(chosen(body(), 'back', BACK.rule).edits).toEqual([]);
  });

  it('an open number stays open; one that loses its rule keeps the counts', () => {
    const { value: _, ...open } = BACK;
    const data = body({ numbers: [open, HEM] });
    expect(chosen(data, 'back', 'body bust / 2 at body, nearest even').edits.map(({ pointer }) => pointer)).toEqual(['/numbers/0/rule', '/numbers/1/value']); // prettier-ignore
    expect(chosen(data, 'back', '').edits.map(({ pointer, value }) => [pointer, value])).toEqual([
      ['/numbers/0/rule', undefined],
      ['/numbers/0/value', '97 (107, 117)'],
    ]);
  });

  it('moves a count so that the demand of another number is kept', () => {
    const yoke = { id: 'yoke', unit: 'sts', rule: 'back, exactly multiple of 4 + 2', value: '98 (106, 118)' }; // prettier-ignore
    const data = body({ numbers: [{ ...BACK, value: '98 (106, 118)', rule: undefined }, yoke] });
    const choice = chosen(data, 'back', '(body bust + 4 in) / 2 at body + 2 sts'); // prettier-ignore
    // 97, 107 and 117 are no multiple of 4 + 2; 98, 106 and 118 are one stitch away.
    expect(counts(choice, 'back')?.map(([, after]) => after)).toEqual([98, 106, 118]);
    expect(choice.moved.map((each) => each.map(({ nearest }) => nearest))).toEqual([[97], [107], [117]]); // prettier-ignore
  });

  it.each([
    ['body bust at bodice', 'name'],
    ['body bust / 2', 'units'],
    ['nearest', 'name'],
    ['body bust at body,', 'text'],
    ['hem + 5 sts', 'circle'],
    ['body bust at body, nearest multiple of 4 (6, 8, 10)', 'units'],
  ])('%s: told, with the place', (rule, kind) => {
    expect(chooseRule(body(), { id: 'back', rule })).toMatchObject({ problem: { kind } });
  });

  it('throws for a number that is not there', () => {
    expect(() => chooseRule(body(), { id: 'sail', rule: '2 sts' })).toThrow(/no number is called/);
  });
});

describe('worked examples in print', () => {
  interface Formula {
    readonly id: string;
    readonly check: Readonly<Record<string, number>>;
  }
  const formulas = JSON.parse(readFileSync('tests/grading/formulas.json', 'utf8')) as Formula[];
  const yoke = formulas.find(({ id }) => id === 'eps_yoke')?.check ?? {};

  it('every share of a body follows it (Zimmermann, Knitting Without Tears, 1971)', () => {
    const share = (id: string, rule: string, value: number) => ({ id, unit: 'sts', rule, value });
    // 40 in at 5 sts an inch are 200; before that the body stood at 180.
    const data = dataWith({
      sizes: ['40'],
      body: [{ part: 'bust', size: { in: 36 } }],
      measurements: [],
      numbers: [
        { id: 'k', unit: 'sts', value: 180 },
        share('sleeve', '33% of k', 59),
        share('underarm', '8% of k', 14),
        share('yoke', 'k + 2 × sleeve − 4 × underarm', 242),
        share('neck', '40% of k', 72),
      ],
    });
    const choice = chosen(data, 'k', '(body bust + 4 in) at body');
    expect(choice.numbers.map(({ data: { id }, sizes }) => [id, sizes[0]?.after])).toEqual([
      ['k', yoke['K']],
      ['sleeve', yoke['upper_sleeve']],
      ['underarm', yoke['underarm']],
      ['yoke', yoke['yoke_start']],
      ['neck', yoke['neck']],
    ]);
  });

  it.each([
    ['nearest', 61],
    ['up to a', 65],
  ])('62 sts under a beading of 4 + 1: %s gives %i (American Thread Co., Star Book 220)', (way, count) => {
    const data = dataWith({ sizes: ['one'], body: [], measurements: [], numbers: [{ id: 'neck', unit: 'sts', value: 62 }] }); // prettier-ignore
    const choice = chosen(data, 'neck', `62 sts, ${way} multiple of 4 + 1`);
    expect(choice.numbers[0]?.sizes[0]?.after).toBe(count);
  }); // prettier-ignore
});

describe('a multiple of its own for each size', () => {
  it('34, 38, 42 in are 170, 190, 210 sts: of 12, of 10, of 12 + 6', () => {
    const data = dataWith({ numbers: [{ id: 'it', unit: 'sts', rule: 'body bust at body, nearest multiple of 12 (10, 12) + 0 (0, 6)' }] }); // prettier-ignore
    expect(resolveNumbers(data).numbers[0]?.derived.map((each) => each?.count)).toEqual([168, 190, 210]); // prettier-ignore
  });
});

// ---------------------------------------------------------------- motifs

const CABLE = { id: 'cable', name: 'cable', multiple: 12, plus: 0, form: 'round', lines: [] };
const CABLED = { ...PLAIN.gauges[0], id: 'cabled', pattern: 'cable' };
const round = (more: object = {}, pattern: object = {}) =>
  dataWith({
    body: [{ part: 'bust', size: { in: '36 (40, 44)' } }],
    gauges: [PLAIN.gauges[0], CABLED],
    stitchPatterns: [{ ...CABLE, ...pattern }],
    numbers: [{ id: 'it', unit: 'sts', rule: 'body bust at cabled, nearest even', value: '180 (200, 220)', ...more }], // prettier-ignore
  });
const half = () =>
  dataWith({
    ...body(),
    gauges: [PLAIN.gauges[0], CABLED],
    stitchPatterns: [{ ...CABLE, form: 'flat' }],
    numbers: [{ ...BACK, rule: '(body bust + 4 in) / 2 at cabled + 2 sts, nearest odd' }],
  });

const ruleFor = (data: BundleData, id: string, ways: readonly WrittenWay[], size = {}) => {
  const motif = motifNumber(data, id);
  return motif && motifRule(data, motif, ways, size);
};
const all = (way: WrittenWay): WrittenWay[] => [way, way, way];

describe('a motif, chosen', () => {
  it('whole repeats: 15, 17 and 18 of 12 stitches', () => {
    const rule = ruleFor(round(), 'it', all('whole repeats'));
    expect(rule?.text).toBe('body bust at cabled, nearest multiple of cable');
    const choice = chosen(round(), 'it', rule?.text ?? '');
    expect(counts(choice, 'it')?.map(([, after]) => after)).toEqual([180, 204, 216]);
  });

  it('each size in its own way', () => {
    const ways: WrittenWay[] = ['whole repeats', 'side panels', 'centred front and back'];
    const rule = ruleFor(round(), 'it', ways);
    // 200 is 16 repeats of 12 and two panels of 4; 220 is nearest 18 repeats, 216.
    expect(rule?.text).toBe('body bust at cabled, nearest multiple of 12 (24, 24) + 0 (8, 0)');
    expect(rule?.fitted.map(({ panel }) => panel)).toEqual([0, 4, 0]);
    const choice = chosen(round(), 'it', rule?.text ?? '');
    expect(counts(choice, 'it')?.map(([, after]) => after)).toEqual([180, 200, 216]);
  });

  it('another repeat and balancing stitches', () => {
    const rule = ruleFor(round(), 'it', all('whole repeats'), { stitches: [10, 10, 11], plus: [1] }); // prettier-ignore
    expect(rule?.text).toBe('body bust at cabled, nearest multiple of 10 (10, 11) + 1');
    // 179 / 10 → 18, 181; 199 / 10 → 20, 201; 219 / 11 → 20, 221.
    const choice = chosen(round(), 'it', rule?.text ?? '');
    expect(counts(choice, 'it')?.map(([, after]) => after)).toEqual([181, 201, 221]);
  });

  it('half motifs in the side seams: a half is 15, 18 and 19 half motifs and two seam stitches', () => {
    // 38, 42, 46 in round are 190, 210, 230 sts: 16, 18 (17.5 goes up) and 19 repeats.
    const rule = ruleFor(half(), 'back', all('across the side seams'));
    expect(rule?.text).toBe('(body bust + 4 in) / 2 at cabled + 2 sts, nearest multiple of 6 + 2');
    expect(rule?.fitted.map(({ repeats, cut }) => [repeats, cut])).toEqual([[16, 0], [18, 0], [19, 6]]); // prettier-ignore
    const choice = chosen(half(), 'back', rule?.text ?? '');
    expect(counts(choice, 'back')?.map(([, after]) => after)).toEqual([98, 110, 116]);
  });

  it('another repeat that comes out nearer: of 10 stitches in 180, 200 and 220', () => {
    const motif = motifNumber(round(), 'it');
    // Of 12, 204 and 216 are 4 sts off, 0.8 in; no other width within 4 stitches is as good as 10.
    expect(motif && otherRepeats(motif)[0]).toEqual({ stitches: 10, worstInches: 0 });
  });

  it('knows the way that stands', () => {
    const data = round({ value: '180 (200, 204)' });
    const motif = motifNumber(data, 'it');
    expect(motif && standingWays(data, motif)).toEqual(['whole repeats', 'side panels', undefined]); // prettier-ignore
  });

  it('the rule gives the counts of the drawing, for any motif, in every way', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 24, max: 70 }), { minLength: 3, maxLength: 3 }),
        fc.integer({ min: 2, max: 24 }),
        fc.integer({ min: 0, max: 5 }),
        fc.constantFrom('round' as const, 'flat' as const),
        (inches, multiple, plus, form) => {
          const made = form === 'flat' ? half() : round();
          const data: BundleData = {
            ...made,
            body: [{ part: 'bust', size: { in: inches } }],
            stitchPatterns: made.stitchPatterns.map((each) => ({ ...each, multiple, plus })),
          };
          const id = data.numbers?.[0]?.id ?? '';
          const motif = motifNumber(data, id);
          expect(motif?.parts).toBe(form === 'flat' ? 2 : 1);
          for (const { way, sizes } of motif ? motifFits(motif) : []) {
            if (way === 'another gauge' || !motif) continue;
            const rule = motifRule(data, motif, all(way));
            const choice = chosen(data, id, rule?.text ?? '');
            expect(
              counts(choice, id)?.map(([, after]) => after),
              `${way}: ${rule?.text}`,
            ).toEqual(
              sizes.map(({ stitches }, at) => stitches / motif.parts + (motif.edges[at] ?? 0)),
            );
          }
        },
      ),
      { numRuns: 80 },
    );
  });

  it('names only ways that change a count', () => {
    const motif = motifNumber(round(), 'it');
    expect(motif && motifFits(motif).every(({ way }) => WRITTEN_WAYS.includes(way as WrittenWay))).toBe(true); // prettier-ignore
  });
});

// ---------------------------------------------------------------- fields

const STARTERS = path.resolve('templates/starters');
const starters = readdirSync(STARTERS, { withFileTypes: true }).flatMap((each) => {
  if (!each.isDirectory() || each.name === 'render') return [];
  const text = readFileSync(path.join(STARTERS, each.name, 'pattern.json'), 'utf8');
  return [{ name: each.name, text, data: bundleSchema.parse(JSON.parse(text)) }];
});

describe('a rule as fields', () => {
  it.each(starters)('$name: every rule comes back as it was written', ({ data }) => {
    const ids = (data.numbers ?? []).map(({ id }) => id);
    for (const { rule = '' } of data.numbers ?? [])
      expect(ruleOfFields(fieldsOfRule(rule, ids))).toBe(rule);
  });

  it.each(starters)('$name: the rules it has change nothing', ({ data }) => {
    for (const { id, rule } of data.numbers ?? [])
      if (rule !== undefined) expect(chosen(data, id, rule).edits).toEqual([]);
  });

  it.each([
    ['(body bust + 4 in) / 2 at body + 2 sts, nearest odd', { kind: 'length', of: 'body bust', ease: '4 in', part: '1/2', gauge: 'body', more: '2 sts', rounding: 'nearest', step: 'odd' }],
    ['40% of k, down to a multiple of 4 + 2', { kind: 'share', number: 'k', share: '40%', step: 'multiple', multiple: '4', plus: '2' }],
    ['k − 5 sts, up to a multiple of rib, within ½ in', { kind: 'share', number: 'k', share: '', more: '−5 sts', step: 'pattern', pattern: 'rib', within: '½ in' }],
    ['bust at body, nearest multiple of 12 (10, 12) + 1 (2, 1)', { kind: 'length', of: 'bust', step: 'multiple', multiple: '12 (10, 12)', plus: '1 (2, 1)' }],
    ['bust / 3, nearest ¼ in', { kind: 'sum', sum: 'bust / 3', step: 'length', size: '¼ in' }],
    ['k + k', { kind: 'sum', sum: 'k + k', rounding: '' }],
  ])('%s', (rule, fields) => {
    const read = fieldsOfRule(rule, ['k']);
    expect(read).toMatchObject(fields);
    expect(ruleOfFields(read)).toBe(rule);
  }); // prettier-ignore

  it('takes what people type: other minus signs, spaces, a share of one', () => {
    const read = fieldsOfRule('', []);
    expect(ruleOfFields({ ...read, kind: 'share', number: ' k ', share: '1', more: '- 5 sts' })).toBe('k − 5 sts'); // prettier-ignore
    expect(ruleOfFields({ ...read, kind: 'length', of: 'bust', gauge: 'body', ease: '+ 2 cm', rounding: 'up', step: 'multiple', multiple: '4', plus: '0' })).toBe('(bust + 2 cm) at body, up to a multiple of 4'); // prettier-ignore
    expect(ruleOfFields(read)).toBe('');
  });
});

describe('a key is taken out of the file', () => {
  it.each([
    ['{\n  "a": 1,\n  "b": 2,\n  "c": 3\n}', '/b', '{\n  "a": 1,\n  "c": 3\n}'],
    ['{ "b": "x, y", "c": 3 }', '/b', '{ "c": 3 }'],
    ['{ "a": 1, "b": 2 }', '/b', '{ "a": 1 }'],
    ['{"b":2}', '/b', '{}'],
    ['{"b":2}', '/q', '{"b":2}'],
  ])('%s without %s', (text, pointer, after) => {
    expect(changeJson(text, [{ pointer, value: undefined }])).toBe(after);
  });

  it('goes while its neighbour comes', () => {
    const changes = [{ pointer: '/b', value: undefined }, { pointer: '/c', value: 3, after: 'b' }]; // prettier-ignore
    expect(changeJson('{ "a": 1, "b": 2 }', changes)).toBe('{ "a": 1, "c": 3 }');
  });

  it.each(starters)('$name: a rule goes and nothing else', ({ text, data }) => {
    const at = (data.numbers ?? []).findIndex(({ rule }) => rule !== undefined);
    if (at < 0) return;
    const pointer = `/numbers/${at}/rule`;
    const after = JSON.parse(changeJson(text, [{ pointer, value: undefined }])) as BundleData;
    const before = JSON.parse(text) as BundleData;
    const numbers = before.numbers?.map((each, index) => (index === at ? { ...each, rule: undefined } : each)); // prettier-ignore
    expect(after).toEqual(JSON.parse(JSON.stringify({ ...before, numbers })));
  });
});
