/**
 * Any line of instructions, for properties: trees built from the forms of the notation with sizes and
 * numbers of every kind. They need not be knittable; they must be sayable.
 */
import fc from 'fast-check';
import type { Action, Goal, Line, Sentence } from '../../src/pattern/notation/ast.ts';
import { sizedOf, type Sized } from '../../src/pattern/bundle/size-list.ts';
import { SIZES } from './lines.ts';

const span = { start: 0, end: 0 };

const number = fc.integer({ min: 3, max: 240 });
export const sized: fc.Arbitrary<Sized> = fc.oneof(
  number.map((value) => sizedOf(value)),
  fc
    .array(number, { minLength: SIZES.length, maxLength: SIZES.length })
    .map((values) => sizedOf(...values)),
);

const stitch = fc.constantFrom('k', 'p', 'k tbl', 'k2tog', 'ssk', 'yo', '2/2 LC', '2/1 RPC', 'm1L');
const plain = fc.constantFrom('k', 'p', 'work');

const goal: fc.Arbitrary<Goal> = fc.oneof(
  fc.constant<Goal>({ kind: 'end', span }),
  sized.map((count): Goal => ({ kind: 'last', count, span })),
  sized.map((before): Goal => ({ kind: 'marker', before, span })),
  sized.map((before): Goal => ({ kind: 'gap', before, span })),
  sized.map((count): Goal => ({ kind: 'remaining', count, span })),
  sized.map((count): Goal => ({ kind: 'past', count, of: 'gap', span })),
);

const { action } = fc.letrec<{ action: Action; actions: Action[] }>((tie) => ({
  actions: fc.array(tie('action'), { minLength: 1, maxLength: 3 }),
  action: fc.oneof(
    { maxDepth: 3, withCrossShrink: true },
    fc.record({ kind: fc.constant('work'), stitch, times: sized, span: fc.constant(span) }),
    fc.record({ kind: fc.constant('workTo'), stitch: plain, goal, span: fc.constant(span) }),
    sized.map((count): Action => ({ kind: 'castOn', count, span })),
    sized.map((count): Action => ({
      kind: 'bindOff', count, manner: 'plain', lastStitch: 'in next', span,
    })), // prettier-ignore
    fc.tuple(sized, sized).map(([count, over]): Action => ({
      kind: 'evenly', act: 'decrease', count, over, span,
    })), // prettier-ignore
    fc.tuple(tie('actions'), sized).map(([actions, times]): Action => ({
      kind: 'group', actions, times, span,
    })), // prettier-ignore
    fc.tuple(tie('actions'), goal).map(([actions, stop]): Action => ({
      kind: 'repeat', actions, until: { kind: 'goal', goal: stop }, span,
    })), // prettier-ignore
  ) as fc.Arbitrary<Action>,
}));

const sentence: fc.Arbitrary<Sentence> = fc.oneof(
  fc
    .array(action, { minLength: 1, maxLength: 4 })
    .map((actions): Sentence => ({ kind: 'actions', actions, span })),
  fc.tuple(sized, sized, sized).map(([every, times, count]): Sentence => ({
    kind: 'shape',
    schedule: {
      act: 'decrease', count, place: 'each end', startsNow: false, span,
      rates: [{ kind: 'rows', every, times }],
    },
    span,
  })), // prettier-ignore
  fc.tuple(sized, sized).map(([count, rows]): Sentence => ({
    kind: 'edgeRows', act: 'bindOff', count, at: 'beginning', rows, span,
  })), // prettier-ignore
  sized.map((inches): Sentence => ({
    kind: 'workEven', unit: 'row', fabric: 'stockinette',
    extent: { kind: 'length', length: { inches, span }, from: 'cast-on', ending: 'WS' }, span,
  })), // prettier-ignore
);

export const line: fc.Arbitrary<Line> = fc
  .tuple(fc.array(sentence, { minLength: 1, maxLength: 2 }), sized)
  .map(([sentences, count]) => ({ sentences, stated: { count, span }, text: '', span }));
