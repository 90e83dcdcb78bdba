/**
 * What a reader must find in the finished file: the text of every block of the document, in reading
 * order, with a name for the place. Takes the semantic document only, so that nothing the layout or
 * the PDF writer did can leak into what they are compared with.
 */
import { assertNever } from '../../base/assert.ts';
import type { Block, Document, FigureContent, Inline } from '../document.ts';

export interface ExpectedText {
  /** Where it stands: the id of the nearest block that has one. */
  readonly place: string;
  readonly text: string;
}

export function expectedTexts(document: Document): readonly ExpectedText[] {
  return document.blocks.flatMap((block) => textsOf(block, 'title'));
}

function textsOf(block: Block, place: string): ExpectedText[] {
  const of = (content: readonly Inline[], where = place): ExpectedText[] => {
    const text = inlineText(content);
    return text.trim() === '' ? [] : [{ place: where, text }];
  };
  switch (block.kind) {
    case 'heading':
      return of(block.content, block.id);
    case 'paragraph':
      return of(block.content);
    case 'instruction':
      return [block.label, block.content, block.count].flatMap((part) => of(part, block.id));
    case 'list':
      return block.items.flatMap((item, index) => [
        ...(block.ordered ? [{ place, text: `${index + 1}.` }] : []),
        ...item.flatMap((each) => textsOf(each, place)),
      ]);
    case 'definitions':
      return block.entries.flatMap(({ term, description }) => [...of(term), ...of(description)]);
    case 'table':
      return [
        ...of(block.caption, block.id),
        ...[...block.head, ...block.rows].flatMap((row) =>
          row.flatMap((cell) => of(cell.content, block.id)),
        ),
      ];
    case 'figure':
      return [...drawnTexts(block.id, block.content), ...of(block.caption, block.id)];
    case 'together':
      return block.children.flatMap((child) => textsOf(child, place));
    case 'section':
      return block.children.flatMap((child) => textsOf(child, block.id));
    default:
      return assertNever(block);
  }
}

/** Letters and numbers that stand in a drawing, in the order they are drawn. */
function drawnTexts(place: string, content: FigureContent): ExpectedText[] {
  if (content.kind !== 'drawing') return [];
  return content.drawing.shapes.flatMap((shape) =>
    shape.kind === 'text' ? [{ place, text: shape.text }] : [],
  );
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
