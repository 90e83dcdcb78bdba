/**
 * The same document as one plain web page: for phones, screen readers and large type. Takes the
 * semantic document and where its pictures are, gives one file without scripts or outside requests.
 * Knows no knitting; the order and the words are the print document's.
 */
import { assertNever } from '../../base/assert.ts';
import { escapeMarkup as escape } from '../../base/escape.ts';
import type { Block, Document, Inline, InlineRole, TableCell } from '../document.ts';
import type { Drawing } from '../drawing/drawing.ts';
import { toSvg } from '../drawing/index.ts';
import { PAGE_STYLE } from './page-style.ts';

export interface HtmlPictures {
  /** Address of a picture by its hash: a data or relative URL. */
  source(hash: string): string;
}

/** What the writing of one page shares: where pictures are, and ids that are used once. */
interface Setting extends HtmlPictures {
  newId(): string;
}

export function writeHtml(document: Document, pictures: HtmlPictures): string {
  let drawings = 0;
  const setting: Setting = {
    source: (hash) => pictures.source(hash),
    newId: () => `drawing-${(drawings += 1)}`,
  };
  const body = document.blocks.map((block) => blockHtml(block, setting)).join('\n');
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
<body>${markHtml(document)}
<main>
${body}
</main>
<footer><p>${escape(document.footer.start)}</p></footer>
</body>
</html>
`;
}

const markHtml = ({ mark }: Document): string =>
  mark === undefined ? '' : `\n<header><p><strong>${escape(mark)}</strong></p></header>`;

function blockHtml(block: Block, setting: Setting): string {
  const all = (children: readonly Block[]) =>
    children.map((child) => blockHtml(child, setting)).join('\n');
  switch (block.kind) {
    case 'heading':
      return `<h${block.level} id="${escape(block.id)}">${inlineHtml(block.content, setting)}</h${block.level}>`;
    case 'paragraph':
      return `<p class="${block.role}">${inlineHtml(block.content, setting)}</p>`;
    case 'instruction':
      return instructionHtml(block, setting);
    case 'list': {
      const tag = block.ordered ? 'ol' : 'ul';
      return `<${tag}>${block.items.map((item) => `<li>${all(item)}</li>`).join('')}</${tag}>`;
    }
    case 'definitions':
      return `<dl>${block.entries
        .map(
          ({ term, description }) =>
            `<div><dt>${inlineHtml(term, setting)}</dt><dd>${inlineHtml(description, setting)}</dd></div>`,
        )
        .join('')}</dl>`;
    case 'table':
      return tableHtml(block, setting);
    case 'figure':
      return figureHtml(block, setting);
    case 'contents':
      return contentsHtml(block, setting);
    case 'together':
      return all(block.children);
    case 'section':
      return `<section id="${escape(block.id)}">\n${all(block.children)}\n</section>`;
    default:
      return assertNever(block);
  }
}

/** Links without page numbers: a web page has none. */
function contentsHtml(block: Extract<Block, { kind: 'contents' }>, setting: Setting): string {
  const items = block.entries.map(
    ({ target, title, level }) =>
      `<li class="level${level}"><a href="#${escape(target)}">${escape(title)}</a></li>`,
  );
  const id = escape(block.id);
  return `<nav aria-labelledby="${id}"><h2 id="${id}">${inlineHtml(block.title, setting)}</h2><ul>${items.join('')}</ul></nav>`;
}

function instructionHtml(block: Extract<Block, { kind: 'instruction' }>, setting: Setting): string {
  const label =
    block.label.length > 0 ? `<span class="label">${inlineHtml(block.label, setting)}</span> ` : '';
  const count =
    block.count.length > 0 ? ` <span class="count">${inlineHtml(block.count, setting)}</span>` : '';
  return `<p class="row" id="${escape(block.id)}">${label}${inlineHtml(block.content, setting)}${count}</p>`;
}

function tableHtml(block: Extract<Block, { kind: 'table' }>, setting: Setting): string {
  const row = (cells: readonly TableCell[]) =>
    `<tr>${cells.map((cell) => cellHtml(cell, setting)).join('')}</tr>`;
  const caption =
    block.caption.length > 0 ? `<caption>${inlineHtml(block.caption, setting)}</caption>` : '';
  // A wide table scrolls by itself, and a keyboard reaches it.
  return `<div class="scroll" tabindex="0"><table id="${escape(block.id)}">${caption}<thead>${block.head
    .map(row)
    .join('')}</thead><tbody>${block.rows.map(row).join('')}</tbody></table></div>`;
}

function cellHtml({ content, header, span }: TableCell, setting: Setting): string {
  const columns = span === undefined ? '' : ` colspan="${span}"`;
  if (header === undefined) return `<td${columns}>${inlineHtml(content, setting)}</td>`;
  const scope = header === 'row' ? 'row' : 'col';
  return `<th scope="${scope}"${columns}>${inlineHtml(content, setting)}</th>`;
}

function figureHtml(block: Extract<Block, { kind: 'figure' }>, setting: Setting): string {
  const { content, alternative, caption, size } = block;
  const shown =
    content.kind === 'drawing'
      ? drawingHtml(content.drawing, alternative, setting)
      : `<img src="${escape(setting.source(content.hash))}" alt="${escape(alternative)}" width="${content.widthPixels}" height="${content.heightPixels}">`;
  const below =
    caption.length > 0 ? `<figcaption>${inlineHtml(caption, setting)}</figcaption>` : '';
  return `<figure class="${size}" id="${escape(block.id)}">${shown}${below}</figure>`;
}

/** The first sentence names the drawing, the whole alternative describes it. */
function drawingHtml(drawing: Drawing, alternative: string, setting: Setting): string {
  const title = /^[^.。]*/u.exec(alternative)?.[0] ?? alternative;
  return toSvg(drawing, { title, description: alternative, idPrefix: setting.newId() });
}

const ELEMENT: Readonly<Record<InlineRole, string | undefined>> = {
  plain: undefined,
  strong: 'strong',
  emphasis: 'em',
  abbreviation: undefined,
  count: undefined,
  small: 'small',
};

function inlineHtml(content: readonly Inline[], setting: Setting): string {
  return content.map((inline) => oneInline(inline, setting)).join('');
}

function oneInline(inline: Inline, setting: Setting): string {
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
      return `<span class="unbroken">${inlineHtml(inline.children, setting)}</span>`;
    case 'link':
      return `<a href="${escape(inline.target)}">${inlineHtml(inline.children, setting)}</a>`;
    case 'drawing':
      return drawingHtml(inline.drawing, inline.alternative, setting);
    case 'lineBreak':
      return '<br>';
    default:
      return assertNever(inline);
  }
}
