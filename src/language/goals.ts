/**
 * Where "to …" stops: the end of the row, a marker, a gap, the last stitches. Takes a goal of the tree,
 * gives the phrase that stands with the verb.
 */
import { assertNever } from '../base/assert.ts';
import { isAll, type Sized } from '../pattern/bundle/size-list.ts';
import type { Goal } from '../pattern/notation/ast.ts';
import { agree, named, number, unitOf, type SayContext } from './context.ts';
import type { FormKey } from './forms.ts';
import { sayForm, type Spoken } from './language.ts';

export function sayGoal(goal: Goal, context: SayContext): Spoken {
  const { language } = context;
  const unit = { context: unitOf(context) };
  switch (goal.kind) {
    case 'end':
      return sayForm(language, 'goal.end', {}, unit);
    case 'last':
      return counted('goal.last', goal.count, context);
    case 'remaining':
      return counted('goal.remaining', goal.count, context);
    case 'past': {
      if (goal.of === 'gap') return counted('goal.pastGap', goal.count, context);
      if (goal.marker === undefined) return counted('goal.pastMarker', goal.count, context);
      const slots = { n: number(context, goal.count), marker: named(context, goal.marker) };
      return sayForm(language, 'goal.pastNamedMarker', slots, agree(context, goal.count));
    }
    case 'gap':
      return isAll(goal.before, 0)
        ? sayForm(language, 'goal.gap', {})
        : counted('goal.beforeGap', goal.before, context);
    case 'marker': {
      const n = number(context, goal.before);
      const choice = agree(context, goal.before);
      const at = isAll(goal.before, 0);
      if (goal.marker === undefined) {
        return at
          ? sayForm(language, 'goal.marker', {})
          : sayForm(language, 'goal.beforeMarker', { n }, choice);
      }
      const marker = named(context, goal.marker);
      return at
        ? sayForm(language, 'goal.namedMarker', { marker })
        : sayForm(language, 'goal.beforeNamedMarker', { n, marker }, choice);
    }
    default:
      return assertNever(goal);
  }
}

/** A form whose only slot is a number. */
function counted(
  key: Extract<
    FormKey,
    'goal.last' | 'goal.remaining' | 'goal.beforeGap' | 'goal.pastGap' | 'goal.pastMarker'
  >,
  sized: Sized,
  context: SayContext,
): Spoken {
  return sayForm(context.language, key, { n: number(context, sized) }, agree(context, sized));
}
