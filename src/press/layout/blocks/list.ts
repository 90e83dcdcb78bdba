/**
 * A list: bullets or numbers hang before their items, and items may hold any blocks, lists included.
 * The sign of an item stands on the first line of what the item holds.
 */
import type { Block } from '../../document.ts';
import { prepareText, setLines } from '../lines/paragraph.ts';
import type { Area, Column, Setting } from '../setting.ts';
import { lowered, type Slab, withEnds } from '../slab.ts';
import { baselineOf } from './text-slabs.ts';

export type List = Extract<Block, { kind: 'list' }>;

/** How an item's own blocks are set; passed in, since blocks hold lists and lists hold blocks. */
export type SetBlocks = (blocks: readonly Block[], area: Area, parent: number) => Slab[];

const BULLET = '•';
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
  const inner = indented(column, indent + numberRoom(block, type.size));
  const list = setting.tags.add('L', parent, { ordered: block.ordered });
  const items = block.items.map((blocks, index) => {
    const item = setting.tags.add('LI', list);
    const sign = block.ordered ? `${index + 1}.` : BULLET;
    const label = setting.tags.add('Lbl', item);
    const prepared = prepareText(
      [{ kind: 'text', text: sign, role: 'plain' }],
      { ...type, colour: 'accent' },
      label,
      setting,
    );
    const width = Math.max(1, inner.x - column.x - type.size * 0.4);
    const [line] = setLines(
      prepared,
      { x: column.x, width, size: type.size, align: 'start' },
      setting,
    );
    const body = setting.tags.add('LBody', item);
    const slabs = withEnds(
      setBlocks(blocks, { text: inner, wide: inner }, body),
      { before: between },
      { after: between },
    );
    const marks = lowered(line?.marks ?? [], baselineOf(type, setting));
    const [first, ...rest] = slabs;
    if (first === undefined) return [];
    return [{ ...first, marks: [...marks, ...first.marks] }, ...rest];
  });
  return withEnds(items.flat(), { before: around }, { after: around });
}

const numberRoom = ({ ordered, items }: List, size: number): number =>
  ordered ? size * 0.55 * (String(items.length).length - 1) : 0;
