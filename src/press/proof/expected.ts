/**
 * What a reader must find in the finished file: the text of every block of the document in reading
 * order, and the alternative texts of its pictures and drawings. Takes the semantic document only, so
 * that nothing the layout or the PDF writer did can leak into what they are compared with.
 */
import { assertNever } from '../../base/assert.ts';
import type { Block, Document, FigureContent, Inline } from '../document.ts';

/** One text with a place, or the cells of a table, which may stand on several pages side by side. */
export type Expected =
  | { readonly kind: 'text'; readonly place: string; readonly text: string }
  | { readonly kind: 'table'; readonly place: string; readonly cells: readonly string[] };

export interface ExpectedFigure {
  readonly place: string;
  readonly alternative: string;
  /** A photograph: the hash of its bytes, and its width. */
  readonly picture?: { readonly hash: string; readonly widthPixels: number };
}

export function expectedTexts(document: Document): readonly Expected[] {
  return document.blocks.flatMap((block) => textsOf(block, 'title'));
}

/** `place` is the id of the nearest block that has one. */
function textsOf(block: Block, place: string): Expected[] {
  const of = (content: readonly Inline[], where = place): Expected[] =>
    some(where, inlineText(content));
  switch (block.kind) {
    case 'heading':
      return of(block.content, block.id);
    case 'paragraph':
      return of(block.content);
    case 'instruction':
      return [block.label, block.content, block.count].flatMap((part) => of(part, block.id));
    case 'list':
      return block.items.flatMap((item, index) => [
        ...some(place, block.ordered ? `${index + 1}.` : '•'),
        ...item.flatMap((each) => textsOf(each, place)),
      ]);
    case 'definitions':
      return block.entries.flatMap(({ term, description }) => [...of(term), ...of(description)]);
    case 'table': {
      const cells = [...block.head, ...block.rows].flat();
      const texts = cells.map(({ content }) => inlineText(content));
      return [...of(block.caption, block.id), { kind: 'table', place: block.id, cells: texts }];
    }
    case 'figure':
      return [...some(block.id, drawnText(block.content)), ...of(block.caption, block.id)];
    case 'contents':
      return [
        ...of(block.title, block.id),
        ...block.entries.flatMap(({ title, page }) => [
          ...some(block.id, title),
          ...some(block.id, String(page ?? '')),
        ]),
      ];
    case 'together':
      return block.children.flatMap((child) => textsOf(child, place));
    case 'section':
      return block.children.flatMap((child) => textsOf(child, block.id));
    default:
      return assertNever(block);
  }
}

const some = (place: string, text: string): Expected[] =>
  text.trim() === '' ? [] : [{ kind: 'text', place, text }];

/** Letters and numbers that stand in a drawing, in the order they are drawn. */
function drawnText(content: FigureContent): string {
  if (content.kind !== 'drawing') return '';
  const texts = content.drawing.shapes.map((shape) => (shape.kind === 'text' ? shape.text : ''));
  return texts.join('');
}

export function inlineText(content: readonly Inline[]): string {
  return content
    .map((inline) => {
      switch (inline.kind) {
        case 'text':
          return inline.text;
        case 'unbroken':
        case 'link':
          return inlineText(inline.children);
        case 'lineBreak':
          return ' ';
        case 'drawing':
          return '';
        default:
          return assertNever(inline);
      }
    })
    .join('');
}

// ---------------------------------------------------------------- pictures and drawings

export function expectedFigures(document: Document): readonly ExpectedFigure[] {
  return document.blocks.flatMap((block) => figuresOf(block, 'title'));
}

function figuresOf(block: Block, place: string): ExpectedFigure[] {
  const of = (content: readonly Inline[]) => inlineFigures(content, place);
  switch (block.kind) {
    case 'heading':
    case 'paragraph':
      return of(block.content);
    case 'instruction':
      return [block.label, block.content, block.count].flatMap(of);
    case 'list':
      return block.items.flat().flatMap((each) => figuresOf(each, place));
    case 'definitions':
      return block.entries.flatMap(({ term, description }) => [...of(term), ...of(description)]);
    case 'table':
      return [block.caption, ...[...block.head, ...block.rows].flat().map((cell) => cell.content)].flatMap(of); // prettier-ignore
    case 'figure': {
      const { id, alternative, content } = block;
      const { caption } = block;
      if (content.kind !== 'picture') return [{ place: id, alternative }, ...of(caption)];
      const { hash, widthPixels } = content;
      return [{ place: id, alternative, picture: { hash, widthPixels } }, ...of(caption)];
    }
    case 'contents':
      return [];
    case 'together':
    case 'section':
      return block.children.flatMap((child) => figuresOf(child, block.kind === 'section' ? block.id : place)); // prettier-ignore
    default:
      return assertNever(block);
  }
}

function inlineFigures(content: readonly Inline[], place: string): ExpectedFigure[] {
  return content.flatMap((inline): ExpectedFigure[] => {
    if (inline.kind === 'drawing') return [{ place, alternative: inline.alternative }];
    return 'children' in inline ? inlineFigures(inline.children, place) : [];
  });
}
