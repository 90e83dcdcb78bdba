/**
 * What stands on every page and belongs to none of the text: the rule and the running foot with the
 * number of the page, and the mark at the head of what is no finished edition. Artifacts throughout, which a screen reader skips.
 */
import type { Document } from '../../document.ts';
import { baselineOf, ruleMark } from '../blocks/text-slabs.ts';
import type { Mark } from '../frames.ts';
import { prepareText, setLines, widestWidth } from '../lines/paragraph.ts';
import type { Prepared } from '../lines/pieces.ts';
import type { Column, Setting } from '../setting.ts';
import { lowered } from '../slab.ts';

/** What home printers leave blank at the edge of the paper. */
const PRINTER_EDGE = 20;
/** The end of the foot, the page number, has at most this share of the width. */
const WIDEST_END = 0.4;

/** Marks of the foot of page `number` of `count`, below `top`, the foot of the type area. */
export function footerMarks(
  footer: Document['footer'],
  number: number,
  count: number,
  column: Column,
  top: number,
  setting: Setting,
): Mark[] {
  const { type, gap, rule } = setting.style.footer;
  const filled = (text: string): string =>
    text.replaceAll('{pages}', String(count)).replaceAll('{page}', String(number));
  const room = setting.style.margins.bottom - gap - PRINTER_EDGE;
  const fits = Math.max(1, Math.floor(room / type.leading));
  const prepare = (text: string) =>
    prepareText([{ kind: 'text', text, role: 'plain' }], type, 'artifact', setting);
  const set = (prepared: Prepared, align: 'start' | 'end', width: number, x: number): Mark[] => {
    const lines = setLines(prepared, { x, width, size: type.size, align }, setting);
    if (lines.length > fits && number === 1)
      setting.trouble.push({ kind: 'overflow', text: prepared.flat.text });
    const y = top + gap + baselineOf(type, setting);
    return lines
      .slice(0, fits)
      .flatMap((line, index) => lowered(line.marks, y + index * type.leading));
  };
  const end = prepare(filled(footer.end));
  const endWidth = Math.min(column.width * WIDEST_END, widestWidth(end));
  const startWidth = column.width - endWidth - type.size;
  const marks = [
    ...set(prepare(filled(footer.start)), 'start', startWidth, column.x),
    ...set(end, 'end', endWidth, column.x + column.width - endWidth),
  ];
  if (rule === 0 || marks.length === 0) return marks;
  const y = top + gap - type.leading * 0.35;
  return [ruleMark(column.x, y, column.width, rule, setting.style.colours.hairline), ...marks];
}

/** The mark of a proof or a test copy, bold and in the middle of the upper margin. */
export function headMarks(mark: string, column: Column, setting: Setting): Mark[] {
  const { style } = setting;
  const type = { ...style.footer.type, weight: 'bold', colour: 'ink' } as const;
  const inline = { kind: 'text', text: mark, role: 'plain' } as const;
  const prepared = prepareText([inline], type, 'artifact', setting);
  const place = { x: column.x, width: column.width, size: type.size, align: 'centre' } as const;
  const [line, ...more] = setLines(prepared, place, setting);
  if (more.length > 0) setting.trouble.push({ kind: 'overflow', text: mark });
  return line ? lowered(line.marks, style.margins.top / 2 + type.size / 2) : [];
}
