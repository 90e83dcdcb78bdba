/**
 * Terms and what they mean, such as a list of abbreviations: terms hang in a column of their own, and
 * short entries stand in two columns, read down the first and then the second. A long list is cut into
 * groups, each low enough to find room on a page, so that no column runs over to the next page.
 */
import type { Block, Inline } from '../../document.ts';
import type { Mark } from '../frames.ts';
import { prepareText, setLines, widestWidth } from '../lines/paragraph.ts';
import type { Prepared } from '../lines/pieces.ts';
import type { Area, Column, Setting } from '../setting.ts';
import { lowered, slab, type Slab, stacked, stackHeight, withEnds } from '../slab.ts';
import { baselineOf, lineBreakCost, lineGrowth } from './text-slabs.ts';

export type Definitions = Extract<Block, { kind: 'definitions' }>;

interface Entry {
  readonly term: Prepared;
  readonly description: Prepared;
}

const FEWEST_FOR_COLUMNS = 5;
/** Cost of a page that begins or ends with one entry alone. */
const NEAR_END = 200;
/** Two columns must be lower than one by this much. */
const WORTH_TWO = 0.85;
/** Shares of the page: an entry this high wants the whole width; a group is no higher than this. */
const HIGHEST_ENTRY = 0.2;
const HIGHEST_GROUPS = [0.42, 0.24, 0.15];
/** Cost of each further group: alphabets are looked through more easily in one. */
const FURTHER_GROUP = 70;
/** A column narrower than this, in sizes of the type, reads badly. */
const NARROWEST_COLUMN = 17;

export function definitionSlabs(
  block: Definitions,
  area: Area,
  parent: number,
  setting: Setting,
): Slab[] {
  const { definitions: style } = setting.style;
  const list = setting.tags.add('L', parent);
  const entries = block.entries.map((entry) => prepareEntry(entry, list, setting));
  const half = (area.wide.width - style.columnGap) / 2;
  const wantsTwo =
    style.columns === 2 &&
    block.narrow !== true &&
    entries.length >= FEWEST_FOR_COLUMNS &&
    half >= style.description.size * NARROWEST_COLUMN;
  const one = entries.flatMap((entry, index) => {
    const set = setEntry(entry, area.text, entries, setting);
    const nearEnd = index === 1 || index === entries.length - 1;
    return nearEnd ? withEnds(set, { breakBefore: NEAR_END }) : set;
  });
  const two = wantsTwo ? inTwoColumns(entries, area.wide, half, setting) : [];
  const [first] = two;
  const saves = first !== undefined && stackHeight(first) < stackHeight(one) * WORTH_TWO;
  const slabs = saves ? [chosenLater(two)] : one;
  return withEnds(slabs, { before: style.around }, { after: style.around });
}

/** In groups of several heights, of which the pages take what suits them. */
function chosenLater(ways: readonly (readonly Slab[])[]): Slab {
  const [usual = []] = ways;
  const choices = ways.map((slabs) => ({ slabs, cost: (slabs.length - 1) * FURTHER_GROUP }));
  return slab(stackHeight(usual), stacked(usual), { choices });
}

function prepareEntry(
  entry: { readonly term: readonly Inline[]; readonly description: readonly Inline[] },
  list: number,
  setting: Setting,
): Entry {
  const { tags, style } = setting;
  const item = tags.add('LI', list);
  const term = prepareText(entry.term, style.definitions.term, tags.add('Lbl', item), setting);
  const body = tags.add('LBody', item);
  return {
    term,
    description: prepareText(entry.description, style.definitions.description, body, setting),
  };
}

/** One entry in a column: slabs of lines, the term beside the first of them. */
function setEntry(
  { term, description }: Entry,
  column: Column,
  all: readonly Entry[],
  setting: Setting,
): Slab[] {
  const { definitions: style } = setting.style;
  const termWidth = Math.min(
    column.width * style.termShare,
    Math.max(...all.map((entry) => widestWidth(entry.term))),
  );
  const indent = termWidth + style.termGap;
  const terms = setLines(term, { x: column.x, width: termWidth, size: style.term.size }, setting);
  const lines = setLines(
    description,
    {
      x: column.x + indent,
      width: column.width - indent,
      size: style.description.size,
      hyphenation: 'sparing',
    },
    setting,
  );
  const count = Math.max(terms.length, lines.length);
  return Array.from({ length: count }, (_, index) => {
    const here = [terms[index], lines[index]].filter((line) => line !== undefined);
    const growth = Math.max(0, ...here.map((line) => lineGrowth(line, style.description, setting)));
    const y = baselineOf(style.description, setting) + growth;
    const marks: Mark[] = lowered(
      here.flatMap((line) => line.marks),
      y,
    );
    return slab(style.description.leading + growth, marks, {
      before: index === 0 ? style.between : 0,
      after: index === count - 1 ? style.between : 0,
      breakBefore: lineBreakCost(index, count),
    });
  });
}

/** Groups of two columns, one slab each, in each of several ways; none where an entry is too long. */
function inTwoColumns(
  entries: readonly Entry[],
  wide: Column,
  width: number,
  setting: Setting,
): Slab[][] {
  const { columnGap, between } = setting.style.definitions;
  const first = { x: wide.x, width };
  const shift = width + columnGap;
  const left = entries.map((entry) => setEntry(entry, first, entries, setting));
  const heights = left.map((slabs) => stackHeight(slabs) + between);
  if (Math.max(...heights) > setting.pageHeight * HIGHEST_ENTRY) return [];
  const setGroup = ({ start, middle, end }: Group): Slab => {
    const columns = [left.slice(start, middle).flat(), left.slice(middle, end).flat()];
    const marks = columns.flatMap((slabs, index) =>
      stacked(slabs).map((mark) => (index === 0 ? mark : shifted(mark, shift))),
    );
    const height = Math.max(...columns.map(stackHeight));
    return slab(height, marks, { before: between * 2, after: between * 2, breakBefore: 20 });
  };
  const ways = HIGHEST_GROUPS.map((share) => groupsOf(heights, setting.pageHeight * share));
  const different = ways.filter(({ length }, way) => length !== ways[way - 1]?.length);
  return different.map((groups) => groups.map(setGroup));
}

const shifted = (mark: Mark, dx: number): Mark =>
  mark.kind === 'rule'
    ? { ...mark, x1: mark.x1 + dx, x2: mark.x2 + dx }
    : { ...mark, x: mark.x + dx };

interface Group {
  readonly start: number;
  /** First entry of the second column. */
  readonly middle: number;
  readonly end: number;
}

/** Cuts entries into groups of about equal height, and each group into two columns. */
function groupsOf(heights: readonly number[], highest: number): Group[] {
  const total = heights.reduce((sum, height) => sum + height, 0);
  const count = Math.max(1, Math.ceil(total / 2 / highest));
  const groups: Group[] = [];
  let start = 0;
  for (let group = 1; group <= count; group++) {
    const end = group === count ? heights.length : splitAt(heights, start, (total * 1) / count);
    if (end > start) groups.push({ start, middle: middleOf(heights, start, end), end });
    start = end;
  }
  return groups;
}

function splitAt(heights: readonly number[], start: number, wanted: number): number {
  let sum = 0;
  let end = start;
  while (end < heights.length && sum < wanted) sum += heights[end++] as number;
  return end;
}

/** The first column is the higher one, by as little as can be. */
function middleOf(heights: readonly number[], start: number, end: number): number {
  const total = heights.slice(start, end).reduce((sum, height) => sum + height, 0);
  let sum = 0;
  let middle = start;
  while (middle < end && sum < total / 2) sum += heights[middle++] as number;
  return middle;
}
