/**
 * A paragraph in its role: type, column, edge and space from the style file, and a bar at its start
 * where it is a note or a caution.
 */
import type { Block, ParagraphRole } from '../../document.ts';
import type { Mark } from '../frames.ts';
import { prepareText, setLines } from '../lines/paragraph.ts';
import type { Prepared } from '../lines/pieces.ts';
import type { Area, Column, Setting } from '../setting.ts';
import { type Slab, withEnds } from '../slab.ts';
import type { ParagraphStyle } from '../style.ts';
import { lineSlabs } from './text-slabs.ts';

export type Paragraph = Extract<Block, { kind: 'paragraph' }>;

/** Narrower columns are set ragged: their spaces would gape. In sizes of the type. */
const NARROWEST_JUSTIFIED = 26;

export function paragraphSlabs(
  block: Paragraph,
  area: Area,
  parent: number,
  setting: Setting,
): Slab[] {
  const style = setting.style.paragraphs[block.role];
  const tag = setting.tags.add('P', parent);
  const prepared = prepareText(block.content, style.type, tag, setting);
  return roleSlabs(prepared, block.role, style.wide ? area.wide : area.text, setting);
}

/** Lines of a text that was prepared in the type of its role. */
export function roleSlabs(
  prepared: Prepared,
  role: ParagraphRole,
  column: Column,
  setting: Setting,
): Slab[] {
  const style = setting.style.paragraphs[role];
  const inset = style.bar === undefined ? 0 : style.bar.width + style.bar.gap;
  const width = column.width - inset;
  const lines = setLines(
    prepared,
    {
      x: column.x + inset,
      width,
      size: style.type.size,
      justified: style.justified && width >= style.type.size * NARROWEST_JUSTIFIED,
      hyphenation: style.hyphenation,
    },
    setting,
  );
  const slabs = lineSlabs(lines, style.type, setting).map((each) => ({
    ...each,
    marks: [...barMarks(style, column, each.height, setting), ...each.marks],
  }));
  return withEnds(slabs, { before: style.before }, { after: style.after });
}

function barMarks(
  { bar }: ParagraphStyle,
  column: Column,
  height: number,
  setting: Setting,
): Mark[] {
  if (bar === undefined) return [];
  const fill = setting.style.colours[bar.colour];
  return [{ kind: 'box', x: column.x, y: 0, width: bar.width, height, fill, tag: 'artifact' }];
}
