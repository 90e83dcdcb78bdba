/**
 * What stands on every page and belongs to none of the text: the rule and the running foot with the
 * number of the page. Artifacts throughout, which a screen reader skips.
 */
import type { Document } from '../../document.ts';
import { baselineOf, ruleMark } from '../blocks/text-slabs.ts';
import type { Mark } from '../frames.ts';
import { prepareText, setLines } from '../lines/paragraph.ts';
import type { Column, Setting } from '../setting.ts';
import { lowered } from '../slab.ts';

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
  const set = (text: string, align: 'start' | 'end', width: number, x: number): Mark[] => {
    const prepared = prepareText(
      [{ kind: 'text', text, role: 'plain' }],
      type,
      'artifact',
      setting,
    );
    const [line] = setLines(prepared, { x, width, size: type.size, align }, setting);
    return lowered(line?.marks ?? [], top + gap + baselineOf(type, setting));
  };
  const endWidth = column.width * 0.3;
  const startWidth = column.width - endWidth;
  const marks = [
    ...set(filled(footer.start), 'start', startWidth, column.x),
    ...set(filled(footer.end), 'end', endWidth, column.x + startWidth),
  ];
  if (rule === 0 || marks.length === 0) return marks;
  const y = top + gap - type.leading * 0.35;
  return [ruleMark(column.x, y, column.width, rule, setting.style.colours.hairline), ...marks];
}
