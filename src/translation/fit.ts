/**
 * An existing translation cut at the protected things of its source: where the translation writes a
 * thing exactly as this program would, its placeholder can stand. Takes a template and a text, gives the
 * text cut; putting the things back gives the same text, letter for letter.
 */
import type { Language } from '../language/index.ts';
import { sayThing, type Template, type Thing, thingsOf } from './protect.ts';

export type FittedText = readonly (string | { readonly id: string })[];

interface Slot {
  readonly start: number;
  readonly end: number;
  readonly id: string;
}

export function fitTranslation(
  template: Template,
  text: string,
  source: Language,
  target: Language,
): FittedText {
  const slots: Slot[] = [];
  const said = thingsOf(template)
    .map((thing) => ({ thing, says: sayThing(thing, source, target) }))
    .sort((a, b) => b.says.length - a.says.length);
  for (const { thing, says } of said) {
    const start = placeOf(text, thing, says, slots);
    if (start !== undefined) slots.push({ start, end: start + says.length, id: thing.id });
  }
  return cutAt(text, slots.toSorted((a, b) => a.start - b.start)); // prettier-ignore
}

/** The first free place where the thing stands by itself: not as a part of a longer number or word. */
function placeOf(
  text: string,
  { kind }: Thing,
  says: string,
  taken: readonly Slot[],
): number | undefined {
  const inside = kind === 'term' ? /[\p{L}\p{N}]/u : /[\d¼½¾⅓⅔⅛⅜⅝⅞]/u;
  const joins = kind === 'term' ? /(?!)/ : /^[.,]\d/;
  for (let at = text.indexOf(says); at >= 0; at = text.indexOf(says, at + 1)) {
    const end = at + says.length;
    const free = taken.every((slot) => end <= slot.start || at >= slot.end);
    const before = text.slice(Math.max(0, at - 2), at);
    const alone =
      !inside.test(before.slice(-1)) &&
      !inside.test(text.slice(end, end + 1)) &&
      !joins.test(text.slice(end, end + 2)) &&
      !(kind !== 'term' && /\d[.,]$/.test(before));
    if (free && alone) return at;
  }
  return undefined;
}

function cutAt(text: string, slots: readonly Slot[]): FittedText {
  const parts: (string | { readonly id: string })[] = [];
  let at = 0;
  for (const { start, end, id } of slots) {
    if (start > at) parts.push(text.slice(at, start));
    parts.push({ id });
    at = end;
  }
  if (at < text.length) parts.push(text.slice(at));
  return parts;
}
