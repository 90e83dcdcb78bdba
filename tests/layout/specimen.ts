/** A short pattern that uses every kind of block, for looking at and for the golden files. */
import type { Block, Document, TableCell } from '../../src/press/document.ts';
import type { Drawing, Shape } from '../../src/press/drawing/drawing.ts';
import { documentOf, heading, instruction, text } from './documents.ts';
import type { SpecimenTexts } from './specimen-texts.ts';

export const COVER = { hash: 'cover', widthPixels: 2100, heightPixels: 2400 } as const;

/** A grid of cells with a symbol in some of them. */
export function chartDrawing(columns: number, rows: number, cell = 14): Drawing {
  const shapes: Shape[] = [];
  const line = (x1: number, y1: number, x2: number, y2: number): Shape => ({
    kind: 'path',
    steps: [['M', x1, y1], ['L', x2, y2]],
    stroke: { widthPoints: 0.4, colour: '#55524d' },
  }); // prettier-ignore
  for (let x = 0; x <= columns; x++) shapes.push(line(x * cell, 0, x * cell, rows * cell));
  for (let y = 0; y <= rows; y++) shapes.push(line(0, y * cell, columns * cell, y * cell));
  for (let y = 0; y < rows; y++) {
    for (let x = 0; x < columns; x++) {
      if ((x * 3 + y) % 4 !== 0) continue;
      shapes.push({ kind: 'use', symbol: 'purl', x: x * cell, y: y * cell });
    }
  }
  const purl: Shape = {
    kind: 'path',
    steps: [['M', cell * 0.25, cell / 2], ['L', cell * 0.75, cell / 2]],
    stroke: { widthPoints: 1.4, colour: '#1d1c1a', cap: 'round' },
  }; // prettier-ignore
  return {
    widthPoints: columns * cell,
    heightPoints: rows * cell,
    symbols: { purl: [purl] },
    shapes,
  };
}

const SIZES = ['S', 'M', 'L', 'XL', '2XL'];

function sizeTable(texts: SpecimenTexts): Block {
  const [size = '', ...names] = texts.measures;
  const cell = (content: string, header?: TableCell['header']): TableCell => ({
    content: [text(content)],
    ...(header === undefined ? {} : { header }),
  });
  const rows = names.map((name, row) => [
    cell(name, 'row'),
    ...SIZES.map((_, column) =>
      cell(`${[52, 44, 21, 150][row]! + column * [3, 4, 1, 20][row]!} ${row === 3 ? 'm' : 'cm'}`),
    ),
  ]);
  return {
    kind: 'table',
    id: 'sizes-table',
    caption: [text(texts.sizesCaption)],
    columns: [
      { align: 'start', stretch: 1 },
      ...SIZES.map(() => ({ align: 'end', stretch: 0.4 }) as const),
    ],
    head: [[cell(size, 'column'), ...SIZES.map((name) => cell(name, 'column'))]],
    rows,
  };
}

function front(texts: SpecimenTexts): Block[] {
  return [
    heading(texts.title, 1, 'title'),
    { kind: 'paragraph', role: 'byline', content: [text(texts.byline)] },
    {
      kind: 'figure',
      id: 'cover',
      content: { kind: 'picture', ...COVER },
      alternative: texts.cover,
      caption: [text(texts.cover)],
      size: 'cover',
    },
    { kind: 'paragraph', role: 'lead', content: [text(texts.lead)] },
  ];
}

function needed(texts: SpecimenTexts): Block {
  return {
    kind: 'section',
    id: 'needed',
    start: 'page',
    children: [
      heading(texts.sizes, 2, 'sizes'),
      sizeTable(texts),
      { kind: 'paragraph', role: 'note', content: [text(texts.note)] },
      heading(texts.materials, 2, 'materials'),
      {
        kind: 'list',
        ordered: false,
        items: texts.material.map((content): Block[] => [
          { kind: 'paragraph', role: 'body', content: [text(content)] },
        ]),
      },
      heading(texts.gauge, 2, 'gauge'),
      { kind: 'paragraph', role: 'body', content: [text(texts.gaugeText)] },
      { kind: 'paragraph', role: 'caution', content: [text(texts.caution)] },
      heading(texts.abbreviations, 2, 'abbreviations'),
      {
        kind: 'definitions',
        entries: texts.terms.map(([term, description]) => ({
          term: [text(term, 'abbreviation')],
          description: [text(description)],
        })),
      },
    ],
  };
}

function worked(texts: SpecimenTexts, repeats: number): Block {
  const rows = Array.from({ length: repeats }, () =>
    texts.rows.map(([label, content, count]) => instruction(label, content, count)),
  ).flat();
  return {
    kind: 'section',
    id: 'worked',
    start: 'page',
    children: [
      heading(texts.brim, 2, 'brim'),
      {
        kind: 'paragraph',
        role: 'body',
        content: [
          text(texts.brimText + ' '),
          { kind: 'link', target: '#chart', children: [text(texts.chart)] },
        ],
      },
      ...rows,
      heading(texts.crown, 3, 'crown'),
      {
        kind: 'figure',
        id: 'chart',
        content: { kind: 'drawing', drawing: chartDrawing(20, 12) },
        alternative: texts.chart,
        caption: [text(texts.chart)],
        size: 'natural',
      },
      { kind: 'paragraph', role: 'fine', content: [text(texts.fine)] },
    ],
  };
}

export function specimen(
  texts: SpecimenTexts,
  more: Partial<Document> = {},
  repeats = 2,
): Document {
  return documentOf([...front(texts), needed(texts), worked(texts, repeats)], {
    language: texts.language,
    direction: texts.direction,
    title: texts.title,
    footer: { start: `${texts.title} · 1.0`, end: '{page} / {pages}' },
    ...more,
  });
}
