/**
 * A heading: set large in its own column, a rule over it where the style asks, and never at the foot
 * of a page. It is a place for links to point at and, unless it names the document, a bookmark.
 */
import type { Block, Inline } from '../../document.ts';
import { plainText } from '../lines/flat-text.ts';
import { narrowestWidth, prepareText, setLines } from '../lines/paragraph.ts';
import { type Prepared, scaled } from '../lines/pieces.ts';
import type { Area, Column, Setting } from '../setting.ts';
import { FORBIDDEN, lowered, type Slab } from '../slab.ts';
import type { Hyphenation, TypeStyle } from '../style.ts';
import { lineSlabs, ruleMark } from './text-slabs.ts';

/** A heading may shrink to this share of its size. */
const SMALLEST_SHARE = 0.72;
/** Sums of widths differ by a hair. */
const ALMOST = 0.999;

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
  const prepared = prepareText(block.content.flatMap(withWordsWhole), style.type, tag, setting);
  const { scale, hyphenation } = fitWords(prepared, style.type, column.width, setting);
  const { size, leading } = style.type;
  const type = { ...style.type, size: size * scale, leading: leading * scale };
  const lines = setLines(
    scaled(prepared, scale),
    { ...column, size: type.size, hyphenation },
    setting,
  );
  const slabs = lineSlabs(lines, type, setting);
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

const KATAKANA_WORD = /([\p{Script=Katakana}ー]{2,})/u;

/** Japanese may break inside a word; a heading that ends in half of `カーディガン` looks torn. */
function withWordsWhole(inline: Inline): Inline[] {
  if (inline.kind !== 'text') return [inline];
  const parts = inline.text.split(KATAKANA_WORD).filter((part) => part !== '');
  return parts.map((text): Inline => {
    const own = { ...inline, text };
    return KATAKANA_WORD.test(text) ? { kind: 'unbroken', children: [own] } : own;
  });
}

/**
 * Words of a heading stay whole: where one is too long for its column the heading is set smaller, and
 * only where it would become too small are words divided.
 */
function fitWords(
  prepared: Prepared,
  { size }: TypeStyle,
  width: number,
  setting: Setting,
): { readonly scale: number; readonly hyphenation: Hyphenation } {
  const longest = narrowestWidth(prepared, setting);
  if (longest <= width) return { scale: 1, hyphenation: 'none' };
  const least = Math.min(1, Math.max(SMALLEST_SHARE, setting.style.leastSize / size));
  const scale = (width / longest) * ALMOST;
  if (scale >= least) return { scale, hyphenation: 'none' };
  return { scale: least, hyphenation: 'usual' };
}
