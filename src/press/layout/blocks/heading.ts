/**
 * A heading: set large in its own column, a rule over it where the style asks, and never at the foot
 * of a page. It is a place for links to point at and, unless it names the document, a bookmark.
 */
import type { Block } from '../../document.ts';
import { plainText } from '../lines/flat-text.ts';
import { prepareText, setLines } from '../lines/paragraph.ts';
import type { Area, Column, Setting } from '../setting.ts';
import { FORBIDDEN, lowered, type Slab } from '../slab.ts';
import { lineSlabs, ruleMark } from './text-slabs.ts';

export type Heading = Extract<Block, { kind: 'heading' }>;

/** `side` is the column it stands in where it stands beside its text. */
export function headingSlabs(
  block: Heading,
  area: Area,
  parent: number,
  setting: Setting,
  side?: Column,
): Slab[] {
  const style = setting.style.headings[block.level];
  const tag = setting.tags.add(`H${block.level}`, parent);
  const column = side ?? (style.wide ? area.wide : area.text);
  const prepared = prepareText(block.content, style.type, tag, setting);
  const lines = setLines(
    prepared,
    { ...column, size: style.type.size, hyphenation: 'sparing' },
    setting,
  );
  const slabs = lineSlabs(lines, style.type, setting);
  const title = plainText(block.content);
  const anchor = { id: block.id, outline: { title, level: block.level, tag } };
  return slabs.map((each, index) => {
    const first = index === 0;
    const top = first && style.rule > 0 ? style.rule + style.ruleGap : 0;
    const { colours } = setting.style;
    const rule =
      top > 0 ? [ruleMark(column.x, style.rule / 2, column.width, style.rule, colours.accent)] : [];
    return {
      ...each,
      height: each.height + top,
      marks: [...rule, ...lowered(each.marks, top)],
      before: first ? style.before : 0,
      after: index === slabs.length - 1 ? style.after : 0,
      breakBefore: first ? 0 : FORBIDDEN,
      breakAfter: FORBIDDEN,
      ...(first ? { anchors: [anchor] } : {}),
    };
  });
}
