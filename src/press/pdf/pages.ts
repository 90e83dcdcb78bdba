/**
 * Paints the marks of a page. Neighbouring marks of one tag share one piece of marked content; page
 * furniture is marked as artifact, so that a screen reader passes it over (ISO 32000-1, 14.6 and 14.8).
 * Frames count y downwards from the top, PDF upwards from the bottom: this is where they turn over.
 */
import { assert, assertNever } from '../../base/assert.ts';
import type { Laid, Mark, Page, TagRef } from '../layout/frames.ts';
import { Canvas } from './canvas.ts';
import { paintDrawing } from './drawings.ts';
import { addLink } from './links.ts';
import { assign, packedStream, type PDFRef } from './objects.ts';
import { numbers } from './operators.ts';
import type { Resources } from './resources.ts';
import { type Box, TaggedContent } from './tagged-content.ts';
import { paintRuns } from './text-lines.ts';

type RunMark = Extract<Mark, { kind: 'run' }>;
type LinkMark = Extract<Mark, { kind: 'link' }>;
type PaintedMark = Exclude<Mark, LinkMark>;

/** The pages of a document: their references are known before they are painted. */
export interface PaintedPages {
  readonly refs: readonly PDFRef[];
  readonly tree: PDFRef;
  readonly content: TaggedContent;
}

export function paintPages(laid: Laid, resources: Resources): PaintedPages {
  const { context } = resources;
  const refs = laid.pages.map(() => context.nextRef());
  const tree = context.nextRef();
  const content = new TaggedContent(laid.pages.length);
  const pages: PaintedPages = { refs, tree, content };
  laid.pages.forEach((page, index) => {
    const painted = packedStream(context, paintPage(laid, page, index, resources, content));
    const links = page.marks.filter((mark) => mark.kind === 'link');
    const annotations = links.map((link) => addLink(context, laid, link, index, pages));
    assign(context, refs[index] as PDFRef, {
      Type: 'Page',
      Parent: tree,
      MediaBox: [0, 0, page.widthPoints, page.heightPoints],
      Resources: resources.ref,
      Contents: painted,
      StructParents: index,
      Tabs: 'S',
      Annots: annotations.length > 0 ? annotations : undefined,
    });
  });
  assign(context, tree, { Type: 'Pages', Kids: refs, Count: refs.length });
  return pages;
}

function paintPage(
  laid: Laid,
  page: Page,
  index: number,
  resources: Resources,
  content: TaggedContent,
): string {
  const canvas = new Canvas();
  for (const group of groupsOf(page)) {
    canvas.add(opening(group, laid, index, content));
    paintGroup(canvas, group, page.heightPoints, resources);
    canvas.add('EMC');
    const { tag } = group;
    if (tag === 'artifact') continue;
    for (const mark of group.marks) content.cover(tag, index, boxOf(mark, page.heightPoints));
  }
  return canvas.toString();
}

interface Group {
  readonly tag: TagRef;
  /** What a reader may do with an artifact: text at the edge of the page, or lines and tints. */
  readonly artifact: 'Pagination' | 'Layout';
  readonly marks: PaintedMark[];
}

function groupsOf(page: Page): Group[] {
  const groups: Group[] = [];
  for (const mark of page.marks) {
    if (mark.kind === 'link') continue;
    const artifact = mark.kind === 'run' ? 'Pagination' : 'Layout';
    const last = groups.at(-1);
    if (last?.tag === mark.tag && last.artifact === artifact) last.marks.push(mark);
    else if (last?.tag === mark.tag && mark.tag !== 'artifact') last.marks.push(mark);
    else groups.push({ tag: mark.tag, artifact, marks: [mark] });
  }
  return groups;
}

function opening(group: Group, laid: Laid, page: number, content: TaggedContent): string {
  if (group.tag === 'artifact') return `/Artifact <</Type /${group.artifact}>> BDC`;
  const tag = laid.tags[group.tag];
  assert(tag, `a mark belongs to tag ${group.tag}, which is not there`);
  return `/${tag.role} <</MCID ${content.open(group.tag, page)}>> BDC`;
}

function paintGroup(canvas: Canvas, group: Group, height: number, resources: Resources): void {
  let runs: RunMark[] = [];
  const flush = (): void => {
    if (runs.length === 0) return;
    paintRuns(
      canvas,
      runs.map((mark) => ({ ...mark, y: height - mark.y })),
      resources.font,
    );
    runs = [];
  };
  for (const mark of group.marks) {
    if (mark.kind === 'run') {
      runs.push(mark);
      continue;
    }
    flush();
    paintMark(canvas, mark, height, resources);
  }
  flush();
}

function paintMark(
  canvas: Canvas,
  mark: Exclude<PaintedMark, RunMark>,
  height: number,
  resources: Resources,
): void {
  switch (mark.kind) {
    case 'rule': {
      const { x1, y1, x2, y2, widthPoints, colour } = mark;
      canvas.stroke({ widthPoints, colour });
      canvas.add(`${numbers(x1, height - y1)} m ${numbers(x2, height - y2)} l S`);
      return;
    }
    case 'box':
      canvas.fill(mark.fill);
      canvas.add(`${numbers(mark.x, height - mark.y - mark.height, mark.width, mark.height)} re f`);
      return;
    case 'picture': {
      const place = [mark.width, 0, 0, mark.height, mark.x, height - mark.y - mark.height];
      canvas.add(`q ${numbers(...place)} cm /${resources.picture(mark.hash)} Do Q`);
      return;
    }
    case 'drawing':
      canvas.save(mark.scale, 0, 0, -mark.scale, mark.x, height - mark.y);
      paintDrawing(canvas, mark.drawing, mark.language, resources);
      canvas.restore();
      return;
    default:
      assertNever(mark);
  }
}

/** What a mark covers, y up. */
function boxOf(mark: PaintedMark, height: number): Box {
  switch (mark.kind) {
    case 'run': {
      const { x, y, sizePoints, run } = mark;
      const bottom = height - y - sizePoints * 0.25;
      return [x, bottom, x + (run.width * sizePoints) / 1000, bottom + sizePoints * 1.25];
    }
    case 'rule': {
      const { x1, y1, x2, y2 } = mark;
      const [top, bottom] = [height - Math.min(y1, y2), height - Math.max(y1, y2)];
      return [Math.min(x1, x2), bottom, Math.max(x1, x2), top];
    }
    case 'box':
    case 'picture':
      return [mark.x, height - mark.y - mark.height, mark.x + mark.width, height - mark.y];
    case 'drawing': {
      const { widthPoints, heightPoints } = mark.drawing;
      const bottom = height - mark.y - heightPoints * mark.scale;
      return [mark.x, bottom, mark.x + widthPoints * mark.scale, height - mark.y];
    }
    default:
      return assertNever(mark);
  }
}
