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

/** Cost of a page that ends with a heading and a line or two of its text, or begins with the last. */
const BARE_HEADING = 350;
const LEFT_OVER = 350;
const FEW_LINES = 3;

/** A short block stays with the heading above it, or with the text it ends. */
function held(slabs: readonly Slab[], above: Block | undefined, closing: boolean): readonly Slab[] {
  const [first] = slabs;
  const last = slabs.at(-1);
  if (first === undefined || last === undefined || slabs.length >= FEW_LINES) return slabs;
  if (above === undefined) return slabs;
  if (above.kind === 'heading') {
    return withEnds(slabs, {}, { breakAfter: Math.max(BARE_HEADING, last.breakAfter) });
  }
  return closing ? withEnds(slabs, { breakBefore: Math.max(LEFT_OVER, first.breakBefore) }) : slabs;
}

/** Sets blocks in order; `isPart` where they are a part of the document that ends with them. */
export function flowSlabs(
  blocks: readonly Block[],
  area: Area,
  parent: number,
  setting: Setting,
  isPart = false,
): Slab[] {
  const slabs: Slab[] = [];
  let list: number | undefined;
  const add = (set: readonly Slab[], index: number): void => {
    const next = blocks[index + 1];
    const closing =
      next === undefined ? isPart : next.kind === 'heading' || next.kind === 'section';
    slabs.push(...held(set, blocks[index - 1], closing));
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
  const slabs = flowSlabs(block.children, area, tag, setting, true);
  const first = slabs[0];
  if (first === undefined) return [];
  const newPage = block.start === 'page' && setting.style.newPages;
  const anchors = [{ id: block.id }, ...(first.anchors ?? [])];
  return withEnds(slabs, { anchors, ...(newPage ? { newPage } : {}) });
}
