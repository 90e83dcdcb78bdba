/**
 * One row of instructions, the block a reader comes back to a thousand times. Its label hangs in the
 * side column, so that the eye finds the row; what to do stands ragged beside it; the count stands
 * apart at the end of the last line; a hairline closes the row. Where there is no side column, as in
 * large print, the label runs into the first line.
 */
import type { Block, Inline } from '../../document.ts';
import type { Mark } from '../frames.ts';
import { narrowestWidth, prepareText, setLines, widestWidth } from '../lines/paragraph.ts';
import type { Prepared } from '../lines/pieces.ts';
import type { SetLine } from '../lines/set-line.ts';
import type { Area, Column, Setting } from '../setting.ts';
import { lowered, slab, type Slab } from '../slab.ts';
import { baselineOf, lineBreakCost, lineGrowth, ruleMark } from './text-slabs.ts';

export type Instruction = Extract<Block, { kind: 'instruction' }>;

/** Turning the page inside a row costs more than anywhere else in running text. */
const INNER_BREAK = 600;
/** A count or a label wider than this share of the line has lines of its own. */
const WIDEST_COUNT = 0.62;
const WIDEST_LABEL = 0.55;
const HAIR = 0.01;

interface Parts {
  readonly label: Prepared;
  readonly content: Prepared;
  readonly count: Prepared;
}

/** Lines side by side in one strip of the page; each may be absent. */
interface Strip {
  readonly lines: readonly SetLine[];
}

export function instructionSlabs(
  block: Instruction,
  area: Area,
  list: number,
  setting: Setting,
): Slab[] {
  const { instruction: style } = setting.style;
  const { tags } = setting;
  const item = tags.add('LI', list);
  const label = prepareText(
    withBracketsWhole(block.label),
    style.label,
    block.label.length > 0 ? tags.add('Lbl', item) : item,
    setting,
  );
  const body = tags.add('LBody', item);
  const content = prepareText(block.content, style.type, tags.add('P', body), setting);
  const count = prepareText(
    block.count,
    style.count,
    block.count.length > 0 ? tags.add('P', body) : body,
    setting,
  );
  const parts = { label, content, count };
  const { side } = setting.style;
  const hangs = side.width > 0 && area.text.x - area.wide.x >= side.width;
  const strips = hangs ? hanging(parts, area, setting) : runIn(parts, area.text, setting);
  return stripSlabs(strips, hangs ? area.wide : area.text, block.id, setting);
}

const BRACKET = /([(（]|[)）])/u;

/** The side of a row, `(right side)`, is one thing: a narrow label is better divided before it. */
function withBracketsWhole(label: readonly Inline[]): Inline[] {
  const whole: Inline[] = [];
  let open: Inline[] | undefined;
  for (const each of label.flatMap(partedAtBrackets)) {
    const sign = each.kind === 'text' ? each.text : '';
    if (open === undefined && /^[(（]$/u.test(sign)) open = [];
    (open ?? whole).push(each);
    if (open === undefined || !/^[)）]$/u.test(sign)) continue;
    whole.push({ kind: 'unbroken', children: open });
    open = undefined;
  }
  return [...whole, ...(open ?? [])];
}

function partedAtBrackets(inline: Inline): Inline[] {
  if (inline.kind !== 'text') return [inline];
  const parts = inline.text.split(BRACKET).filter((part) => part !== '');
  return parts.map((text) => ({ ...inline, text }));
}

function hanging(parts: Parts, area: Area, setting: Setting): Strip[] {
  const { side, instruction } = setting.style;
  const column = { x: area.wide.x, width: side.width, size: instruction.label.size };
  // A compound may be longer than the column: "Undirbúningsumferð". Other labels keep their words whole.
  const hyphenation = narrowestWidth(parts.label, setting) > side.width ? 'sparing' : 'none';
  const labels = setLines(parts.label, { ...column, hyphenation }, setting);
  const beside = contentStrips(parts, area.text, 0, setting);
  const count = Math.max(labels.length, beside.length);
  return Array.from({ length: count }, (_, index) => {
    const label = labels[index];
    return { lines: [...(label ? [label] : []), ...(beside[index]?.lines ?? [])] };
  });
}

function runIn(parts: Parts, column: Column, setting: Setting): Strip[] {
  const { label: type } = setting.style.instruction;
  const width = widestWidth(parts.label);
  const fits = width <= column.width * WIDEST_LABEL;
  const labels = setLines(parts.label, { ...column, size: type.size }, setting);
  if (labels.length === 0) return contentStrips(parts, column, 0, setting);
  if (!fits) {
    const above = labels.map((label) => ({ lines: [label] }));
    return [...above, ...contentStrips(parts, column, 0, setting)];
  }
  const [first, ...rest] = contentStrips(parts, column, width + type.size * 0.8, setting);
  return [{ lines: [...labels, ...(first?.lines ?? [])] }, ...rest];
}

/**
 * The lines of what to do, and the count: at the end of the last line where that has room or can be
 * given it, on a line of its own where it would otherwise tear a word or two off the sentence.
 */
function contentStrips(
  parts: Parts,
  column: Column,
  firstIndent: number,
  setting: Setting,
): Strip[] {
  const { type, count: countType, countGap, hyphenation } = setting.style.instruction;
  const options = { ...column, size: type.size, hyphenation, firstIndent };
  const plain = setLines(parts.content, options, setting);
  const countWidth = widestWidth(parts.count);
  if (countWidth === 0) return strips(plain);
  const counts = setLines(parts.count, { ...column, size: countType.size, align: 'end' }, setting);
  const reserve = countWidth + countGap;
  const hasRoom = (lines: readonly SetLine[]): boolean => {
    const last = lines.at(-1);
    const end = last === undefined ? column.x + firstIndent : last.x + last.width;
    return end + reserve <= column.x + column.width + HAIR;
  };
  const beside = (lines: readonly SetLine[]): Strip[] => {
    return [...strips(lines.slice(0, -1)), { lines: [...lines.slice(-1), ...counts] }];
  };
  if (countWidth > column.width * WIDEST_COUNT) return strips([...plain, ...counts]);
  if (hasRoom(plain)) return beside(plain);
  const reserved = setLines(parts.content, { ...options, lastReserve: reserve }, setting);
  const costsNoLine = reserved.length === plain.length && hasRoom(reserved);
  return costsNoLine ? beside(reserved) : strips([...plain, ...counts]);
}

const strips = (lines: readonly SetLine[]): Strip[] => lines.map((line) => ({ lines: [line] }));

function stripSlabs(all: readonly Strip[], column: Column, id: string, setting: Setting): Slab[] {
  const { type, between, rule } = setting.style.instruction;
  const baseline = baselineOf(type, setting);
  return all.map(({ lines }, index) => {
    const last = index === all.length - 1;
    const growth = Math.max(0, ...lines.map((line) => lineGrowth(line, type, setting)));
    const height = type.leading + growth + (last ? between / 2 + rule : 0);
    const marks: Mark[] = lowered(
      lines.flatMap((line) => line.marks),
      baseline + growth,
    );
    if (last && rule > 0) {
      const colour = setting.style.colours.hairline;
      marks.push(ruleMark(column.x, height - rule / 2, column.width, rule, colour));
    }
    return slab(height, marks, {
      before: index === 0 ? between / 2 : 0,
      after: last ? between / 2 : 0,
      breakBefore: lineBreakCost(index, all.length, INNER_BREAK),
      ...(index === 0 ? { anchors: [{ id }] } : {}),
    });
  });
}
