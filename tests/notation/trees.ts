/**
 * Random trees of notation for properties: every form of the tree that canonical notation can write.
 * Sizes are the four of `SIZES`; sized numbers have one value or four.
 */
import fc from 'fast-check';
import type {
  Action,
  Extent,
  Goal,
  Line,
  Rate,
  RowLabel,
  RowRange,
  Sentence,
  Stated,
} from '../../src/pattern/notation/ast.ts';
import type { Sized } from '../../src/pattern/bundle/size-list.ts';
import { STITCH_NAMES, usualCables } from '../../src/pattern/stitches/index.ts';

export const SIZES = ['S', 'M', 'L', 'XL'];
const span = { start: 0, end: 0 };

const optional = <T, K extends string>(
  key: K,
  value: fc.Arbitrary<T>,
): fc.Arbitrary<{ [P in K]?: T }> =>
  fc
    .option(value, { nil: undefined })
    .map((found) => (found === undefined ? {} : { [key]: found }) as { [P in K]?: T });

const count = (min: number, max: number): fc.Arbitrary<Sized> =>
  fc
    .oneof(
      {
        weight: 3,
        arbitrary: fc.integer({ min, max }).map((value) => [value] as (number | null)[]),
      },
      {
        weight: 1,
        arbitrary: fc.array(fc.option(fc.integer({ min, max }), { freq: 8 }), {
          minLength: 4,
          maxLength: 4,
        }),
      },
    )
    .map((values) => ({ values, spans: [] }));
const one = (min: number, max: number): fc.Arbitrary<Sized> =>
  fc.integer({ min, max }).map((value) => ({ values: [value], spans: [] }));
const sized = count(0, 240);
const times = count(0, 30);
const ONE: Sized = { values: [1], spans: [] };

/** `inc` and `dec` with sized lists have phrases of their own; `dec` is rarely written as a stitch. */
const stitch = fc.constantFrom(
  ...STITCH_NAMES.filter((name) => name !== 'dec'),
  ...usualCables().map(({ name }) => name),
  'k7tog',
  'p2sso',
  'p6tog tbl',
  'k wrapping 3',
  'wrap 4',
);
const markerName = fc.constantFrom('A', 'B', 'BOR', 'raglan', 'side', 'thumb gusset');
const holder = fc.constantFrom('holder', 'waste yarn', 'left front holder', 'spare needle yarn');
const yarn = fc.constantFrom('MC', 'CC', 'CC2', 'sand');
const fabric = fc.constantFrom(
  'stockinette',
  'garter',
  'rib',
  'rib-2x2',
  'seed',
  'twisted-rib',
  'as-they-face',
  'shell lace',
);

const goal: fc.Arbitrary<Goal> = fc.oneof(
  fc.constant<Goal>({ kind: 'end', span }),
  sized.map((found): Goal => ({ kind: 'last', count: found, span })),
  fc
    .tuple(count(0, 9), optional('marker', markerName))
    .map(([before, name]): Goal => ({ kind: 'marker', before, ...name, span })),
  count(0, 9).map((before): Goal => ({ kind: 'gap', before, span })),
  fc
    .tuple(count(1, 9), optional('marker', markerName))
    .map(([found, name]): Goal => ({ kind: 'past', count: found, of: 'marker', ...name, span })),
  count(1, 9).map((found): Goal => ({ kind: 'past', count: found, of: 'gap', span })),
  count(1, 90).map((found): Goal => ({ kind: 'remaining', count: found, span })),
);

const place = fc.oneof(
  fc
    .constantFrom(
      'each end',
      'beginning',
      'end',
      'neck edge',
      'armhole edge',
      'front edge',
      'side edge',
    )
    .map((found) => ({ place: found }) as const),
  fc
    .tuple(
      fc.constantFrom('each marker', 'each side of marker'),
      optional('marker', fc.constantFrom('raglan', 'side')),
    )
    .map(([found, name]) => ({ place: found, ...name }) as const),
);

const workedIn = optional('fabric', fc.oneof(fabric, fc.constantFrom('k', 'p')));

const simple: fc.Arbitrary<Action> = fc.oneof(
  {
    weight: 6,
    arbitrary: fc
      .tuple(stitch, times)
      .map(([name, found]): Action => ({ kind: 'work', stitch: name, times: found, span })),
  },
  {
    weight: 2,
    arbitrary: fc
      .tuple(stitch, goal)
      .map(([name, found]): Action => ({ kind: 'workTo', stitch: name, goal: found, span })),
  },
  fc
    .tuple(fabric, sized)
    .map(([found, n]): Action => ({ kind: 'work', stitch: 'work', times: n, fabric: found, span })),
  fc.tuple(fabric, goal).map(([found, where]): Action => ({
    kind: 'workTo',
    stitch: 'work',
    goal: where,
    fabric: found,
    span,
  })),
  fc
    .tuple(fc.constantFrom('place', 'slip', 'remove'), optional('name', markerName))
    .map(([act, name]): Action => ({ kind: 'marker', act, ...name, span })),
  fc
    .tuple(
      fc.oneof(count(1, 40), fc.constant('all' as const)),
      fc.constantFrom('plain', 'in pattern', 'knitwise', 'purlwise'),
      fc.constantFrom('in next', 'apart'),
      optional('method', fc.constantFrom('loosely', 'stretchy')),
    )
    .map(([found, manner, lastStitch, method]): Action => ({
      kind: 'bindOff',
      count: found,
      manner,
      lastStitch,
      ...method,
      span,
    })),
  fc
    .tuple(sized, optional('method', fc.constantFrom('backward loop', 'cable')))
    .map(([found, method]): Action => ({ kind: 'castOn', count: found, ...method, span })),
  fc
    .tuple(
      sized,
      fc.constantFrom('k', 'p'),
      optional('from', fc.constantFrom('left front edge', 'heel flap')),
      optional(
        'rate',
        fc.tuple(one(2, 5), one(3, 7)).map(([stitches, rows]) => ({ stitches, rows })),
      ),
    )
    .map(([found, hand, from, rate]): Action => ({
      kind: 'pickUp',
      count: found,
      stitch: hand,
      ...from,
      ...rate,
      span,
    })),
  fc
    .tuple(fc.oneof(sized, fc.constant('all' as const)), holder)
    .map(([found, name]): Action => ({ kind: 'hold', count: found, holder: name, span })),
  fc
    .tuple(holder, optional('count', sized))
    .map(([name, found]): Action => ({ kind: 'resume', holder: name, ...found, span })),
  fc
    .tuple(fc.constantFrom('none', 'wrap', 'german'), optional('leaving', sized))
    .map(([wrap, leaving]): Action => ({ kind: 'turn', wrap, ...leaving, span })),
  fc.constant<Action>({ kind: 'slide', span }),
  fc
    .tuple(
      fc.constantFrom('A', 'B2', 'cable-panel'),
      optional('row', one(1, 40)),
      optional('over', sized),
      optional('times', times),
      optional(
        'goal',
        goal.filter(({ kind }) => kind !== 'remaining'),
      ),
    )
    .map(([chart, row, over, often, where]): Action => ({
      kind: 'chart',
      chart,
      ...row,
      ...over,
      ...often,
      ...where,
      span,
    })),
  fc
    .tuple(fc.constantFrom('increase', 'decrease'), sized, optional('over', sized), workedIn)
    .map(([act, found, over, rest]): Action => ({
      kind: 'evenly',
      act,
      count: found,
      ...over,
      ...rest,
      span,
    })),
  fc
    .tuple(fc.constantFrom('increase', 'decrease'), sized, place, workedIn)
    .map(([act, found, where, rest]): Action => ({
      kind: 'change',
      act,
      count: found,
      ...where,
      ...rest,
      span,
    })),
  yarn.map((found): Action => ({ kind: 'yarn', yarn: found, span })),
  fc
    .constantFrom('join', 'break')
    .map((act): Action => ({ kind: 'yarn', yarn: 'second ball of yarn', act, span })),
);

/** One action of a choice by size: plain stitches, as real endings have. */
const choice = fc.array(
  fc
    .tuple(stitch, one(0, 9))
    .map(([name, found]): Action => ({ kind: 'work', stitch: name, times: found, span })),
  { maxLength: 3 },
);

export const { actions } = fc.letrec<{ action: Action; actions: Action[] }>((tie) => ({
  actions: fc.array(tie('action'), { minLength: 1, maxLength: 4 }),
  action: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    simple,
    fc.tuple(tie('actions'), times).map(([inner, often]): Action => group(inner, often)),
    fc
      .tuple(
        tie('actions'),
        goal,
        optional('endingWith', fc.array(simple, { minLength: 1, maxLength: 3 })),
      )
      .map(([inner, where, ending]): Action => ({
        kind: 'repeat',
        actions: inner,
        until: { kind: 'goal', goal: where },
        ...ending,
        span,
      })),
    fc
      .tuple(tie('actions'), fc.constantFrom('more', 'total'), times)
      .map(([inner, kind, often]): Action => ({
        kind: 'repeat',
        actions: inner,
        until: { kind, times: often },
        span,
      })),
    fc
      .tuple(tie('actions'), count(1, 20), optional('together', count(2, 5)))
      .map(([inner, often, together]): Action => ({
        kind: 'into',
        actions: inner,
        times: often,
        ...together,
        span,
      })),
    fc
      .array(choice, { minLength: 4, maxLength: 4 })
      .map((alternatives): Action => ({ kind: 'bySize', alternatives, span })),
  ),
}));

/** `[k2] 3 times` with one stitch is written `k2 3 times` by nobody: the bracket stays. */
function group(inner: Action[], often: Sized): Action {
  return { kind: 'group', actions: inner, times: often, span };
}

const range: fc.Arbitrary<RowRange> = fc
  .tuple(one(1, 40), fc.option(one(41, 90), { nil: undefined }))
  .map(([from, to]) => ({ from, to: to ?? from }));
const ranges = fc.array(range, { minLength: 1, maxLength: 3 });
const unit = fc.constantFrom('row', 'round');
const side = fc.constantFrom('RS', 'WS');
const role = fc.constantFrom(
  'set-up',
  'increase',
  'decrease',
  'short',
  'joining',
  'eyelet',
  'dividing',
  'buttonhole',
  'ridge',
);

const label: fc.Arbitrary<RowLabel> = fc.oneof(
  fc
    .tuple(
      unit,
      ranges,
      optional('side', side),
      optional('andAll', fc.constantFrom('WS', 'RS', 'even', 'odd', 'following')),
    )
    .map(([each, rows, facing, all]): RowLabel => ({
      kind: 'numbered',
      unit: each,
      ranges: rows,
      ...facing,
      ...all,
      span,
    })),
  fc
    .tuple(
      unit,
      count(1, 12),
      optional('side', side),
      optional('role', role),
      one(1, 9),
      fc.boolean(),
    )
    .map(([each, found, facing, named, number, numbered]): RowLabel => ({
      kind: 'next',
      unit: each,
      count: found,
      ...facing,
      ...named,
      ...(named.role && numbered && { number }),
      span,
    })),
);

const length = fc
  .tuple(count(1, 30), count(2, 80), fc.integer({ min: 0, max: 7 }))
  .map(([inches, centimetres, eighths]) => ({
    inches: {
      values: inches.values.map((value) => (value === null ? null : value + eighths / 8)),
      spans: [],
    },
    centimetres: {
      values: centimetres.values.map((value) => (value === null ? null : value + 0.5)),
      spans: [],
    },
    span,
  }));

const untilLength: fc.Arbitrary<Extent> = fc
  .tuple(
    length,
    fc.constantFrom('cast-on', 'here', 'underarm', 'divide', 'marker', 'pick-up'),
    fc.oneof(
      fc.constant({}),
      side.map((ending) => ({ ending })),
      one(1, 20).map((endingRow) => ({ endingRow })),
    ),
  )
  .map(([found, from, ending]) => ({ kind: 'length', length: found, from, ...ending }));
const untilCount: fc.Arbitrary<Extent> = fc
  .tuple(sized, optional('ending', side))
  .map(([found, ending]) => ({ kind: 'count', count: found, ...ending }));
const forRows: fc.Arbitrary<Extent> = count(1, 60).map((found) => ({ kind: 'rows', count: found }));
const often: fc.Arbitrary<Extent> = fc
  .tuple(fc.constantFrom('more', 'total'), times, optional('ending', side))
  .map(([kind, found, ending]) => ({ kind, times: found, ...ending }));

const rate: fc.Arbitrary<Rate> = fc.oneof(
  fc
    .tuple(count(1, 40), times)
    .map(([every, found]): Rate => ({ kind: 'rows', every, times: found })),
  fc.tuple(side, times).map(([facing, found]): Rate => ({
    kind: 'rows',
    every: { values: [2], spans: [] },
    side: facing,
    times: found,
  })),
  fc.tuple(length, times).map(([every, found]): Rate => ({ kind: 'length', every, times: found })),
);
const lastRate = fc
  .tuple(count(3, 20), fc.oneof(untilCount, untilLength))
  .map(([every, until]) => ({ rate: { kind: 'rows', every } as Rate, until }));

const schedule = fc.tuple(
  fc.constantFrom('increase', 'decrease', 'bindOff', 'repeat'), count(1, 6), place, optional('row', role), fc.boolean(),
  fc.array(rate, { minLength: 1, maxLength: 3 }), fc.option(lastRate, { nil: undefined }), workedIn, fc.boolean(),
).map(([act, found, where, row, startsNow, rates, last, rest, rounds]): Sentence => ({
  kind: 'shape',
  schedule: {
    act, startsNow, span,
    ...(act === 'repeat' ? { count: { values: [0], spans: [] }, place: 'each end' as const, ...row } : { count: found, ...where }),
    rates: last ? [...rates, last.rate] : rates,
    ...(last && { until: last.until }),
    ...((act === 'increase' || act === 'decrease') && rest),
    ...(rounds && (startsNow || last || rates.some(({ kind }) => kind === 'rows')) && { unit: 'round' as const }),
  },
  span,
})); // prettier-ignore

const repeatRows = fc
  .tuple(
    unit,
    fc.oneof(
      ranges.map((found) => ({ ranges: found })),
      count(1, 8).map((last) => ({ last })),
      role.map((found) => ({ role: found })),
    ),
    optional('of', fc.constantFrom('chart A', 'seed', 'shell lace')),
    fc.oneof(often, untilLength, untilCount, forRows, fc.constant<Extent>({ kind: 'once' })),
    optional(
      'instead',
      fc.array(
        fc.tuple(plain(), plain()).map(([old, now]) => ({ old, now })),
        { minLength: 1, maxLength: 2 },
      ),
    ),
    optional(
      'changing',
      fc.tuple(count(1, 3), fc.constantFrom('fewer', 'more')).map(([by, way]) => ({ by, way })),
    ),
  )
  .map(([each, rows, of, extent, instead, changing]): Sentence => ({
    kind: 'repeatRows',
    unit: each,
    rows,
    ...of,
    ...instead,
    ...changing,
    extent,
    span,
  }));

function plain(): fc.Arbitrary<Action[]> {
  return fc.array(
    fc
      .tuple(fc.constantFrom('k', 'p', 'k2tog', 'yo', 'ssk'), one(1, 9))
      .map(([name, found]): Action => ({ kind: 'work', stitch: name, times: found, span })),
    { minLength: 1, maxLength: 2 },
  );
}

const workEven: fc.Arbitrary<Sentence> = fc.oneof(
  fc
    .tuple(
      unit,
      optional('fabric', fc.oneof(fabric, fc.constantFrom('k', 'p', 'chart A'))),
      forRows,
    )
    .map(([each, found, extent]): Sentence => ({
      kind: 'workEven',
      unit: each,
      ...found,
      extent,
      span,
    })),
  fc
    .tuple(
      optional('fabric', fabric),
      fc.oneof(untilLength, untilCount, fc.constant<Extent>({ kind: 'once' })),
      optional(
        'beginning',
        fc.oneof(
          fc.constantFrom('k', 'p').map((found) => ({ stitch: found })),
          side.map((found) => ({ side: found })),
          one(1, 30).map((found) => ({ row: found })),
        ),
      ),
    )
    .map(([found, extent, beginning]): Sentence => ({
      kind: 'workEven',
      unit: 'row',
      ...found,
      ...beginning,
      extent,
      span,
    })),
);

const edgeRows = fc
  .tuple(
    fc.constantFrom('bindOff', 'castOn'),
    sized,
    fc.constantFrom('beginning', 'end'),
    count(1, 20),
  )
  .map(([act, found, at, rows]): Sentence => ({
    kind: 'edgeRows',
    act,
    count: found,
    at,
    rows,
    span,
  }));

/** Sentences that stand anywhere. */
const overRows = fc.oneof(schedule, repeatRows, workEven, edgeRows);

const steps = fc.tuple(count(2, 9), fc.array(overRows, { maxLength: 2 }), often).map(([found, others, extent]): Sentence => ({
  kind: 'steps', sentences: [{ kind: 'workEven', unit: 'row', extent: { kind: 'rows', count: found }, span }, ...others], extent, span,
})); // prettier-ignore

const atTheSameTime = fc
  .tuple(
    optional(
      'start',
      fc.oneof(untilCount, forRows, untilLength).map((extent): Extent => {
        const { ending: _ending, endingRow: _endingRow, ...start } = extent;
        return start;
      }),
    ),
    fc.array(overRows, { minLength: 1, maxLength: 3 }),
  )
  .map(([start, sentences]): Sentence => ({ kind: 'atTheSameTime', ...start, sentences, span }));

const fixed: fc.Arbitrary<Sentence> = fc.oneof(
  fc
    .tuple(
      sized,
      optional('method', fc.constantFrom('long-tail', 'loosely', 'tubular')),
      optional('yarn', yarn),
      optional('needle', fc.constantFrom('smaller', 'larger', 'US 7')),
    )
    .map(([found, method, thread, needle]): Sentence => ({
      kind: 'castOn',
      count: found,
      ...method,
      ...thread,
      ...needle,
      span,
    })),
  fc.boolean().map((placeMarker): Sentence => ({ kind: 'join', form: 'round', placeMarker, span })),
  fc.constant<Sentence>({ kind: 'join', form: 'flat', placeMarker: false, span }),
  fc
    .tuple(fc.oneof(sized, fc.constant('all' as const)), holder)
    .map(([found, name]): Sentence => ({ kind: 'hold', count: found, holder: name, span })),
  fc
    .tuple(
      fc.array(fc.constantFrom('left front', 'back', 'sleeve'), { minLength: 1, maxLength: 3 }),
      optional('count', sized),
    )
    .map(([holders, found]): Sentence => ({ kind: 'resume', holders, ...found, span })),
  fc
    .constantFrom('larger', 'smaller', 'double-pointed')
    .map((needle): Sentence => ({ kind: 'needle', needle, span })),
  fc
    .tuple(
      fc.constantFrom('join', 'break', 'change'),
      optional('yarn', yarn),
      optional('facing', side),
    )
    .map(([act, thread, facing]): Sentence => ({ kind: 'yarn', act, ...thread, ...facing, span })),
  optional('count', sized).map((found): Sentence => ({ kind: 'drawThrough', ...found, span })),
  fc
    .tuple(
      fc.constantFrom('plain', 'in pattern', 'knitwise', 'purlwise'),
      optional('method', fc.constantFrom('loosely', 'stretchy')),
    )
    .map(([manner, method]): Sentence => ({ kind: 'bindOffAll', manner, ...method, span })),
  fc
    .tuple(
      fc.constantFrom('three-needle bind-off', 'graft'),
      fc.array(fc.constantFrom('left shoulder', 'back', 'sole'), { minLength: 1, maxLength: 2 }),
      optional('count', sized),
    )
    .map(([method, parts, found]): Sentence => ({
      kind: 'joinStitches',
      method,
      parts,
      ...found,
      span,
    })),
  optional('name', markerName).map((name): Sentence => ({
    kind: 'mark',
    what: 'here',
    ...name,
    span,
  })),
  optional('name', fc.constantFrom('underarm', 'row A')).map((name): Sentence => ({
    kind: 'mark',
    what: 'row',
    ...name,
    span,
  })),
  fc
    .constantFrom('finishing', 'note.blocking')
    .map((key): Sentence => ({ kind: 'prose', key, span })),
);

const stated: fc.Arbitrary<Stated> = fc.oneof(
  sized.map((found): Stated => ({ count: found, span })),
  fc
    .tuple(sized, fc.constantFrom('increased', 'decreased'), optional('total', sized))
    .map(([found, change, total]): Stated => ({ count: found, change, ...total, span })),
  fc
    .tuple(sized, fc.constantFrom('each shoulder', 'for back'))
    .map(([found, part]): Stated => ({ count: found, part, span })),
);

const asRow = fc.tuple(actions, optional('facing', side)).map(([inner, facing]): Sentence => {
  const [only] = inner;
  if (inner.length === 1 && only?.kind === 'bindOff' && only.count === 'all') return { kind: 'bindOffAll', manner: 'plain', span };
  return { kind: 'actions', actions: inner, ...facing, span };
}); // prettier-ignore

/** Lines as canonical notation can write them. Shaping that runs together closes a line. */
export const line: fc.Arbitrary<Line> = fc.tuple(
  fc.option(fc.subarray(SIZES, { minLength: 1, maxLength: 3 }), { nil: undefined }),
  fc.oneof(
    fc.tuple(label, asRow.map((row) => [row])),
    fc.tuple(fc.oneof(fc.constant(undefined), fc.constantFrom('Instep', 'Heel turn', 'Row 1b').map((name): RowLabel => ({ kind: 'named', name, span }))), fc.array(fc.oneof(overRows, fixed, steps), { minLength: 1, maxLength: 3 })),
  ),
  fc.option(atTheSameTime, { nil: undefined, freq: 4 }),
  fc.option(stated, { nil: undefined }),
).map(([only, [named, sentences], last, count_]) => ({
  ...(only && { onlySizes: { sizes: only, span } }),
  ...(named && { label: named }),
  sentences: last ? [...sentences, last] : sentences,
  ...(count_ && { stated: count_ }),
  text: '',
  span,
})); // prettier-ignore

export { ONE };
