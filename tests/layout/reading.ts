/**
 * What a laid document says, two ways: from the pages, by walking the tags in reading order; and from
 * the blocks themselves. The two must agree, character by character.
 */
import type { Block, Document, Inline } from '../../src/press/document.ts';
import type { Laid, Mark } from '../../src/press/layout/frames.ts';

export type RunMark = Extract<Mark, { kind: 'run' }>;

/** Runs of text with their page, by tag; artifacts apart. */
export function runsOf(laid: Laid): { mark: RunMark; page: number }[] {
  return laid.pages.flatMap(({ marks }, page) =>
    marks.flatMap((mark) => (mark.kind === 'run' ? [{ mark, page }] : [])),
  );
}

/** Text of the tags in reading order, one entry for each tag that has any. */
export function readTags(laid: Laid): { role: string; text: string }[] {
  const own = new Map<number, string>();
  for (const { mark } of runsOf(laid)) {
    if (mark.tag === 'artifact') continue;
    own.set(mark.tag, (own.get(mark.tag) ?? '') + mark.run.text);
  }
  const read: { role: string; text: string }[] = [];
  const walk = (index: number): void => {
    const tag = laid.tags[index]!;
    const text = (own.get(index) ?? '').replaceAll('\u00ad', '');
    if (text !== '') read.push({ role: tag.role, text });
    tag.children.forEach(walk);
  };
  walk(0);
  return read;
}

/** White space and signs without ink do not count when texts are compared. */
export const bare = (text: string): string =>
  text.normalize('NFC').replace(/[\s\u00ad\u200b-\u200f\u2060-\u2069]/gu, '');

export const readAll = (laid: Laid): string =>
  bare(
    readTags(laid)
      .map(({ text }) => text)
      .join(''),
  );

function inlineText(inlines: readonly Inline[]): string {
  return inlines
    .map((inline) => {
      if (inline.kind === 'text') return inline.text;
      return inline.kind === 'unbroken' || inline.kind === 'link'
        ? inlineText(inline.children)
        : '';
    })
    .join('');
}

/** The words of blocks in reading order, with the signs of lists. */
export function saidBy(blocks: readonly Block[]): string {
  return blocks.map(saidByBlock).join('');
}

function saidByBlock(block: Block): string {
  switch (block.kind) {
    case 'heading':
    case 'paragraph':
      return inlineText(block.content);
    case 'instruction':
      return inlineText([...block.label, ...block.content, ...block.count]);
    case 'list':
      return block.items
        .map((item, index) => (block.ordered ? `${index + 1}.` : '•') + saidBy(item))
        .join('');
    case 'definitions':
      return block.entries
        .map(({ term, description }) => inlineText([...term, ...description]))
        .join('');
    case 'table':
      return (
        inlineText(block.caption) +
        [...block.head, ...block.rows]
          .flat()
          .map(({ content }) => inlineText(content))
          .join('')
      );
    case 'figure':
      return inlineText(block.caption);
    case 'contents':
      return [
        inlineText(block.title),
        ...block.entries.map(({ title, page }) => `${title}${page ?? ''}`),
      ].join('');
    case 'together':
    case 'section':
      return saidBy(block.children);
  }
}

export const said = (document: Document): string => bare(saidBy(document.blocks));
