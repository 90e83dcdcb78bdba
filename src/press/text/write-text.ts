/**
 * The same document as plain text: for mail, for shops that take nothing else, for a reader's own
 * devices. Takes the semantic document, gives lines that end where the text ends, so that every
 * program may wrap them itself. Knows no knitting and no page.
 */
import { assertNever } from '../../base/assert.ts';
import { columnsOf } from '../../findings/columns.ts';
import type { Block, Document, Inline, TableCell } from '../document.ts';

/** Ends with a newline; blocks stand apart by one empty line. */
export function writeText(document: Document): string {
  const mark = document.mark ?? '';
  const blocks = [mark, ...document.blocks.flatMap(textsOf)].filter((text) => text !== '');
  return (
    blocks
      .join('\n\n')
      .replace(/\n{3,}/g, '\n\n')
      .trim() + '\n'
  );
}

function textsOf(block: Block): readonly string[] {
  switch (block.kind) {
    case 'heading':
      return [underlined(inlineText(block.content), block.level)];
    case 'paragraph':
      return [inlineText(block.content)];
    case 'instruction':
      return [instructionText(block)];
    case 'list':
      return [
        block.items
          .map(
            (item, index) =>
              (block.ordered ? `${index + 1}. ` : '- ') + item.flatMap(textsOf).join(' '),
          )
          .join('\n'),
      ];
    case 'definitions':
      return [
        block.entries
          .map(({ term, description }) => `${inlineText(term)}: ${inlineText(description)}`)
          .join('\n'),
      ];
    case 'table':
      return [inlineText(block.caption), [...block.head, ...block.rows].map(rowText).join('\n')];
    case 'figure':
      return [`[${block.alternative}]`];
    case 'contents':
      // Plain text has no pages to lead to.
      return [];
    case 'together':
    case 'section':
      return block.children.flatMap(textsOf);
    default:
      return assertNever(block);
  }
}

/** Headings of the first two levels are underlined, as text has always done. */
function underlined(text: string, level: number): string {
  if (level > 2) return text;
  return `${text}\n${(level === 1 ? '=' : '-').repeat(Math.min(72, Math.max(3, columnsOf(text))))}`;
}

function instructionText({
  label,
  content,
  count,
}: Extract<Block, { kind: 'instruction' }>): string {
  const [head, body, end] = [label, content, count].map(inlineText);
  const start = head === '' || /[:：]$/u.test(head ?? '') ? head : `${head} –`;
  return [start, body, end === '' ? '' : `[${end}]`].filter((part) => part !== '').join(' ');
}

const rowText = (cells: readonly TableCell[]): string =>
  cells.map(({ content }) => inlineText(content)).join(' | ');

function inlineText(content: readonly Inline[]): string {
  return content
    .map((inline): string => {
      switch (inline.kind) {
        case 'text':
          return inline.text;
        case 'unbroken':
          return inlineText(inline.children);
        case 'link':
          return inline.target.startsWith('#')
            ? inlineText(inline.children)
            : `${inlineText(inline.children)} <${inline.target}>`;
        case 'drawing':
          return inline.alternative;
        case 'lineBreak':
          return '\n';
        default:
          return assertNever(inline);
      }
    })
    .join('')
    .trim();
}
