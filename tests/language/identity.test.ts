/**
 * A language whose notation is also read: reading what is said gives the same tree. Spans fall away, a
 * number that is the same in all sizes stands once, and a length keeps both units.
 */
import { describe, expect, test } from 'vitest';
import { loadLanguages, sayLine } from '../../src/language/index.ts';
import { sizedOf } from '../../src/pattern/bundle/size-list.ts';
import type { Line } from '../../src/pattern/notation/ast.ts';
import { STITCH_NAMES, usualCables } from '../../src/pattern/stitches/index.ts';
import { LINES } from './lines.ts';
import { NAMES, read, say, shown } from './say.ts';

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

const INTO_ONE = /^(?:[kp]1|yo)(?:-(?:[kp]1(?:tbl)?|yo))+$/;

describe.each(['en-US', 'en-GB'])('%s is read back', (tag) => {
  const language = languages.get(tag)!;
  test.each(LINES)('%s', (line) => {
    const said = shown(say(language, line)).replaceAll('\u00a0', ' ');
    expect(bare(read(said)), said).toEqual(bare(read(line)));
  });

  // Steps joined by hyphens are said as steps into one stitch, and read as such.
  const stitches = [
    ...STITCH_NAMES,
    ...usualCables().map((stitch) => stitch.name),
    'wrap 3',
  ].filter((name) => !INTO_ONE.test(name));
  test.each(
    stitches.flatMap(
      (stitch) =>
        [
          [stitch, 1],
          [stitch, 4],
        ] as const,
    ),
  )('%s × %i', (stitch, times) => {
    const line = worked(stitch, times);
    const said = shown(sayLine(line, { language, form: 'flat', names: NAMES }));
    expect(bare(read(said)), said).toEqual(bare(line));
  });
});

/** `k2, (the stitch, so many times), p2`, as a tree: some names cannot be written without a number. */
function worked(stitch: string, times: number): Line {
  const line = structuredClone(read('Row 1: k2, k7, p2.'));
  const [sentence] = line.sentences;
  if (sentence?.kind !== 'actions') throw new Error('no actions');
  const actions = sentence.actions.map((action, index) =>
    index === 1 ? { ...action, stitch, times: sizedOf(times) } : action,
  );
  return { ...line, sentences: [{ ...sentence, actions }] };
}
