/**
 * Two numbers of a row that are alike in every size but one: "k9 (6, 11), … k9 (7, 11)". Also compared
 * is what "k to end" works at the end of a row, which no one writes and everyone takes to be the other
 * half. Needs four sizes, because with fewer nothing can be called odd.
 */
import type { Action } from '../notation/ast.ts';
import { flowOf } from '../needle/flow.ts';
import type { Env } from '../needle/env.ts';
import type { LineLook, LineRemark } from './line-checks.ts';
import type { Span } from '../../base/span.ts';

const FEWEST_SIZES = 4;

interface List {
  readonly said: string;
  readonly span: Span;
  readonly values: readonly (number | null)[];
}

export function oddSizes(look: LineLook): readonly LineRemark[] {
  const { line, sizes, only } = look;
  if ((only?.length ?? sizes) < FEWEST_SIZES) return [];
  return line.sentences.flatMap((sentence) => {
    if (sentence.kind !== 'actions') return [];
    const lists = [...listsIn(look, sentence.actions), ...remainder(look, sentence.actions)];
    return lists.flatMap((one, at) =>
      lists.slice(at + 1).flatMap((other) => compare(look, one, other)),
    );
  });
}

function compare(look: LineLook, one: List, other: List): readonly LineRemark[] {
  const both = one.values.flatMap((value, size) =>
    value === null || other.values[size] === null || other.values[size] === undefined ? [] : [size],
  );
  const odd = both.filter((size) => one.values[size] !== other.values[size]);
  const alike = both.length - odd.length;
  if (both.length < FEWEST_SIZES || odd.length !== 1 || alike < FEWEST_SIZES - 1) return [];
  // Where all sizes have one number, nothing speaks for the two lists belonging together.
  const different = new Set(both.map((size) => one.values[size]));
  if (different.size < 3) return [];
  return [
    {
      kind: 'odd',
      span: one.span,
      one: one.said,
      other: other.said,
      ones: one.values,
      others: other.values,
      affected: odd,
    },
  ];
}

/** Numbers by size of one row, at its own level and in its repeats. */
function listsIn(look: LineLook, actions: readonly Action[]): readonly List[] {
  return actions.flatMap((action): readonly List[] => {
    switch (action.kind) {
      case 'work':
        return listOf(look, action.times, action.span);
      case 'castOn':
      case 'pickUp':
      case 'hold':
      case 'bindOff':
        return action.count === 'all' ? [] : listOf(look, action.count, action.span);
      case 'repeat':
      case 'group':
        return listsIn(look, action.actions);
      default:
        return [];
    }
  });
}

function listOf(
  look: LineLook,
  sized: Parameters<LineLook['read']>[0],
  span: Span,
): readonly List[] {
  if (sized.values.length < FEWEST_SIZES) return [];
  const values = Array.from({ length: look.sizes }, (_, size) => look.read(sized, size));
  return [{ said: `“${look.line.text.slice(span.start, span.end)}”`, span, values }];
}

/** What the last "to end" of a row works in each size. */
function remainder(look: LineLook, actions: readonly Action[]): readonly List[] {
  const last = actions.at(-1);
  if (last?.kind !== 'workTo' || last.goal.kind !== 'end') return [];
  const before = actions.slice(0, -1).filter((action) => action.kind !== 'marker');
  const values = Array.from({ length: look.sizes }, (_, size): number | null => {
    const start = look.before(size);
    const takes = sumTakes(look, before, size);
    return start === undefined || takes === undefined ? null : start - takes;
  });
  if (values.every((value) => value === null)) return [];
  const { span } = last;
  return [{ said: `“${look.line.text.slice(span.start, span.end)}”`, span, values }];
}

function sumTakes(look: LineLook, actions: readonly Action[], size: number): number | undefined {
  const read = look.reader(size);
  let sum = 0;
  for (const action of actions) {
    const takes = takesOf(look, action, size, read);
    if (takes === undefined) return undefined;
    sum += takes;
  }
  return sum;
}

function takesOf(
  look: LineLook,
  action: Action,
  size: number,
  read: ReturnType<LineLook['reader']>,
): number | undefined {
  if (action.kind === 'chart') return action.over ? (read(action.over) ?? undefined) : undefined;
  if (action.kind === 'hold') {
    return action.count === 'all' ? undefined : (read(action.count) ?? undefined);
  }
  const books = { stitch: (name: string) => look.stitch(name) } as Env;
  return flowOf(action, read, books)?.takes;
}
