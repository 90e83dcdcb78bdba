/**
 * The door of the room: a semantic document in, pages of marks and the tree of tags out. It measures
 * through the fonts it is given and knows neither what the document is about nor the file it becomes.
 */
import type { Document } from '../document.ts';
import type { Fonts } from '../fonts/face.ts';
import { flowSlabs } from './blocks/flow.ts';
import { breakWithContents } from './contents.ts';
import type { Laid, LayoutTrouble, Mark, OutlineEntry, Page } from './frames.ts';
import { type FilledPage, fillPage } from './pages/fill-page.ts';
import { footerMarks, headMarks } from './pages/furniture.ts';
import { turned } from './pages/turn.ts';
import { Measuring } from './lines/measuring.ts';
import type { Area, Setting } from './setting.ts';
import { type PageStyle, styleForLanguage } from './style.ts';
import { TagTree } from './tag-tree.ts';

/** Lays out a document in a style. The same input gives the same pages. */
export function layOut(document: Document, style: PageStyle, fonts: Fonts): Laid {
  const setting = settingFor(document, style, fonts);
  const { margins, papers } = setting.style;
  const paper = papers[document.paper];
  const root = setting.tags.add('Document', undefined, { language: document.language });
  const area = areaOf(setting.style, paper.width);
  const flow = flowSlabs(document.blocks, area, root, setting, true);
  const { slabs, ranges, contentsPages } = breakWithContents(flow, area, setting);
  const filled = ranges.map((range) => fillPage(slabs, range, margins.top));
  const pages = filled.length > 0 ? filled : [{ marks: [], anchors: [] }];
  const foot = margins.top + setting.pageHeight;
  const turn = (mark: Mark): Mark =>
    document.direction === 'rtl' ? turned(mark, paper.width) : mark;
  const finished = pages.map(({ marks }, index): Page => {
    const head = document.mark === undefined ? [] : headMarks(document.mark, area.wide, setting);
    const footer = footerMarks(
      document.footer, index + 1, pages.length, area.wide, foot, setting,
    ); // prettier-ignore
    return {
      widthPoints: paper.width,
      heightPoints: paper.height,
      marks: [...head, ...marks, ...footer].map(turn),
    };
  });
  const destinations = destinationsOf(pages);
  return {
    paper: document.paper,
    pages: finished,
    tags: setting.tags.list(),
    outline: outlineOf(pages),
    destinations,
    trouble: [
      ...troubleOf(setting, finished, destinations),
      ...missingGlyphs(document, finished, setting),
    ],
    ...(contentsPages && { contentsPages }),
  };
}

export interface LaidMark {
  readonly heightPoints: number;
  readonly marks: readonly Mark[];
  readonly trouble: readonly LayoutTrouble[];
}

type MarkedDocument = Pick<Document, 'language' | 'direction' | 'paper'>;

/** The mark of every page of a document that was set without it: where `layOut` would set it. */
export function layMark(
  mark: string,
  document: MarkedDocument,
  style: PageStyle,
  fonts: Fonts,
): LaidMark {
  const setting = settingFor(document, style, fonts);
  const { width, height } = setting.style.papers[document.paper];
  const own = headMarks(mark, areaOf(setting.style, width).wide, setting);
  const marks = document.direction === 'rtl' ? own.map((each) => turned(each, width)) : own;
  const trouble = setting.trouble.map(({ kind, text }) => ({ kind, text, page: 0 }));
  return { heightPoints: height, marks, trouble };
}

function settingFor(document: MarkedDocument, style: PageStyle, fonts: Fonts): Setting {
  const own = styleForLanguage(style, document.language);
  const { height } = own.papers[document.paper];
  return {
    style: own,
    measuring: new Measuring(fonts),
    language: document.language,
    direction: document.direction,
    tags: new TagTree(),
    trouble: [],
    pageHeight: height - own.margins.top - own.margins.bottom,
  };
}

/** The whole width between the margins, and the text column beside the side column. */
function areaOf(style: PageStyle, pageWidth: number): Area {
  const { margins, side } = style;
  const width = pageWidth - margins.start - margins.end;
  const indent = side.width + side.gutter;
  return {
    wide: { x: margins.start, width },
    text: { x: margins.start + indent, width: width - indent },
  };
}

function outlineOf(pages: readonly FilledPage[]): OutlineEntry[] {
  return pages.flatMap(({ anchors }, page) =>
    anchors.flatMap(({ outline, y }) => (outline === undefined ? [] : [{ ...outline, page, y }])),
  );
}

function destinationsOf(pages: readonly FilledPage[]): Laid['destinations'] {
  const places = new Map<string, { page: number; y: number }>();
  pages.forEach(({ anchors }, page) => {
    for (const { id, y } of anchors) if (!places.has(id)) places.set(id, { page, y });
  });
  return places;
}

/** Troubles with the page of their place, or of their text. */
function troubleOf(
  { trouble }: Setting,
  pages: readonly Page[],
  places: Laid['destinations'],
): LayoutTrouble[] {
  return trouble.map(({ at, kind, text }) => {
    const place = at === undefined ? undefined : places.get(at);
    return { kind, text, page: place?.page ?? pageWith(text, pages) };
  });
}

/** Lines may part the text, so fewer and fewer letters of its start are looked for. */
function pageWith(text: string, pages: readonly Page[]): number {
  for (const length of [24, 8, 3]) {
    const page = firstPageWith(text.slice(0, length), pages);
    if (page >= 0) return page;
  }
  return 0;
}

const firstPageWith = (start: string, pages: readonly Page[]): number =>
  pages.findIndex(({ marks }) =>
    marks.some((mark) => mark.kind === 'run' && mark.run.text.includes(start)),
  );

/** Each character that no face has, once, where it first stands. */
function missingGlyphs(
  { language }: Document,
  pages: readonly Page[],
  { measuring }: Setting,
): LayoutTrouble[] {
  const style = { family: 'text', weight: 'regular', italic: false, language } as const;
  const asked = new Set<string>();
  return pages.flatMap(({ marks }, page) => {
    let fresh = '';
    for (const mark of marks) {
      if (mark.kind !== 'run') continue;
      for (const { text } of mark.run.glyphs) {
        if (asked.has(text)) continue;
        asked.add(text);
        fresh += text;
      }
    }
    const missing = fresh === '' ? [] : measuring.missing(fresh, style);
    return missing.map((text): LayoutTrouble => ({ kind: 'missing-glyph', page, text }));
  });
}
