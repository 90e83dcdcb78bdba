/** The numbers of a pattern by size: its measurements, and the count after every row of every piece. */
import { sizedValue } from '../../pattern/bundle/sized-data.ts';
import type { LineTrace } from '../../pattern/pattern.ts';
import { type Answer, page } from '../answer.ts';
import type { Asked, Desk } from '../routes.ts';
import { patternFolder } from '../shelf.ts';
import { frameOf } from './frame.ts';

export async function showNumbers(desk: Desk, { words, wording }: Asked): Promise<Answer> {
  const name = words['name'] ?? '';
  const looked = await desk.look(await patternFolder(desk.folder, name));
  const { checked } = looked;
  const data = checked?.pattern.bundle.data;
  const sizes = checked?.pattern.sizes ?? [];
  const measurements = (data?.measurements ?? []).flatMap(({ letter, name: said, size }) =>
    (['in', 'cm'] as const).flatMap((unit) =>
      size[unit] === undefined
        ? []
        : [
            {
              name: `${letter} · ${said}`,
              unit,
              cells: sizes.map((_, at) => sizedValue(size[unit], at) ?? '–'),
            },
          ],
    ),
  );
  const pieces = (checked?.pieces ?? []).map(({ piece, lines }) => ({
    title: piece.data.title,
    lines: lines.map((line) => ({ text: line.line.text, cells: cellsOf(line) })),
  }));
  const frame = frameOf(looked, name, 'numbers', wording.say);
  const view = { ...frame, sizes, measurements, pieces, readable: checked !== undefined };
  return page(wording.render('numbers', view));
}

const cellsOf = ({ outcomes }: LineTrace): readonly (number | string)[] =>
  outcomes.map(({ after, skipped }) => (skipped ? '–' : after));
