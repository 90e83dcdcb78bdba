/**
 * What saying a line needs besides its tree: the language, whether rows or rounds are worked, the one
 * size of a one-size edition, and the names of the bundle. With the two helpers every form asks for.
 */
import type { Sized } from '../pattern/bundle/size-list.ts';
import { sayForm, type Language, type Spoken } from './language.ts';
import { joinParts, spoken, type Choice } from './message.ts';
import { agreement, choose, sayNumber } from './numbers.ts';
import { sayName, type Names } from './words.ts';

export interface SayContext {
  readonly language: Language;
  /** Whether the piece is worked in rows or rounds, where a line does not say it itself. */
  readonly form: 'flat' | 'round';
  /** Set for a one-size edition: only this size's numbers are said. */
  readonly size?: number;
  readonly names: Names;
}

/** The unit of the line: rounds are called rounds where a language has a word for them. */
export const unitOf = (context: SayContext): 'row' | 'round' =>
  context.form === 'round' ? 'round' : 'row';

export const number = (context: SayContext, sized: Sized): Spoken =>
  sayNumber(context.language, choose(sized, context.size));

/** The choice of words that a number asks for. */
export function agree(context: SayContext, sized: Sized, more?: string): Choice {
  const chosen = choose(sized, context.size);
  return {
    count: agreement(context.language, chosen),
    ...(more !== undefined && { context: more }),
  };
}

export const named = (context: SayContext, name: string): Spoken =>
  spoken(sayName(context.language, context.names, 'word', name));

/** `1, 3 and 5`. */
export function listWithAnd(
  items: readonly Spoken[],
  language: Language,
  key: 'list.and' | 'range.and' = 'list.and',
): Spoken {
  const last = items.at(-1) ?? [];
  if (items.length < 2) return last;
  const list = joinParts(items.slice(0, -1), language.settings.separators.list);
  return sayForm(language, key, { list, last });
}
