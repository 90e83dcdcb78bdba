/** What written notation means: the tree behind the words, and the places of its parts in the text. */
import { describe, expect, test } from 'vitest';
import type { Action, Line, Sentence } from '../../src/pattern/notation/ast.ts';
import { readLine } from '../../src/pattern/notation/index.ts';
import { CATALOGUE, catalogueFor } from '../../src/pattern/stitches/index.ts';
import { withoutPlaces } from './shown.ts';

const options = { sizes: ['S', 'M', 'L'], catalogue: CATALOGUE };

function lineOf(text: string): Line {
  const { line, problems } = readLine(text, options);
  expect(problems, text).toEqual([]);
  if (!line) throw new Error(text);
  return line;
}

const sentenceOf = (text: string): Sentence => {
  const [sentence] = lineOf(text).sentences;
  if (!sentence) throw new Error(text);
  return sentence;
};

const actionsOf = (text: string): readonly Action[] => {
  const sentence = sentenceOf(text);
  if (sentence.kind !== 'actions') throw new Error(`${text}: ${sentence.kind}`);
  return sentence.actions;
};

const n = (...values: (number | null)[]) => ({ values });
const work = (stitch: string, times = 1) => ({ kind: 'work', stitch, times: n(times) });

describe('how often', () => {
  // A bare number after "rep from *" is on top of the first working: the books of 1843 to 1963 that
  // state the count afterwards all count so.
  test.each([
    ['*k2; rep from * 6 times', { kind: 'more', times: n(6) }],
    ['*k2; rep from * 6 more times', { kind: 'more', times: n(6) }],
    ['*k2; rep from * 6 times more', { kind: 'more', times: n(6) }],
    ['*k2; rep from * 6 times in all', { kind: 'total', times: n(6) }],
    ['*k2; rep from * once', { kind: 'more', times: n(1) }],
    ['*k2; rep from * twice more', { kind: 'more', times: n(2) }],
    ['*k2; rep from * to end', { kind: 'goal', goal: { kind: 'end' } }],
    ['*k2; rep from *', { kind: 'goal', goal: { kind: 'end' } }],
    ['*k2; rep from * to last 3 sts', { kind: 'goal', goal: { kind: 'last', count: n(3) } }],
    ['*k2; rep from * to last st', { kind: 'goal', goal: { kind: 'last', count: n(1) } }],
    [
      '*k2; rep from * to within 3 sts of end',
      { kind: 'goal', goal: { kind: 'last', count: n(3) } },
    ],
    ['*k2; rep from * to m', { kind: 'goal', goal: { kind: 'marker', before: n(0) } }],
    ['*k2; rep from * 5 (6, 7) times', { kind: 'more', times: n(5, 6, 7) }],
    ['*k2; rep from * seven times more', { kind: 'more', times: n(7) }],
  ])('%s', (text, until) => {
    expect(withoutPlaces(actionsOf(text))).toEqual([
      { kind: 'repeat', actions: [work('k', 2)], until },
    ]);
  });

  test.each([
    ['[k2] 6 times', 6],
    ['(k2) 6 times', 6],
    ['[k2] twice', 2],
    ['[k2] x 4', 4],
    ['[k2] x4', 4],
    ['*k2* 3 times', 3],
  ])('%s: a bracket counts all', (text, times) => {
    expect(withoutPlaces(actionsOf(text))).toEqual([
      { kind: 'group', actions: [work('k', 2)], times: n(times) },
    ]);
  });
});

describe('stitches and their numbers', () => {
  test.each([
    ['k5', 'k', 5],
    ['K 5', 'k', 5],
    ['knit 5', 'k', 5],
    ['k next 5 sts', 'k', 5],
    ['k1 tbl', 'k tbl', 1],
    ['k3tbl', 'k tbl', 3],
    ['k 2 tog', 'k2tog', 1],
    ['k2 together', 'k2tog', 1],
    ['K2 tog tbl', 'k2tog tbl', 1],
    ['k2tog 3 times', 'k2tog', 3],
    ['knit two together', 'k2tog', 1],
    ['k11tog', 'k11tog', 1],
    ['yo twice', 'yo', 2],
    ['yo 2', 'yo', 2],
    ['yo2', 'yo', 2],
    ['wool forward', 'yo', 1],
    ['m1', 'm1', 1],
    ['M1L twice', 'm1L', 2],
    ['sl1 wyif', 'sl wyif', 1],
    ['sl 2 sts purlwise with yarn in back', 'sl pwise wyib', 2],
    ['k1 in st below', 'k below', 1],
    ['k1 wrapping yarn 3 times', 'k wrapping 3', 1],
    ['inc in each of next 6 sts', 'inc', 6],
    ['kfb in next 2 sts', 'kfb', 2],
    ['k1 in each of next 3 sts', 'k', 3],
    ['p2sso', 'p2sso', 1],
    ['pass 2 sts over', 'p2sso', 1],
    ['2/2 LC', '2/2 LC', 1],
    ['2/1 rpc 3 times', '2/1 RPC', 3],
    ['cross 3 over 3', '3/3 LC', 1],
    ['brk1', 'brk', 1],
    ['sl1yo', 'sl1yo', 1],
  ])('%s', (text, stitch, times) => {
    expect(withoutPlaces(actionsOf(text))).toEqual([work(stitch, times)]);
  });
});

describe('numbers by size', () => {
  test.each([
    ['k8 (9, 10)', [8, 9, 10]],
    ['k8 [9, 10]', [8, 9, 10]],
    ['k8 (9) [10]', [8, 9, 10]],
    ['k0 (–, 10)', [0, null, 10]],
    ['k – (2, 3)', [null, 2, 3]],
  ])('%s', (text, values) => {
    expect(withoutPlaces(actionsOf(text))).toEqual([
      { kind: 'work', stitch: 'k', times: { values } },
    ]);
  });

  test('two lists of sizes in one line', () => {
    const sizes = ['S', 'M', 'L', 'mens S', 'mens M', 'mens L'];
    const { line } = readLine('Cast on 28 (32, 36) 32 (36, 40) sts.', { ...options, sizes });
    expect(withoutPlaces(line?.sentences)).toEqual([
      { kind: 'castOn', count: n(28, 32, 36, 32, 36, 40) },
    ]);
  });

  test('a list for the sizes that a line names is spread over all', () => {
    expect(withoutPlaces(lineOf('Sizes S and L only: k8 (10).').sentences)).toEqual([
      { kind: 'actions', actions: [{ kind: 'work', stitch: 'k', times: n(8, null, 10) }] },
    ]);
  });

  test('each number knows its place', () => {
    const text = 'Row 1: k8 (10, 112), p2.';
    const [action] = actionsOf(text);
    const spans = action?.kind === 'work' ? action.times.spans : [];
    expect(spans.map(({ start, end }) => text.slice(start, end))).toEqual(['8', '10', '112']);
  });
});

describe('places', () => {
  test('every node covers its own words', () => {
    const text =
      'Row 3 (RS): k2, *yo, k2tog; rep from * to last 3 sts, bind off 3 sts. 84 (92, 100) sts.';
    const { label, sentences, stated } = lineOf(text);
    const cut = (span: { start: number; end: number } | undefined) =>
      text.slice(span?.start, span?.end);
    expect(cut(label?.span)).toBe('Row 3 (RS)');
    const [row] = sentences;
    if (row?.kind !== 'actions') throw new Error();
    expect(row.actions.map(({ span }) => cut(span))).toEqual([
      'k2',
      '*yo, k2tog; rep from * to last 3 sts',
      'bind off 3 sts',
    ]);
    expect(cut(stated?.span)).toContain('84 (92, 100) sts');
  });
});

describe('bind-off conventions', () => {
  test.each([
    ['bind off 8 sts, k10', 'in next'],
    ['bind off 8 sts, 1 st on right needle, k10', 'apart'],
    ['bind off 8 sts (1 st rem on RH needle after bind off), k10', 'apart'],
    ['cast off 8 sts, k10', 'in next'],
  ])('%s', (text, lastStitch) => {
    expect(withoutPlaces(actionsOf(text))).toEqual([
      { kind: 'bindOff', count: n(8), manner: 'plain', lastStitch },
      work('k', 10),
    ]);
  });
});

describe('when shaping falls', () => {
  const rates = (text: string) => {
    const sentence = sentenceOf(text);
    if (sentence.kind !== 'shape') throw new Error(sentence.kind);
    const { startsNow, rates: legs, until } = sentence.schedule;
    return withoutPlaces({ startsNow, legs, ...(until && { until }) });
  };
  const rows = (every: number, times?: number) => ({
    kind: 'rows',
    every: n(every),
    ...(times !== undefined && { times: n(times) }),
  });

  test.each([
    ['Dec 1 st each end every 4th row 5 times.', false, [rows(4, 5)]],
    [
      'Dec 1 st each end every 4th row 5 times, then every 6th row 3 times.',
      false,
      [rows(4, 5), rows(6, 3)],
    ],
    ['Dec 1 st each end on next row, then every 4th row 5 times.', true, [rows(4, 5)]],
    ['Dec 1 st each end of this and every 3rd row 14 times more.', true, [rows(3, 14)]],
    ['Dec 1 st each end of next row and every 4th row, 5 times in all.', true, [rows(4, 4)]],
    ['Dec 1 st each end of next 4 rows.', false, [rows(1, 4)]],
    ['Dec 1 st each end of next row.', false, [rows(1, 1)]],
    ['Dec 1 st each end of foll 4 alt rows.', false, [rows(2, 4)]],
    ['Dec 1 st each end of next and foll 4 alt rows.', true, [rows(2, 4)]],
    ['Inc 1 st each end of 5th and every foll 8th row 6 times.', false, [rows(5, 1), rows(8, 6)]],
    ['Dec 1 st at beg of each row, 27 times.', false, [rows(1, 27)]],
    ['Dec 1 st each end every RS row 5 times.', false, [{ ...rows(2, 5), side: 'RS' }]],
  ])('%s', (text, startsNow, legs) => {
    expect(rates(text)).toEqual({ startsNow, legs });
  });

  test('until a count', () => {
    expect(rates('Dec 1 st each end every other row until 24 sts remain.')).toEqual({
      startsNow: false,
      legs: [rows(2)],
      until: { kind: 'count', count: n(24) },
    });
  });

  test('by length', () => {
    expect(rates('Inc 1 st each end every inch 5 times.')).toEqual({
      startsNow: false,
      legs: [{ kind: 'length', every: { inches: n(1) }, times: n(5) }],
    });
  });
});

describe('stated counts', () => {
  test.each([
    ['K to end. 84 (92, 100) sts.', { count: n(84, 92, 100) }],
    ['K to end (49 sts)', { count: n(49) }],
    ['K to end – 49 sts.', { count: n(49) }],
    ['K to end. 20 sts rem.', { count: n(20) }],
    ['K to end. 8 sts increased.', { count: n(8), change: 'increased' }],
    ["K to end (4 sts dec'd).", { count: n(4), change: 'decreased' }],
    ['K to end. 8 sts increased; 96 sts.', { count: n(8), change: 'increased', total: n(96) }],
    ['K to end. 96 sts – 8 sts increased.', { count: n(8), change: 'increased', total: n(96) }],
    ['K to end. 14 sts each shoulder.', { count: n(14), part: 'each shoulder' }],
    ['K to end. – (92, 100) sts.', { count: n(null, 92, 100) }],
  ])('%s', (text, stated) => {
    expect(withoutPlaces(lineOf(text).stated)).toEqual(stated);
  });
});

describe('what a bundle brings', () => {
  test('its own stitches, whatever their names', () => {
    const own = [
      { id: 'wave 6', takes: 6, makes: 6, describe: 'stitch.wave' },
      { id: 'MB', takes: 1, makes: 1, describe: 'stitch.bobble' },
      { id: '3-st nub', takes: 3, makes: 3, describe: 'stitch.nub' },
    ];
    const catalogue = catalogueFor(own);
    const { line, problems } = readLine('k1, wave 6, MB, wave 6 twice, 3-st nub, k2', {
      ...options,
      catalogue,
    });
    expect(problems).toEqual([]);
    const [row] = line?.sentences ?? [];
    expect(row?.kind === 'actions' && withoutPlaces(row.actions)).toEqual([
      work('k', 1), work('wave 6'), work('MB'), work('wave 6', 2), work('3-st nub'), work('k', 2),
    ]); // prettier-ignore
  });

  test('names of charts and stitch patterns stand for their ids', () => {
    const names = {
      charts: new Map([['chart a', 'ropes'], ['a', 'ropes']]),
      fabrics: new Map([['shell lace', 'shell'], ['shell', 'shell']]),
    }; // prettier-ignore
    const read = (text: string) =>
      withoutPlaces(readLine(text, { ...options, names }).line?.sentences);
    expect(read('Work Chart A to last 3 sts, k3.')).toEqual([
      {
        kind: 'actions',
        actions: [
          { kind: 'chart', chart: 'ropes', goal: { kind: 'last', count: n(3) } },
          work('k', 3),
        ],
      },
    ]);
    expect(read('Work in shell lace for 6 rows.')).toEqual([
      { kind: 'workEven', unit: 'row', fabric: 'shell', extent: { kind: 'rows', count: n(6) } },
    ]);
  });
});
