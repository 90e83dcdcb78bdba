/**
 * Side notes: headings, short notes and lists of facts that stand in the column beside the text they
 * belong to, level with its first line. They are read before that text, and where a page has no such
 * column, or nothing stands beside it, they are set like anything else.
 */
import { assertNever } from '../../../base/assert.ts';
import type { Block, Place } from '../../document.ts';
import { prepareText, setLines } from '../lines/paragraph.ts';
import type { Area, Column, Setting } from '../setting.ts';
import {
  FORBIDDEN,
  lowered,
  slab,
  type Slab,
  stacked,
  stackHeight,
  withEnds,
  withMarks,
} from '../slab.ts';
import type { TypeStyle } from '../style.ts';
import { standsInText } from './figure.ts';
import { headingSlabs } from './heading.ts';
import { baselineOf, lineSlabs } from './text-slabs.ts';

export type SideBlock = Extract<Block, { kind: 'heading' | 'paragraph' | 'definitions' }> & {
  readonly place: Place;
};

/** Text beside a side note is given this much more room before it is padded. */
const HAIR = 0.01;

export const isSide = (block: Block | undefined): block is SideBlock =>
  block !== undefined && 'place' in block && block.place === 'side';

export const hasSideColumn = ({ text, wide }: Area, setting: Setting): boolean =>
  setting.style.side.width > 0 && text.x - wide.x >= setting.style.side.width;

/** Whether a block leaves the side column free. */
export function leavesSideFree(block: Block | undefined, area: Area, setting: Setting): boolean {
  if (block === undefined || isSide(block)) return false;
  switch (block.kind) {
    case 'paragraph':
      return !setting.style.paragraphs[block.role].wide;
    case 'list':
      return true;
    case 'definitions':
      return setting.style.definitions.columns === 1 || block.narrow === true;
    case 'figure':
      return (
        block.size !== 'half' && block.caption.length === 0 && standsInText(block, area, setting)
      );
    case 'heading':
    case 'instruction':
    case 'table':
    case 'contents':
    case 'together':
    case 'section':
      return false;
    default:
      return assertNever(block);
  }
}

/** The side notes themselves, set in their column. */
export function sideSlabs(
  blocks: readonly SideBlock[],
  area: Area,
  parent: number,
  setting: Setting,
): Slab[] {
  const column = { x: area.wide.x, width: setting.style.side.width };
  return blocks.flatMap((block) => {
    switch (block.kind) {
      case 'heading':
        return headingSlabs(block, area, parent, setting, column);
      case 'paragraph': {
        const type = setting.style.paragraphs.caption.type;
        const prepared = prepareText(block.content, type, setting.tags.add('P', parent), setting);
        return textSlabs(prepared, type, column, setting);
      }
      case 'definitions':
        return factSlabs(block, column, parent, setting);
      default:
        return assertNever(block);
    }
  });
}

function textSlabs(
  prepared: ReturnType<typeof prepareText>,
  type: TypeStyle,
  column: Column,
  setting: Setting,
): Slab[] {
  const options = { ...column, size: type.size, hyphenation: 'sparing' } as const;
  const slabs = lineSlabs(setLines(prepared, options, setting), type, setting);
  return withEnds(slabs, { before: type.size * 0.3 }, { after: type.size * 0.3 });
}

/** Each term above what it means. */
function factSlabs(
  block: Extract<SideBlock, { kind: 'definitions' }>,
  column: Column,
  parent: number,
  setting: Setting,
): Slab[] {
  const { tags, style } = setting;
  const { type } = style.paragraphs.caption;
  const list = tags.add('L', parent);
  return block.entries.flatMap(({ term, description }) => {
    const item = tags.add('LI', list);
    const bold = { ...type, weight: 'bold' } as const;
    const name = prepareText(term, bold, tags.add('Lbl', item), setting);
    const meaning = prepareText(description, type, tags.add('LBody', item), setting);
    const named = withEnds(textSlabs(name, bold, column, setting), {}, { after: 0 });
    return [...named, ...withEnds(textSlabs(meaning, type, column, setting), { before: 0 })];
  });
}

/** Puts side notes beside the slabs that follow them, which begin together and end together. */
export function beside(side: readonly Slab[], text: readonly Slab[], shift: number): Slab[] {
  const [first] = text;
  if (first === undefined) return [...side];
  const height = stackHeight(side) + shift;
  const marks = lowered(stacked(side), shift);
  const anchors = [...side.flatMap((each) => each.anchors ?? []), ...(first.anchors ?? [])];
  let top = 0;
  const held = text.map((each, index): Slab => {
    const above = text[index - 1];
    if (above !== undefined) top += above.height + Math.max(above.after, each.before);
    return top > HAIR && top < height - HAIR ? { ...each, breakBefore: FORBIDDEN } : each;
  });
  const lack = height - stackHeight(text);
  const [head, ...rest] = held;
  const before = Math.max(first.before, side[0]?.before ?? 0);
  const joined = [{ ...withMarks(head as Slab, marks), before, anchors }, ...rest];
  if (lack <= HAIR) return joined;
  return [...joined, slab(lack, [], { breakBefore: FORBIDDEN, before: 0, after: text.at(-1)?.after ?? 0 })]; // prettier-ignore
}

/** How far below its top a block's first baseline lies under that of a side note. */
export function levelShift(side: SideBlock, text: Block, setting: Setting): number {
  const { headings, paragraphs, definitions } = setting.style;
  const own = side.kind === 'heading' ? headings[side.level].type : paragraphs.caption.type;
  const shift = (type: TypeStyle): number => baselineOf(type, setting) - baselineOf(own, setting);
  switch (text.kind) {
    case 'paragraph':
      return shift(paragraphs[text.role].type);
    case 'list':
      return shift(paragraphs.body.type);
    case 'definitions':
      return shift(definitions.description);
    default:
      return 0;
  }
}
