/**
 * A language whose notation is also read: reading what is said gives the same tree. Spans fall away, a
 * number that is the same in all sizes stands once, and a length keeps both units.
 */
import { describe, expect, test } from 'vitest';
import { loadLanguages } from '../../src/language/index.ts';
import { LINES } from './lines.ts';
import { read, say, shown } from './say.ts';

const languages = await loadLanguages('locales');

/** The tree without spans and source text; equal numbers folded into one. */
function bare(node: unknown): unknown {
  if (Array.isArray(node)) return node.map(bare);
  if (typeof node !== 'object' || node === null) return node;
  if ('values' in node && Array.isArray(node.values)) {
    return new Set(node.values).size === 1 ? node.values.slice(0, 1) : node.values;
  }
  const kept = Object.entries(node).filter(([key]) => key !== 'span' && key !== 'text');
  return Object.fromEntries(kept.map(([key, value]) => [key, bare(value)]));
}

describe.each(['en-US', 'en-GB'])('%s is read back', (tag) => {
  const language = languages.get(tag)!;
  test.each(LINES)('%s', (line) => {
    const said = shown(say(language, line)).replaceAll('\u00a0', ' ');
    expect(bare(read(said)), said).toEqual(bare(read(line)));
  });
});
