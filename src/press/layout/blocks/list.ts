/**
 * A list: bullets or numbers hang before their items, and items may hold any blocks, lists included.
 * The sign of an item stands on the first line of what the item holds.
 */
import type { Block } from '../../document.ts';
import { prepareText, setLines, widestWidth } from '../lines/paragraph.ts';
import type { Area, Column, Setting } from '../setting.ts';
import { lowered, slab, type Slab, withEnds, withMarks } from '../slab.ts';
import { baselineOf } from './text-slabs.ts';

export type List = Extract<Block, { kind: 'list' }>;

/** How an item's own blocks are set; passed in, since blocks hold lists and lists hold blocks. */
export type SetBlocks = (blocks: readonly Block[], area: Area, parent: number) => Slab[];

const BULLET = '•';
/** Cost of a page that begins or ends with one item alone, and of one between other items. */
const NEAR_END = 200;
const BETWEEN_ITEMS = 60;
/** Least space between a sign and its item, in sizes of the type. */
const SIGN_GAP = 0.4;
/** A column is never indented below this width. */
const NARROWEST = 60;

const indented = ({ x, width }: Column, by: number): Column => {
  const indent = Math.max(0, Math.min(by, width - NARROWEST));
  return { x: x + indent, width: width - indent };
};

export function listSlabs(
  block: List,
  area: Area,
  parent: number,
  setting: Setting,
  setBlocks: SetBlocks,
): Slab[] {
  const { indent, between, around } = setting.style.list;
  const { type } = setting.style.paragraphs.body;
  const column = area.text;
  const list = setting.tags.add('L', parent, { ordered: block.ordered });
  const signs = block.items.map((_, index) => {
    const item = setting.tags.add('LI', list);
    const sign = block.ordered ? `${index + 1}.` : BULLET;
    const content = [{ kind: 'text', text: sign, role: 'plain' } as const];
    const label = setting.tags.add('Lbl', item);
    return { item, sign: prepareText(content, { ...type, colour: 'accent' }, label, setting) };
  });
  const widest = Math.max(0, ...signs.map(({ sign }) => widestWidth(sign)));
  const inner = indented(column, Math.max(indent, widest + type.size * SIGN_GAP));
  const items = block.items.map((blocks, index) => {
    const { item, sign } = signs[index] as (typeof signs)[number];
    const [line] = setLines(sign, { x: column.x, width: widest, size: type.size }, setting);
    const body = setting.tags.add('LBody', item);
    const slabs = withEnds(
      setBlocks(blocks, { text: inner, wide: inner }, body),
      { before: between, breakBefore: breakCost(index, block) },
      { after: between },
    );
    const marks = lowered(line?.marks ?? [], baselineOf(type, setting));
    const [first, ...rest] = slabs;
    if (first === undefined) return [slab(type.leading, marks)];
    return [withMarks(first, marks), ...rest];
  });
  return withEnds(items.flat(), { before: around }, { after: around });
}

function breakCost(index: number, { items }: List): number {
  if (index === 0) return 0;
  return index === 1 || index === items.length - 1 ? NEAR_END : BETWEEN_ITEMS;
}
