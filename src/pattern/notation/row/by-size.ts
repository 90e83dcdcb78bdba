/**
 * Rows whose ending differs by size: `k1 (k2tog, k0)`. A bracket straight after an action, with as many
 * things in it as there are further sizes, holds what the other sizes work in its place.
 */
import type { Action } from '../ast.ts';
import type { Reader } from '../text/reader.ts';
import { cover } from '../../../base/span.ts';
import { CLOSING } from '../text/size-values.ts';
import { readAction, type Stops } from './actions.ts';

/** @rule by size = action, "(", choice, { ",", choice }, ")"; */
export function readBySize(
  reader: Reader,
  before: readonly Action[],
  stops: Stops,
): Action | undefined {
  const first = before.at(-1);
  const close = CLOSING[reader.peek().term];
  const sizes = reader.options.sizes?.length ?? 0;
  if (!first || close === undefined || sizes < 2) return undefined;
  return reader.attempt(() => {
    const position = reader.position;
    reader.next();
    const others: (readonly Action[])[] = [];
    do {
      const choice = readChoice(reader, stops);
      if (!choice) return undefined;
      others.push(choice);
    } while (reader.take(','));
    if (!reader.take(close) || others.length !== sizes - 1) return undefined;
    if (!stops(reader) && !reader.is(',', ';', 'then', 'and', 'rep')) return undefined;
    const span = cover(first.span, reader.spanFrom(position));
    return { kind: 'bySize', alternatives: [[first], ...others], span };
  });
}

/** @rule by size in full = "by size", "(", choice, { ",", choice }, ")"; */
export function readBySizeInFull(reader: Reader, stops: Stops): Action | undefined {
  const position = reader.position;
  if (!reader.take('by size (')) return reader.missing('a choice for each size');
  const alternatives: (readonly Action[])[] = [];
  do {
    const choice = readChoice(reader, stops);
    if (!choice) return undefined;
    alternatives.push(choice);
  } while (reader.take(','));
  if (!reader.take(')')) return reader.missing('“)”');
  const names = reader.options.sizes;
  if (names && names.length !== alternatives.length) {
    const facts = { values: alternatives.length, sizes: names.length, names };
    reader.problem('notation/size-list', reader.spanFrom(position), facts);
  }
  return { kind: 'bySize', alternatives, span: reader.spanFrom(position) };
}

/** @rule choice = "–" | action, { "and", action }; */
function readChoice(reader: Reader, stops: Stops): readonly Action[] | undefined {
  if (reader.take('–', '—', '-')) return [];
  const actions: Action[] = [];
  do {
    const read = reader.is(')', ']', '}') ? undefined : readAction(reader, stops);
    if (!read) return undefined;
    actions.push(...read);
  } while (reader.take('and', '+'));
  return actions;
}
