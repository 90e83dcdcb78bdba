/**
 * Blocks one after the other: sends each to the room that sets it, puts rows of instructions that
 * follow each other in one list, half figures side by side, and keeps together what must be.
 */
import { assertNever } from '../../../base/assert.ts';
import type { Block } from '../../document.ts';
import type { Area, Setting } from '../setting.ts';
import { type Slab, stackHeight, withEnds } from '../slab.ts';
import { tableSlabs } from '../table/table.ts';
import { definitionSlabs } from './definitions.ts';
import { figureSlabs, pairSlabs } from './figure.ts';
import { headingSlabs } from './heading.ts';
import { instructionSlabs } from './instruction.ts';
import { listSlabs } from './list.ts';
import { paragraphSlabs } from './paragraph.ts';

/** Cost of a page that begins inside what should stay together, and of one where it cannot. */
const TOGETHER = 100_000;
const TORN = 150;

/** Cost of a page that ends with a heading and only a line or two of what it is over. */
const BARE_HEADING = 350;
const FEW_LINES = 3;

const follows = (above: Block | undefined): boolean => above?.kind === 'heading';

function heldByHeading(slabs: readonly Slab[]): readonly Slab[] {
  if (slabs.length >= FEW_LINES) return slabs;
  const last = slabs.at(-1);
  return withEnds(slabs, {}, { breakAfter: Math.max(BARE_HEADING, last?.breakAfter ?? 0) });
}

export function flowSlabs(
  blocks: readonly Block[],
  area: Area,
  parent: number,
  setting: Setting,
): Slab[] {
  const slabs: Slab[] = [];
  let list: number | undefined;
  const add = (set: readonly Slab[], index: number): void => {
    slabs.push(...(follows(blocks[index - 1]) ? heldByHeading(set) : set));
  };
  for (let index = 0; index < blocks.length; index++) {
    const block = blocks[index] as Block;
    if (block.kind === 'instruction') {
      const first = list === undefined;
      list ??= setting.tags.add('L', parent);
      const rows = instructionSlabs(block, area, list, setting);
      const { around } = setting.style.instruction;
      const last = blocks[index + 1]?.kind !== 'instruction';
      add(withEnds(rows, first ? { before: around } : {}, last ? { after: around } : {}), index);
      continue;
    }
    list = undefined;
    const next = blocks[index + 1];
    if (isHalf(block) && next !== undefined && isHalf(next)) {
      slabs.push(...pairSlabs(block, next, area, parent, setting));
      index++;
      continue;
    }
    add(blockSlabs(block, area, parent, setting), index);
  }
  return slabs;
}

type HalfFigure = Extract<Block, { kind: 'figure' }>;
const isHalf = (block: Block): block is HalfFigure =>
  block.kind === 'figure' && block.size === 'half';

function blockSlabs(
  block: Exclude<Block, { kind: 'instruction' }>,
  area: Area,
  parent: number,
  setting: Setting,
): Slab[] {
  switch (block.kind) {
    case 'heading':
      return headingSlabs(block, area, parent, setting);
    case 'paragraph':
      return paragraphSlabs(block, area, parent, setting);
    case 'list':
      return listSlabs(block, area, parent, setting, (blocks, inner, tag) =>
        flowSlabs(blocks, inner, tag, setting),
      );
    case 'definitions':
      return definitionSlabs(block, area, parent, setting);
    case 'table':
      return tableSlabs(block, area, parent, setting);
    case 'figure':
      return figureSlabs(block, area, parent, setting);
    case 'together':
      return together(flowSlabs(block.children, area, parent, setting), setting);
    case 'section':
      return section(block, area, parent, setting);
    default:
      return assertNever(block);
  }
}

function together(slabs: readonly Slab[], setting: Setting): Slab[] {
  const shrink = slabs.reduce((sum, each) => sum + (each.shrink?.by ?? 0), 0);
  const cost = stackHeight(slabs) - shrink <= setting.pageHeight ? TOGETHER : TORN;
  return slabs.map((each, index) =>
    index === 0 ? each : { ...each, breakBefore: each.breakBefore + cost },
  );
}

function section(
  block: Extract<Block, { kind: 'section' }>,
  area: Area,
  parent: number,
  setting: Setting,
): Slab[] {
  const tag = setting.tags.add('Sect', parent);
  const slabs = flowSlabs(block.children, area, tag, setting);
  const first = slabs[0];
  if (first === undefined) return [];
  const newPage = block.start === 'page' && setting.style.newPages;
  const anchors = [{ id: block.id }, ...(first.anchors ?? [])];
  return withEnds(slabs, { anchors, ...(newPage ? { newPage } : {}) });
}
