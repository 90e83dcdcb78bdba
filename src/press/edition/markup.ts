/**
 * Reads the markup that the templates write (a small part of HTML) into the semantic document. Takes
 * text and the figures it may name, gives blocks; must not know knitting or pages. Templates write
 * HTML so that the plain accessible page and the print document come from the same source.
 */
import { parseDocument } from 'htmlparser2';
import { BrokenInvariant, present } from '../../base/assert.ts';
import type {
  Block,
  FigureContent,
  Inline,
  InlineRole,
  ParagraphRole,
  TableCell,
  TableColumn,
} from '../document.ts';
import type { Drawing } from '../drawing/drawing.ts';

export interface Figures {
  readonly figures: ReadonlyMap<string, FigureContent>;
  /** Small drawings that stand in a line, such as the symbols of a chart key. */
  readonly drawings: ReadonlyMap<string, Drawing>;
}

type Nodes = ReturnType<typeof parseDocument>['children'];
type Node = Nodes[number];
type Element = Extract<Node, { attribs: unknown }>;

/** Throws `BrokenInvariant` on an element the document does not know: a fault of a template. */
export function readMarkup(markup: string, named: Figures): readonly Block[] {
  return blocksOf(parseDocument(markup).children, named);
}

function blocksOf(nodes: Nodes, named: Figures): Block[] {
  return elementsOf(nodes).map((element) => blockOf(element, named));
}

function blockOf(element: Element, named: Figures): Block {
  const { name } = element;
  const content = () => inlinesOf(element.children, named);
  switch (name) {
    case 'h1':
    case 'h2':
    case 'h3':
    case 'h4': {
      const level = Number(name[1]) as 1 | 2 | 3 | 4;
      return {
        kind: 'heading',
        level,
        id: attribute(element, 'id'),
        content: content(),
        ...placeOf(element),
      };
    }
    case 'p':
      return {
        kind: 'paragraph',
        role: paragraphRole(element),
        content: content(),
        ...placeOf(element),
      };
    case 'ul':
    case 'ol': {
      const items = childrenNamed(element, 'li').map((item) => itemBlocks(item, named));
      return { kind: 'list', ordered: name === 'ol', items };
    }
    case 'dl':
      return definitionsOf(element, named);
    case 'table':
      return tableOf(element, named);
    case 'figure':
      return figureOf(element, named);
    case 'article':
      return instructionOf(element, named);
    case 'div':
      return { kind: 'together', children: blocksOf(element.children, named) };
    case 'section': {
      const start = element.attribs['data-start'] === 'page' ? 'page' : 'flow';
      const children = blocksOf(element.children, named);
      return { kind: 'section', id: attribute(element, 'id'), start, children };
    }
    default:
      throw new BrokenInvariant(`a template wrote <${name}>, which is no block of a document`);
  }
}

/** `data-place="side"`: in the column beside what follows. */
const placeOf = ({ attribs }: Element): { place?: 'side' } =>
  attribs['data-place'] === 'side' ? { place: 'side' } : {};

/** `<li>` holds blocks, or text that becomes one paragraph. */
function itemBlocks(item: Element, named: Figures): Block[] {
  const blocks = elementsOf(item.children).some((child) => child.name === 'p');
  if (blocks) return blocksOf(item.children, named);
  return [{ kind: 'paragraph', role: 'body', content: inlinesOf(item.children, named) }];
}

function definitionsOf(element: Element, named: Figures): Block {
  const terms = childrenNamed(element, 'dt');
  const descriptions = childrenNamed(element, 'dd');
  const entries = terms.map((term, index) => ({
    term: inlinesOf(term.children, named),
    description: inlinesOf(present(descriptions[index], '<dd> for <dt>').children, named),
  }));
  const narrow = element.attribs['class'] === 'narrow' ? { narrow: true } : {};
  return { kind: 'definitions', entries, ...placeOf(element), ...narrow };
}

/** `<article id><span class="label">…<span class="what">…<span class="count">…</article>` */
function instructionOf(element: Element, named: Figures): Block {
  const part = (role: string): Inline[] => {
    const found = elementsOf(element.children).find((child) => child.attribs['class'] === role);
    return found ? inlinesOf(found.children, named) : [];
  };
  return {
    kind: 'instruction',
    id: attribute(element, 'id'),
    label: part('label'),
    content: part('what'),
    count: part('count'),
  };
}

function figureOf(element: Element, named: Figures): Block {
  const caption = childrenNamed(element, 'figcaption')[0];
  const id = attribute(element, 'id');
  return {
    kind: 'figure',
    id,
    content: present(named.figures.get(id), `figure ${id}`),
    alternative: attribute(element, 'data-alt'),
    caption: caption ? inlinesOf(caption.children, named) : [],
    size: figureSize(element),
  };
}

function figureSize(element: Element) {
  const size = element.attribs['class'] ?? 'natural';
  if (size === 'cover' || size === 'full' || size === 'half' || size === 'natural') return size;
  throw new BrokenInvariant(`unknown figure size ${size}`);
}

function tableOf(element: Element, named: Figures): Block {
  const caption = childrenNamed(element, 'caption')[0];
  const columns = childrenNamed(present(childrenNamed(element, 'colgroup')[0], 'colgroup'), 'col');
  const rowsIn = (part: string) =>
    childrenNamed(element, part).flatMap((group) =>
      childrenNamed(group, 'tr').map((row) =>
        elementsOf(row.children).map((cell) => cellOf(cell, named)),
      ),
    );
  return {
    kind: 'table',
    id: attribute(element, 'id'),
    caption: caption ? inlinesOf(caption.children, named) : [],
    columns: columns.map(columnOf),
    head: rowsIn('thead'),
    rows: rowsIn('tbody'),
  };
}

function columnOf(element: Element): TableColumn {
  const align = element.attribs['class'];
  return {
    align: align === 'end' || align === 'centre' || align === 'figures' ? align : 'start',
    stretch: Number(element.attribs['data-stretch'] ?? 0),
  };
}

function cellOf(cell: Element, named: Figures): TableCell {
  const span = cell.attribs['colspan'];
  return {
    content: inlinesOf(cell.children, named),
    ...(cell.name === 'th' && { header: cell.attribs['scope'] === 'row' ? 'row' : 'column' }),
    ...(span !== undefined && { span: Number(span) }),
  };
}

function paragraphRole(element: Element): ParagraphRole {
  const role = element.attribs['class'] ?? 'body';
  const known = ['body', 'lead', 'note', 'caution', 'caption', 'byline', 'fine'] as const;
  return present(
    known.find((each) => each === role),
    `paragraph role ${role}`,
  );
}

// ---------------------------------------------------------------- inside a line

interface Tone {
  readonly role: InlineRole;
  readonly language?: string;
}

function inlinesOf(nodes: Nodes, named: Figures): Inline[] {
  return trimEdges(mergeSpaces(readInlines(nodes, { role: 'plain' }, named)));
}

function readInlines(nodes: Nodes, tone: Tone, named: Figures): Inline[] {
  return nodes.flatMap((node): Inline[] => {
    if ('data' in node && node.type === 'text') return [{ kind: 'text', text: node.data, ...tone }];
    return 'attribs' in node ? inlineOf(node, tone, named) : [];
  });
}

const TONES: Readonly<Record<string, InlineRole>> = {
  strong: 'strong',
  em: 'emphasis',
  abbr: 'abbreviation',
  data: 'count',
  small: 'small',
};

function inlineOf(element: Element, tone: Tone, named: Figures): Inline[] {
  const { name, attribs } = element;
  if (name === 'br') return [{ kind: 'lineBreak' }];
  if (name === 'img') return [inlineDrawing(element, named)];
  const language = attribs['lang'] ?? tone.language;
  const inner = { role: TONES[name] ?? tone.role, ...(language !== undefined && { language }) };
  const children = readInlines(element.children, inner, named);
  if (name === 'a') return [{ kind: 'link', target: attribute(element, 'href'), children }];
  if (attribs['class'] === 'unbroken') return [{ kind: 'unbroken', children }];
  if (name in TONES || name === 'span') return children;
  throw new BrokenInvariant(`a template wrote <${name}> inside a line`);
}

function inlineDrawing(element: Element, named: Figures): Inline {
  const drawing = present(named.drawings.get(attribute(element, 'data-drawing')), 'drawing');
  return { kind: 'drawing', drawing, alternative: element.attribs['alt'] ?? '' };
}

/** Runs of white space are one space, as in HTML; no-break spaces stay. */
function mergeSpaces(inlines: readonly Inline[]): Inline[] {
  let endsInSpace = true;
  const walk = (list: readonly Inline[]): Inline[] =>
    list.flatMap((inline): Inline[] => {
      if (inline.kind === 'unbroken' || inline.kind === 'link')
        return [{ ...inline, children: walk(inline.children) }];
      if (inline.kind !== 'text') {
        endsInSpace = inline.kind === 'lineBreak';
        return [inline];
      }
      let text = inline.text.replace(/[ \t\r\n]+/g, ' ');
      if (endsInSpace) text = text.replace(/^ /, '');
      if (text === '') return [];
      endsInSpace = text.endsWith(' ');
      return [{ ...inline, text }];
    });
  return walk(inlines);
}

function trimEdges(inlines: readonly Inline[]): Inline[] {
  const last = inlines.at(-1);
  if (last?.kind !== 'text' || !last.text.endsWith(' ')) return [...inlines];
  const text = last.text.slice(0, -1);
  const rest = inlines.slice(0, -1);
  return text === '' ? trimEdges(rest) : [...rest, { ...last, text }];
}

// ---------------------------------------------------------------- reading elements

function elementsOf(nodes: Nodes): Element[] {
  return nodes.filter((node): node is Element => 'attribs' in node);
}

function childrenNamed(element: Element, name: string): Element[] {
  return elementsOf(element.children).filter((child) => child.name === name);
}

function attribute(element: Element, name: string): string {
  return present(element.attribs[name], `${name} of <${element.name}>`);
}
