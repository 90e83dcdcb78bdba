/**
 * The same document as one plain web page: for phones, screen readers and large type. Takes the
 * semantic document and where its pictures are, gives one file without scripts or outside requests.
 * Knows no knitting; the order and the words are the print document's.
 */
import { assertNever } from '../../base/assert.ts';
import { escapeMarkup as escape } from '../../base/escape.ts';
import type { Block, Document, Inline, InlineRole, TableCell } from '../document.ts';
import { toSvg } from '../drawing/index.ts';
import { PAGE_STYLE } from './page-style.ts';

export interface HtmlPictures {
  /** Address of a picture by its hash: a data or relative URL. */
  source(hash: string): string;
}

export function writeHtml(document: Document, pictures: HtmlPictures): string {
  const body = document.blocks.map((block) => blockHtml(block, pictures)).join('\n');
  return `<!doctype html>
<html lang="${escape(document.language)}" dir="${document.direction}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escape(document.title)}</title>
<meta name="description" content="${escape(document.subject)}">
<meta name="author" content="${escape(document.author)}">
<style>${PAGE_STYLE}</style>
</head>
<body>
<main>
${body}
</main>
<footer><p>${escape(document.footer.start)}</p></footer>
</body>
</html>
`;
}

function blockHtml(block: Block, pictures: HtmlPictures): string {
  const all = (children: readonly Block[]) =>
    children.map((child) => blockHtml(child, pictures)).join('\n');
  switch (block.kind) {
    case 'heading':
      return `<h${block.level} id="${escape(block.id)}">${inlineHtml(block.content)}</h${block.level}>`;
    case 'paragraph':
      return `<p class="${block.role}">${inlineHtml(block.content)}</p>`;
    case 'instruction':
      return instructionHtml(block);
    case 'list': {
      const tag = block.ordered ? 'ol' : 'ul';
      return `<${tag}>${block.items.map((item) => `<li>${all(item)}</li>`).join('')}</${tag}>`;
    }
    case 'definitions':
      return `<dl>${block.entries
        .map(
          ({ term, description }) =>
            `<div><dt>${inlineHtml(term)}</dt><dd>${inlineHtml(description)}</dd></div>`,
        )
        .join('')}</dl>`;
    case 'table':
      return tableHtml(block);
    case 'figure':
      return figureHtml(block, pictures);
    case 'together':
      return all(block.children);
    case 'section':
      return `<section id="${escape(block.id)}">\n${all(block.children)}\n</section>`;
    default:
      return assertNever(block);
  }
}

function instructionHtml(block: Extract<Block, { kind: 'instruction' }>): string {
  const label =
    block.label.length > 0 ? `<span class="label">${inlineHtml(block.label)}</span> ` : '';
  const count =
    block.count.length > 0 ? ` <span class="count">${inlineHtml(block.count)}</span>` : '';
  return `<p class="row" id="${escape(block.id)}">${label}${inlineHtml(block.content)}${count}</p>`;
}

function tableHtml(block: Extract<Block, { kind: 'table' }>): string {
  const row = (cells: readonly TableCell[]) => `<tr>${cells.map(cellHtml).join('')}</tr>`;
  const caption = block.caption.length > 0 ? `<caption>${inlineHtml(block.caption)}</caption>` : '';
  // A wide table scrolls by itself, and a keyboard reaches it.
  return `<div class="scroll" tabindex="0"><table id="${escape(block.id)}">${caption}<thead>${block.head
    .map(row)
    .join('')}</thead><tbody>${block.rows.map(row).join('')}</tbody></table></div>`;
}

function cellHtml({ content, header, span }: TableCell): string {
  const columns = span === undefined ? '' : ` colspan="${span}"`;
  if (header === undefined) return `<td${columns}>${inlineHtml(content)}</td>`;
  const scope = header === 'row' ? 'row' : 'col';
  return `<th scope="${scope}"${columns}>${inlineHtml(content)}</th>`;
}

function figureHtml(block: Extract<Block, { kind: 'figure' }>, pictures: HtmlPictures): string {
  const { content, alternative, caption, size } = block;
  const shown =
    content.kind === 'drawing'
      ? toSvg(content.drawing, { title: alternative, description: '' })
      : `<img src="${escape(pictures.source(content.hash))}" alt="${escape(alternative)}" width="${content.widthPixels}" height="${content.heightPixels}">`;
  const below = caption.length > 0 ? `<figcaption>${inlineHtml(caption)}</figcaption>` : '';
  return `<figure class="${size}" id="${escape(block.id)}">${shown}${below}</figure>`;
}

const ELEMENT: Readonly<Record<InlineRole, string | undefined>> = {
  plain: undefined,
  strong: 'strong',
  emphasis: 'em',
  abbreviation: undefined,
  count: undefined,
  small: 'small',
};

function inlineHtml(content: readonly Inline[]): string {
  return content.map(oneInline).join('');
}

function oneInline(inline: Inline): string {
  switch (inline.kind) {
    case 'text': {
      const tag = ELEMENT[inline.role];
      const text = escape(inline.text);
      const spoken = inline.language
        ? `<span lang="${escape(inline.language)}">${text}</span>`
        : text;
      return tag ? `<${tag}>${spoken}</${tag}>` : spoken;
    }
    case 'unbroken':
      return `<span class="unbroken">${inlineHtml(inline.children)}</span>`;
    case 'link':
      return `<a href="${escape(inline.target)}">${inlineHtml(inline.children)}</a>`;
    case 'drawing':
      return toSvg(inline.drawing, { title: inline.alternative, description: '' });
    case 'lineBreak':
      return '<br>';
    default:
      return assertNever(inline);
  }
}
