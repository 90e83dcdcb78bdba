/**
 * The sizes a line is for, said before anything else: `Sizes S and XL only:`, `For size M only:`, `Sizes
 * M–XL only:`. Gives the names as the pattern spells them; a name it does not have is a problem.
 */
import type { Reader } from './reader.ts';
import { nearestWords } from '../../../base/nearest.ts';

/**
 * @rule only sizes = [ "for" ], "sizes", size name, { ( "," | "and" | "–" ), size name },
 *   "only", [ ":" ] | "all sizes", ":";
 */
export function readOnlySizes(reader: Reader): { sizes: readonly string[] } | 'all' | undefined {
  return reader.attempt(() => {
    reader.take('for');
    if (reader.take('all size')) return takeSizesClose(reader, false) ? 'all' : undefined;
    if (!reader.take('size')) return undefined;
    const position = reader.position;
    while (!reader.done && !reader.is('only', ':', '.')) reader.next();
    if (reader.position === position) return undefined;
    const words = reader.textFrom(position);
    const span = reader.spanFrom(position);
    if (!takeSizesClose(reader, true)) return undefined;
    return { sizes: namedSizes(reader, words, span) };
  });
}

function takeSizesClose(reader: Reader, needed: boolean): boolean {
  const only = reader.take('only');
  return reader.take(':', ',', '–', '—') || only || !needed;
}

/** The sizes that words name: lists, `M–XL`, brackets as in a list of sizes. */
function namedSizes(
  reader: Reader,
  words: string,
  span: { start: number; end: number },
): readonly string[] {
  const known = reader.options.sizes;
  const parts = words
    .split(/\s*(?:,|\(|\)|\[|\]|&|\band\b|\bor\b)\s*/)
    .filter((part) => part !== '');
  if (known === undefined) return parts;
  return parts.flatMap((part) => {
    const one = sizeNamed(known, part);
    if (one !== undefined) return [one];
    const [from, to] = part.split(/\s*(?:–|—|-|\bto\b)\s*/).map((end) => sizeNamed(known, end));
    if (from !== undefined && to !== undefined) {
      return known.slice(known.indexOf(from), known.indexOf(to) + 1);
    }
    const nearest = nearestWords(part, known);
    const start = span.start + words.indexOf(part);
    reader.problem(
      'notation/unknown-name',
      { start, end: start + part.length },
      { what: 'size', name: part, nearest },
    );
    return [];
  });
}

const sizeNamed = (known: readonly string[], written: string): string | undefined =>
  known.find((size) => size.toLowerCase() === written.trim().toLowerCase());
