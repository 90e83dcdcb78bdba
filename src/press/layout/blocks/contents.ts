/**
 * Sets a table of contents: a title, and one line for each heading with its page at the end, a hairline
 * between them; in two columns where there are many. Lines are links. Tags are made once; lines may be
 * set again with other numbers, which never changes their height.
 */
import type { Block, ContentsEntry } from '../../document.ts';
import type { Mark } from '../frames.ts';
import { prepareText, setLines } from '../lines/paragraph.ts';
import type { Prepared } from '../lines/pieces.ts';
import type { Area, Column, Setting } from '../setting.ts';
import { FORBIDDEN, lowered, slab, type Slab, stackHeight, withEnds } from '../slab.ts';
import { headingSlabs } from './heading.ts';
import { baselineOf, ruleMark } from './text-slabs.ts';

export type ContentsBlock = Extract<Block, { kind: 'contents' }>;

/** Where in the flow and in the tag tree the contents belong. */
export interface ContentsPlace {
  readonly block: ContentsBlock;
  readonly parent: number;
  /** Among the parent's children. */
  readonly position: number;
}

export interface Contents {
  /** `pages` by the ids of headings; numbers that are not there are left blank. */
  slabs(pages: ReadonlyMap<string, number>): Slab[];
}

const FEWEST_FOR_COLUMNS = 9;
/** Width kept for the number, in sizes of the type. */
const NUMBER_WIDTH = 2.6;

interface Line {
  readonly entry: ContentsEntry;
  readonly title: Prepared;
  readonly tag: number;
}

export function prepareContents(
  { block, parent, position }: ContentsPlace,
  area: Area,
  setting: Setting,
): Contents {
  const { tags } = setting;
  const section = tags.add('Sect', parent, {}, position);
  const heading = headingSlabs(
    { kind: 'heading', level: 2, id: block.id, content: block.title },
    area,
    section,
    setting,
  );
  const list = tags.add('TOC', section);
  const lines = block.entries.map((entry): Line => {
    const reference = tags.add('Reference', tags.add('TOCI', list));
    const tag = tags.add('Link', reference, { alternative: entry.title });
    const content = [{ kind: 'text', text: entry.title, role: 'plain' } as const];
    return { entry, title: prepareText(content, typeOf(entry, setting), tag, setting), tag };
  });
  const two = setting.style.contents.columns === 2 && lines.length >= FEWEST_FOR_COLUMNS;
  const set = (pages: ReadonlyMap<string, number>): Slab[] =>
    two ? inTwoColumns(lines, area.wide, pages, setting) : columnOf(lines, area.text, pages, setting); // prettier-ignore
  const { around } = setting.style.contents;
  return {
    slabs(pages) {
      const all = [...heading, ...withEnds(set(pages), {}, { after: around })];
      return withEnds(all, setting.style.newPages ? { newPage: true } : {});
    },
  };
}

const typeOf = ({ level }: ContentsEntry, setting: Setting) =>
  level === 2 ? setting.style.contents.first : setting.style.contents.second;

/** One slab for each entry. */
function columnOf(
  lines: readonly Line[],
  column: Column,
  pages: ReadonlyMap<string, number>,
  setting: Setting,
): Slab[] {
  return lines.map((line, index) => {
    const nearEnd = index === 1 || index === lines.length - 1;
    return { ...entrySlab(line, column, pages, setting), breakBefore: nearEnd ? FORBIDDEN : 20 };
  });
}

function entrySlab(
  { entry, title, tag }: Line,
  column: Column,
  pages: ReadonlyMap<string, number>,
  setting: Setting,
): Slab {
  const { indent, rule, padding } = setting.style.contents;
  const type = typeOf(entry, setting);
  const inset = entry.level === 2 ? 0 : indent;
  const room = type.size * NUMBER_WIDTH;
  const place = { x: column.x + inset, width: column.width - inset - room };
  const lines = setLines(title, { ...place, size: type.size, hyphenation: 'sparing' }, setting);
  const baseline = padding + baselineOf(type, setting);
  const marks: Mark[] = lines.flatMap((line, index) =>
    lowered(line.marks, baseline + index * type.leading),
  );
  const textHeight = Math.max(1, lines.length) * type.leading;
  const height = textHeight + 2 * padding + rule;
  const { hairline } = setting.style.colours;
  marks.push(ruleMark(column.x, height - rule / 2, column.width, rule, hairline));
  marks.push(...numberMarks(pages.get(entry.target), type, tag, baseline + textHeight - type.leading, column, room, setting)); // prettier-ignore
  marks.push({
    kind: 'link', x: place.x, y: padding, width: column.width - inset, height: textHeight,
    target: `#${entry.target}`, tag,
  }); // prettier-ignore
  return slab(height, marks);
}

/** The rule between title and number keeps them apart for a reader too. */
function numberMarks(
  page: number | undefined,
  type: ReturnType<typeof typeOf>,
  tag: number,
  y: number,
  column: Column,
  room: number,
  setting: Setting,
): Mark[] {
  if (page === undefined) return [];
  const content = [{ kind: 'text', text: String(page), role: 'count' } as const];
  const prepared = prepareText(content, type, tag, setting);
  const place = { x: column.x + column.width - room, width: room, size: type.size };
  const [line] = setLines(prepared, { ...place, align: 'end' }, setting);
  return lowered(line?.marks ?? [], y);
}

/** One slab with the entries read down the first column and then the second. */
function inTwoColumns(
  lines: readonly Line[],
  wide: Column,
  pages: ReadonlyMap<string, number>,
  setting: Setting,
): Slab[] {
  const { columnGap } = setting.style.contents;
  const width = (wide.width - columnGap) / 2;
  const places = [wide.x, wide.x + width + columnGap].map((x) => ({ x, width }));
  const set = places.map((place) => lines.map((line) => entrySlab(line, place, pages, setting)));
  const heights = (set[0] ?? []).map(({ height }) => height);
  const middle = middleOf(lines, heights);
  const columns = [(set[0] ?? []).slice(0, middle), (set[1] ?? []).slice(middle)];
  const marks = columns.flatMap((slabs) => {
    let y = 0;
    return slabs.flatMap((each) => {
      const placed = lowered(each.marks, y);
      y += each.height;
      return placed;
    });
  });
  return [slab(Math.max(...columns.map(stackHeight)), marks)];
}

/** The second column begins with a heading of the first level where one is near the middle. */
function middleOf(lines: readonly Line[], heights: readonly number[]): number {
  const total = heights.reduce((sum, height) => sum + height, 0);
  let best = lines.length;
  let least = Infinity;
  let above = 0;
  for (let at = 1; at < lines.length; at += 1) {
    above += heights[at - 1] as number;
    const uneven = Math.abs(total - 2 * above) / total;
    const cost = uneven + ((lines[at] as Line).entry.level === 2 ? 0 : 0.15);
    if (cost < least) [best, least] = [at, cost];
  }
  return best;
}
