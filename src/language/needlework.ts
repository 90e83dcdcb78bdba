/**
 * What is done with stitches besides working them: markers, casting on and binding off, picking up,
 * holders, turns. One function for each kind of action.
 */
import type { Sized } from '../pattern/bundle/size-list.ts';
import type { Action } from '../pattern/notation/ast.ts';
import { agree, number, type SayContext, named } from './context.ts';
import { sayForm, type Spoken, hasText, sayText } from './language.ts';
import { joinParts, spoken } from './message.ts';
import { slugOf, sayName, sayYarn } from './words.ts';

type Of<Kind extends Action['kind']> = Extract<Action, { kind: Kind }>;

export function sayMarker(action: Of<'marker'>, context: SayContext): Spoken {
  if (action.name === undefined) return sayForm(context.language, `marker.${action.act}`, {});
  const marker = named(context, action.name);
  return sayForm(context.language, `marker.${action.act}Named`, { marker });
}

export const MANNERS = {
  plain: 'plain',
  'in pattern': 'inPattern',
  knitwise: 'knitwise',
  purlwise: 'purlwise',
} as const;

export function sayBindOff(action: Of<'bindOff'>, context: SayContext): Spoken {
  const { language } = context;
  const manner = MANNERS[action.manner];
  const bindOff =
    action.count === 'all'
      ? sayForm(language, 'bindOff.all', {}, { context: manner })
      : sayForm(
          language,
          'bindOff.count',
          { n: number(context, action.count) },
          agree(context, action.count, manner),
        );
  const how = sayBindOffHow(bindOff, action.method, context);
  return action.lastStitch === 'apart' ? sayForm(language, 'bindOff.apart', { bindOff: how }) : how;
}

/** `bind off 8 sts loosely`. */
export function sayBindOffHow(
  bindOff: Spoken,
  method: string | undefined,
  context: SayContext,
): Spoken {
  if (method === undefined) return bindOff;
  const how = spoken(sayName(context.language, context.names, 'manner', method));
  return sayForm(context.language, 'bindOff.how', { bindOff, how });
}

/** How a cast-on is made: method, yarn, needle, each a phrase of its own. */
export function howOf(
  what: { readonly method?: string; readonly yarn?: string; readonly needle?: string },
  context: SayContext,
): Spoken {
  const { language, names } = context;
  const phrases: Spoken[] = [];
  if (what.yarn !== undefined) {
    phrases.push(sayForm(language, 'how.yarn', { yarn: sayYarn(language, names, what.yarn) }));
  }
  if (what.needle !== undefined) {
    const known = `withNeedle.${slugOf(what.needle)}`;
    phrases.push(
      hasText(language, known)
        ? sayText(language, known)
        : sayForm(language, 'how.needle', { needle: named(context, what.needle) }),
    );
  }
  if (what.method !== undefined) {
    const method = spoken(sayName(language, names, 'method', what.method));
    phrases.push(sayForm(language, 'how.method', { method }));
  }
  if (phrases.length === 0) return [];
  return phrases.reduce((first, next) => sayForm(language, 'how.and', { first, next }));
}

export function sayCastOn(count: Sized, how: Spoken, context: SayContext): Spoken {
  const n = number(context, count);
  const choice = agree(context, count);
  return how.length === 0
    ? sayForm(context.language, 'castOn', { n }, choice)
    : sayForm(context.language, 'castOn.how', { n, how }, choice);
}

export function sayPickUp(action: Of<'pickUp'>, context: SayContext): Spoken {
  const { language } = context;
  const n = number(context, action.count);
  const choice = agree(context, action.count, action.stitch);
  const pickUp =
    action.from === undefined
      ? sayForm(language, 'pickUp', { n }, choice)
      : sayForm(language, 'pickUp.from', { n, along: sayAlong(action.from, context) }, choice);
  if (!action.rate) return pickUp;
  const stitches = sayStitchesOf(action.rate.stitches, context);
  const rows = number(context, action.rate.rows);
  return sayForm(
    language,
    'pickUp.rate',
    { pickUp, stitches, rows },
    agree(context, action.rate.rows),
  );
}

/** `along neck edge`: known edges have a phrase of their own, because languages bend the noun. */
function sayAlong(edge: string, context: SayContext): Spoken {
  const known = `along.${slugOf(edge)}`;
  if (hasText(context.language, known)) return sayText(context.language, known);
  return sayForm(context.language, 'along', { edge: named(context, edge) });
}

/** `3 sts` as a phrase. */
const sayStitchesOf = (sized: Sized, context: SayContext): Spoken =>
  sayForm(context.language, 'stitches', { n: number(context, sized) }, agree(context, sized));

/** What waits: `holder for back neck` → `back neck`. */
export const heldPart = (holder: string): string =>
  holder.replace(/^(?:stitch )?holder (?:for|of) /i, '');

/** `holder`, `waste yarn`; else `holder for left shoulder`: named after what waits on it. */
function sayHolder(name: string, context: SayContext): Spoken {
  const { language } = context;
  const plain = `holder.${slugOf(name)}`;
  if (hasText(language, plain)) return sayText(language, plain);
  return sayForm(language, 'hold.for', { name: named(context, heldPart(name)) });
}

/** `place next 40 sts on holder`; a holder may be named after what waits on it. */
export function sayHold(
  what: { readonly count: Sized | 'all'; readonly holder: string },
  context: SayContext,
): Spoken {
  const holder = sayHolder(what.holder, context);
  if (what.count === 'all') return sayForm(context.language, 'hold.all', { holder });
  const n = number(context, what.count);
  return sayForm(context.language, 'hold.count', { n, holder }, agree(context, what.count));
}

export function sayResume(
  holders: readonly string[],
  count: Sized | undefined,
  context: SayContext,
): Spoken {
  const { language } = context;
  const own = holders.filter((holder) => !hasText(language, `holder.${slugOf(holder)}`));
  const names = own.map((holder) => named(context, heldPart(holder)));
  const holder = joinParts(names, language.settings.separators.list);
  if (!count) {
    return own.length === 0
      ? sayForm(language, 'resume.held', {})
      : sayForm(language, 'resume.heldOf', { holder });
  }
  const n = number(context, count);
  return own.length === 0
    ? sayForm(language, 'resume.count', { n }, agree(context, count))
    : sayForm(language, 'resume.countOf', { n, holder }, agree(context, count));
}

export function sayTurn(action: Of<'turn'>, context: SayContext): Spoken {
  const turn = sayForm(context.language, `turn.${action.wrap}`, {});
  if (!action.leaving) return turn;
  const n = number(context, action.leaving);
  return sayForm(context.language, 'turn.leaving', { turn, n }, agree(context, action.leaving));
}
