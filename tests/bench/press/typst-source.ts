/**
 * The yardstick document in the markup of Typst: the same words, tables, charts, drawings and pictures,
 * so that both typesetters do the same work. Charts are SVG files or native shapes, as the caller says.
 */
import type { Block, Document, Inline, TableCell } from '../../../src/press/document.ts';
import type { Drawing } from '../../../src/press/drawing/drawing.ts';
import { toSvg } from '../../../src/press/drawing/index.ts';

export interface TypstDocument {
  readonly main: string;
  /** Files by name that the source reads. */
  readonly files: ReadonlyMap<string, string>;
}

export type Charts = 'svg' | 'shapes';

const HEAD = `
#set document(title: "The yardstick", author: "Northfold")
#set page(margin: (x: 46pt, top: 42pt, bottom: 62pt), footer: context [Yardstick #h(1fr) #counter(page).display("1 / 1", both: true)])
#set par(justify: false, linebreaks: "optimized", leading: 3.6pt, spacing: 7pt)
#show heading.where(level: 1): set text(font: "Noto Serif", size: 28pt)
#show heading.where(level: 2): set text(font: "Noto Serif", size: 15.6pt)
#let purl = line(length: 5pt, stroke: (thickness: 1pt, cap: "round"))
#let left = line(start: (0pt, 5pt), end: (5pt, 0pt), stroke: (thickness: 1pt, cap: "round"))
#let right = line(start: (0pt, 0pt), end: (5pt, 5pt), stroke: (thickness: 1pt, cap: "round"))
#let over = circle(radius: 2.5pt, stroke: 1pt)
`;

/** Where a script needs a face of its own, by primary language. */
const FONTS: Readonly<Record<string, string>> = {
  he: 'Noto Sans Hebrew',
  ja: 'Noto Sans JP',
  ko: 'Noto Sans KR',
  zh: 'Noto Sans SC',
};

export function typstDocument(document: Document, charts: Charts): TypstDocument {
  const files = new Map<string, string>();
  const [language = ''] = document.language.split('-');
  const font = FONTS[language] ?? 'Source Sans 3';
  const paper = document.paper === 'A4' ? 'a4' : 'us-letter';
  const settings = `#set page(paper: "${paper}")
#set text(font: "${font}", size: 8.8pt, lang: "${language}", hyphenate: true)`;
  const blocks = document.blocks.map((block) => blockSource(block, charts, files));
  return { main: [HEAD, settings, ...blocks].join('\n\n'), files };
}

function blockSource(block: Block, charts: Charts, files: Map<string, string>): string {
  switch (block.kind) {
    case 'heading':
      return `${'='.repeat(block.level)} ${inline(block.content)}`;
    case 'paragraph':
      return inline(block.content);
    case 'table': {
      const columns = block.columns.length;
      const cells = (row: readonly TableCell[]) =>
        row.map(({ content }) => `[${inline(content)}]`).join(', ');
      const head = `table.header(${block.head.map(cells).join(', ')})`;
      const rows = block.rows.map(cells).join(',\n');
      return `#figure(caption: [${inline(block.caption)}], table(columns: ${columns}, ${head}, ${rows}))`;
    }
    case 'figure':
      return figureSource(block, charts, files);
    default:
      throw new Error(`the yardstick has no ${block.kind}`);
  }
}

function figureSource(
  block: Extract<Block, { kind: 'figure' }>,
  charts: Charts,
  files: Map<string, string>,
): string {
  const caption = inline(block.caption);
  const alt = JSON.stringify(block.alternative);
  const { content } = block;
  if (content.kind === 'picture') {
    return `#figure(caption: [${caption}], image("${content.hash}.jpg", width: 250pt, alt: ${alt}))`;
  }
  const native = charts === 'shapes' && block.id.startsWith('chart');
  if (native) return `#figure(caption: [${caption}], alt: ${alt}, ${nativeChart(content.drawing)})`;
  const name = `${block.id}.svg`;
  files.set(name, toSvg(content.drawing, { title: block.id, description: '', idPrefix: block.id }));
  const width = content.drawing.widthPoints;
  return `#figure(caption: [${caption}], image("${name}", width: ${width}pt, alt: ${alt}))`;
}

/** A grid with one cell for each square, as anybody would write it. */
function nativeChart({ shapes }: Drawing): string {
  const symbols = new Map(
    shapes.flatMap((shape) =>
      shape.kind === 'use' ? [[`${shape.x / 9} ${shape.y / 9}`, shape.symbol] as const] : [],
    ),
  );
  const cells = Array.from({ length: 60 }, (_, y) => [
    ...Array.from({ length: 40 }, (_, x) => symbols.get(`${x} ${y}`) ?? '[]'),
    `grid.cell(stroke: none, text(6pt)[${60 - y}])`,
  ]);
  return `grid(columns: (9pt,) * 40 + (14pt,), rows: 9pt, align: center + horizon, stroke: 0.4pt + rgb("#444444"), ${cells.flat().join(', ')})`;
}

const inline = (content: readonly Inline[]): string =>
  content.map((each) => (each.kind === 'text' ? each.text : '')).join('');
