/** Everything one part of the bundle names in another is there: gauges, needles, body parts, anchors. */
import { nearestWords } from '../../base/nearest.ts';
import { pointerTo } from '../../base/span.ts';
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import type { CheckContext } from './context.ts';

type Known = ReadonlyMap<string, readonly string[]>;

export function checkReferences(context: CheckContext): readonly Finding[] {
  const known = knownNames(context);
  return [
    ...namedTwice(context),
    ...gaugeReferences(context, known),
    ...patternReferences(context, known),
    ...measurementReferences(context, known),
    ...joinReferences(context, known),
  ];
}

function knownNames({ data, pattern }: CheckContext): Known {
  const anchors = pattern.pieces.flatMap((piece) => [
    piece.data.id,
    ...piece.sections.flatMap((section) =>
      section.lines.flatMap(({ id }) => (id === undefined ? [] : [`${piece.data.id}/${id}`])),
    ),
  ]);
  return new Map([
    ['gauge', data.gauges.map(({ id }) => id)],
    ['needle', data.needles.map(({ id }) => id)],
    ['chart', data.charts.map(({ id }) => id)],
    ['piece', data.pieces.map(({ id }) => id)],
    ['body measurement', data.body.map(({ part }) => part)],
    ['measurement', data.measurements.map(({ id }) => id)],
    ['colour', data.yarns.flatMap(({ colours }) => colours.map(({ id }) => id))],
    ['place', anchors],
  ]);
}

function refer(
  known: Known,
  what: string,
  name: string | undefined,
  ...steps: readonly (string | number)[]
): readonly Finding[] {
  const names = known.get(what) ?? [];
  if (name === undefined || names.includes(name)) return [];
  const where = { file: 'pattern.json', pointer: pointerTo('', ...steps), text: name };
  return [finding('reference/unknown', where, { what, name, nearest: nearestWords(name, names) })];
}

function gaugeReferences({ data }: CheckContext, known: Known): readonly Finding[] {
  return [
    ...data.gauges.flatMap(({ needle }, at) =>
      refer(known, 'needle', needle, 'gauges', at, 'needle'),
    ),
    ...data.pieces.flatMap(({ gauge }, at) => refer(known, 'gauge', gauge, 'pieces', at, 'gauge')),
  ];
}

function patternReferences({ data }: CheckContext, known: Known): readonly Finding[] {
  return [
    ...data.stitchPatterns.flatMap(({ chart }, at) =>
      refer(known, 'chart', chart, 'stitchPatterns', at, 'chart'),
    ),
    ...data.charts.flatMap(({ key }, at) =>
      Object.entries(key).flatMap(([character, { colour }]) =>
        refer(known, 'colour', colour, 'charts', at, 'key', character, 'colour'),
      ),
    ),
    ...data.schematic.flatMap(({ piece, measurements }, at) => [
      ...refer(known, 'piece', piece, 'schematic', at, 'piece'),
      ...Object.entries(measurements).flatMap(([role, id]) =>
        refer(known, 'measurement', id, 'schematic', at, 'measurements', role),
      ),
    ]),
  ];
}

function measurementReferences(context: CheckContext, known: Known): readonly Finding[] {
  return context.data.measurements.flatMap(({ from, ease }, at) => {
    const base = ['measurements', at, 'from'] as const;
    const over = refer(known, 'body measurement', ease?.over, 'measurements', at, 'ease', 'over');
    if ('width' in from) {
      return [
        ...over,
        ...refer(known, 'place', from.width, ...base, 'width'),
        ...refer(known, 'gauge', from.gauge, ...base, 'gauge'),
      ];
    }
    if ('depth' in from) {
      return [
        ...over,
        ...from.depth.flatMap((name, index) =>
          refer(known, 'place', name, ...base, 'depth', index),
        ),
        ...refer(known, 'gauge', from.gauge, ...base, 'gauge'),
        ...samePiece(context, from.depth, pointerTo('', ...base, 'depth')),
      ];
    }
    if ('sum' in from) {
      const parts = from.sum.flatMap((id, index) =>
        refer(known, 'measurement', id, ...base, 'sum', index),
      );
      return [...over, ...parts];
    }
    return 'given' in from
      ? over
      : [...over, ...refer(known, 'gauge', from.gauge, ...base, 'gauge')];
  });
}

function samePiece(
  context: CheckContext,
  [first, second]: readonly [string, string],
  pointer: string,
): readonly Finding[] {
  const one = context.anchor(first);
  const other = context.anchor(second);
  if (!one || !other || one.piece === other.piece) return [];
  return [finding('reference/two-pieces', { file: 'pattern.json', pointer }, { first, second })];
}

function joinReferences({ data }: CheckContext, known: Known): readonly Finding[] {
  return data.joins.flatMap(({ parts, to }, at) => [
    ...parts.flatMap((name, index) => refer(known, 'place', name, 'joins', at, 'parts', index)),
    ...to.flatMap((name, index) => refer(known, 'place', name, 'joins', at, 'to', index)),
  ]);
}

// ---------------------------------------------------------------- one name, one thing

function namedTwice({ data, pattern }: CheckContext): readonly Finding[] {
  const lists: readonly (readonly [string, string, readonly string[]])[] = [
    ['sizes', 'sizes', data.sizes],
    ['gauges', 'gauges', data.gauges.map(({ id }) => id)],
    ['needles', 'needles', data.needles.map(({ id }) => id)],
    ['charts', 'charts', data.charts.map(({ id }) => id)],
    ['stitch patterns', 'stitchPatterns', data.stitchPatterns.map(({ id }) => id)],
    ['pieces', 'pieces', data.pieces.map(({ id }) => id)],
    ['measurements', 'measurements', data.measurements.map(({ id }) => id)],
    ['letters', 'measurements', data.measurements.map(({ letter }) => letter)],
    ['body measurements', 'body', data.body.map(({ part }) => part)],
  ];
  const lines = pattern.pieces.flatMap((piece) => {
    const ids = piece.sections.flatMap((section) => section.lines).map(({ id }) => id);
    const pointer = piece.pointer;
    return repeated(ids).map((name) =>
      finding('reference/twice', { file: 'pattern.json', pointer }, { what: 'lines', name }),
    );
  });
  return [
    ...lists.flatMap(([what, key, names]) =>
      repeated(names).map((name) =>
        finding('reference/twice', { file: 'pattern.json', pointer: `/${key}` }, { what, name }),
      ),
    ),
    ...lines,
  ];
}

function repeated(names: readonly (string | undefined)[]): readonly string[] {
  const known = names.filter((name) => name !== undefined);
  return [...new Set(known.filter((name, at) => known.indexOf(name) !== at))];
}
