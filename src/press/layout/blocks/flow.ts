/**
 * Blocks one after the other: sends each to the room that sets it, puts rows of instructions that
 * follow each other in one list, half figures side by side, and keeps together what must be.
 */
import { assertNever } from '../../../base/assert.ts';
import type { Block } from '../../document.ts';
import type { Area, Setting } from '../setting.ts';
import { slab, type Slab, stackHeight, withEnds } from '../slab.ts';
import { tableSlabs } from '../table/table.ts';
import {
  beside,
  hasSideColumn,
  isSide,
  leavesSideFree,
  levelShift,
  type SideBlock,
  sideSlabs,
} from './beside.ts';
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
/** Cost of turning the page inside a section: where all else is equal, pages end as sections do. */
const INSIDE_SECTION = 45;

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
  const flow = new Flow(blocks, area, parent, setting, isPart);
  while (flow.index < blocks.length) flow.next();
  return flow.slabs;
}

class Flow {
  readonly slabs: Slab[] = [];
  index = 0;
  readonly #blocks: readonly Block[];
  readonly #area: Area;
  readonly #parent: number;
  readonly #setting: Setting;
  readonly #isPart: boolean;
  /** Tag of the list that rows of instructions stand in while they follow each other. */
  #list: number | undefined;

  constructor(
    blocks: readonly Block[],
    area: Area,
    parent: number,
    setting: Setting,
    isPart: boolean,
  ) {
    this.#blocks = blocks;
    this.#area = area;
    this.#parent = parent;
    this.#setting = setting;
    this.#isPart = isPart;
  }

  /** Sets the next block, or as many as are set together. */
  next(): void {
    const block = this.#blocks[this.index] as Block;
    const following = this.#blocks[this.index + 1];
    if (block.kind !== 'instruction') this.#list = undefined;
    if (block.kind === 'instruction') this.#add(this.#row(block), 1);
    else if (isSide(block) && this.#fitsBeside()) this.#setBeside();
    else if (isHalf(block) && following !== undefined && isHalf(following)) {
      this.slabs.push(...pairSlabs(block, following, this.#area, this.#parent, this.#setting));
      this.index += 2;
    } else this.#add(blockSlabs(block, this.#area, this.#parent, this.#setting), 1);
  }

  #add(set: readonly Slab[], count: number): void {
    const block = this.#blocks[this.index];
    const next = this.#blocks[this.index + count];
    const closing =
      next === undefined ? this.#isPart : next.kind === 'heading' || next.kind === 'section';
    // A section stands for itself, however few lines it has.
    const own = block?.kind === 'section';
    this.slabs.push(...(own ? set : held(set, this.#blocks[this.index - 1], closing)));
    this.index += count;
  }

  #row(block: Extract<Block, { kind: 'instruction' }>): Slab[] {
    const first = this.#list === undefined;
    this.#list ??= this.#setting.tags.add('L', this.#parent);
    const rows = instructionSlabs(block, this.#area, this.#list, this.#setting);
    const { around } = this.#setting.style.instruction;
    const last = this.#blocks[this.index + 1]?.kind !== 'instruction';
    return withEnds(rows, first ? { before: around } : {}, last ? { after: around } : {});
  }

  /** Side notes that follow each other, and whether text follows that they may stand beside. */
  #fitsBeside(): boolean {
    if (!hasSideColumn(this.#area, this.#setting)) return false;
    let at = this.index;
    while (isSide(this.#blocks[at])) at += 1;
    return leavesSideFree(this.#blocks[at], this.#area, this.#setting);
  }

  #setBeside(): void {
    const notes: SideBlock[] = [];
    for (let each = this.#blocks[this.index]; isSide(each); each = this.#blocks[this.index]) {
      notes.push(each);
      this.index += 1;
    }
    const side = sideSlabs(notes, this.#area, this.#parent, this.#setting);
    const shift = levelShift(
      notes[0] as SideBlock,
      this.#blocks[this.index] as Block,
      this.#setting,
    );
    const start = this.slabs.length;
    // As much of the text as the notes are high.
    do {
      const block = this.#blocks[this.index] as Exclude<Block, { kind: 'instruction' }>;
      this.#add(blockSlabs(block, this.#area, this.#parent, this.#setting), 1);
    } while (
      stackHeight(this.slabs.slice(start)) < stackHeight(side) + shift &&
      leavesSideFree(this.#blocks[this.index], this.#area, this.#setting)
    );
    this.slabs.push(...beside(side, this.slabs.splice(start), shift));
  }
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
    case 'contents': {
      const position = setting.tags.childCount(parent);
      return [slab(0, [], { contents: { block, parent, position } })];
    }
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
  const slabs = flowSlabs(block.children, area, tag, setting, true).map((each, index) =>
    index === 0 ? each : { ...each, breakBefore: each.breakBefore + INSIDE_SECTION },
  );
  const first = slabs[0];
  if (first === undefined) return [];
  const newPage = block.start === 'page' && setting.style.newPages;
  const anchors = [{ id: block.id }, ...(first.anchors ?? [])];
  return withEnds(slabs, { anchors, ...(newPage ? { newPage } : {}) });
}
