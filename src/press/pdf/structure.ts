/**
 * The structure tree: every tag of the layout with its content, alternative text, language and table
 * scope, and the parent tree that leads from a page's pieces back to their tags (ISO 32000-1, 14.7).
 * A tag's own content is read before its children, as `layout/tag-tree.ts` promises.
 */
import { present } from '../../base/assert.ts';
import type { Laid, Tag } from '../layout/frames.ts';
import { add, assign, bytesText, type PDFContext, type PDFRef, text, type Value } from './objects.ts'; // prettier-ignore
import type { PaintedPages } from './pages.ts';
import type { Box, TagContent } from './tagged-content.ts';

export interface StructureTree {
  readonly root: PDFRef;
  /** By tag. */
  readonly elements: readonly PDFRef[];
}

export function addStructure(context: PDFContext, laid: Laid, pages: PaintedPages): StructureTree {
  const root = context.nextRef();
  const elements = laid.tags.map(() => context.nextRef());
  const parents = parentsOf(laid.tags);
  const boxes = figureBoxes(laid.tags, pages);
  laid.tags.forEach((tag, index) => {
    const parent = parents[index];
    assign(context, present(elements[index], 'an element'), {
      Type: 'StructElem',
      S: tag.role,
      P: parent === undefined ? root : present(elements[parent], 'a parent'),
      ...kidsOf(tag, pages.content.of(index), pages, elements),
      ...(tag.alternative === undefined || tag.role === 'Link'
        ? {}
        : { Alt: text(tag.alternative) }),
      ...(tag.language === undefined ? {} : { Lang: bytesText(tag.language) }),
      ...(tag.role === 'Note' ? { ID: bytesText(noteName(index)) } : {}),
      ...attributesOf(tag, laid.tags, boxes.get(index)),
    });
  });
  const notes = laid.tags.flatMap((tag, index) => (tag.role === 'Note' ? [index] : []));
  assign(context, root, {
    Type: 'StructTreeRoot',
    K: present(elements[0], 'the document tag'),
    ParentTree: parentTree(context, pages, elements),
    ParentTreeNextKey: pages.refs.length + pages.content.annotationTags.length,
    IDTree: notes.length > 0 ? noteTree(context, notes, elements) : undefined,
  });
  return { root, elements };
}

function parentsOf(tags: readonly Tag[]): readonly (number | undefined)[] {
  const parents: (number | undefined)[] = tags.map(() => undefined);
  tags.forEach((tag, index) => tag.children.forEach((child) => (parents[child] = index)));
  return parents;
}

/** Pieces on the tag's first page are named by number alone; others say which page they are on. */
function kidsOf(
  tag: Tag,
  content: TagContent,
  pages: PaintedPages,
  elements: readonly PDFRef[],
): Record<string, Value> {
  const home = content.pieces[0]?.page ?? content.annotations[0]?.page;
  const pageOf = (page: number): PDFRef => present(pages.refs[page], `page ${page}`);
  const kids: Value[] = [
    ...content.pieces.map(({ page, number }): Value =>
      page === home ? number : { Type: 'MCR', Pg: pageOf(page), MCID: number },
    ),
    ...content.annotations.map(({ page, ref }): Value => ({
      Type: 'OBJR',
      Pg: pageOf(page),
      Obj: ref,
    })),
    ...tag.children.map((child) => present(elements[child], `tag ${child}`)),
  ];
  const [only] = kids;
  return {
    ...(home === undefined ? {} : { Pg: pageOf(home) }),
    ...(only === undefined ? {} : { K: kids.length === 1 ? only : kids }),
  };
}

/** Attributes of tables, lists and figures (14.8.5). */
function attributesOf(tag: Tag, tags: readonly Tag[], box: Box | undefined): Record<string, Value> {
  const attributes: Value[] = [];
  if (tag.scope !== undefined || tag.columnSpan !== undefined) {
    attributes.push({ O: 'Table', Scope: tag.scope, ColSpan: tag.columnSpan });
  }
  if (tag.role === 'L') attributes.push({ O: 'List', ListNumbering: numbering(tag, tags) });
  if (box)
    attributes.push({ O: 'Layout', BBox: box.map((value) => Math.round(value * 100) / 100) });
  const [only] = attributes;
  if (only === undefined) return {};
  return { A: attributes.length === 1 ? only : attributes };
}

/** A list whose items have labels says of which kind they are. */
function numbering(list: Tag, tags: readonly Tag[]): string {
  if (list.ordered) return 'Decimal';
  const labelled = list.children.some((item) =>
    tags[item]?.children.some((part) => tags[part]?.role === 'Lbl'),
  );
  return labelled ? 'Disc' : 'None';
}

/** Each figure's box, with what its children cover; only where it stands on one page. */
function figureBoxes(tags: readonly Tag[], pages: PaintedPages): ReadonlyMap<number, Box> {
  const boxes = new Map<number, Box>();
  tags.forEach((tag, index) => {
    if (tag.role !== 'Figure') return;
    const covered = coveredBy(index, tags, pages);
    const [first] = covered;
    if (!first || covered.some(({ page }) => page !== first.page)) return;
    boxes.set(index, [
      Math.min(...covered.map(({ box }) => box[0])),
      Math.min(...covered.map(({ box }) => box[1])),
      Math.max(...covered.map(({ box }) => box[2])),
      Math.max(...covered.map(({ box }) => box[3])),
    ]);
  });
  return boxes;
}

function coveredBy(
  tag: number,
  tags: readonly Tag[],
  pages: PaintedPages,
): NonNullable<TagContent['box']>[] {
  const own = pages.content.of(tag).box;
  const children = tags[tag]?.children ?? [];
  return [...(own ? [own] : []), ...children.flatMap((child) => coveredBy(child, tags, pages))];
}

/** A number tree: pages lead to the tags of their pieces, annotations to one tag each. */
function parentTree(
  context: PDFContext,
  { content }: PaintedPages,
  elements: readonly PDFRef[],
): PDFRef {
  const element = (tag: number): PDFRef => present(elements[tag], `tag ${tag}`);
  const ofPages = content.owners.flatMap((owners, page): Value[] => [
    page,
    add(context, owners.map(element)),
  ]);
  const ofAnnotations = content.annotationTags.flatMap((tag, place): Value[] => [
    content.owners.length + place,
    element(tag),
  ]);
  return add(context, { Nums: [...ofPages, ...ofAnnotations] });
}

/** Notes must have names of their own (ISO 14289-1, 7.9); equal lengths keep them sorted. */
const noteName = (tag: number): string => `note-${String(tag).padStart(6, '0')}`;

function noteTree(
  context: PDFContext,
  notes: readonly number[],
  elements: readonly PDFRef[],
): PDFRef {
  const names = notes.flatMap((tag): Value[] => [
    bytesText(noteName(tag)),
    present(elements[tag], 'a note'),
  ]);
  return add(context, { Names: names });
}
