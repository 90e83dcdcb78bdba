/**
 * Every number of a bundle that a check could hold to something, with its place, and the ways it could
 * be wrong: one more or less, two, a tenth, swapped with its neighbour.
 */
import { pointerTo, type Span } from '../../base/span.ts';
import type { Place } from '../../findings/finding.ts';
import { placeOf } from '../needle/gather.ts';
import { type LineNumber, numbersOfLine } from '../needle/vary.ts';
import type { Line } from '../notation/ast.ts';
import { type CheckContext, numbersAt } from './context.ts';
import { ruleNumbers } from './pin-rules.ts';
import { sizedPlaces } from './size-lists.ts';

/** Where a number lives, and so how it is changed. */
export type Home =
  | {
      readonly kind: 'line';
      readonly piece: number;
      readonly line: number;
      readonly number: LineNumber;
    }
  | {
      readonly kind: 'pattern';
      readonly pattern: number;
      readonly line: number;
      readonly number: LineNumber;
    }
  | {
      readonly kind: 'data';
      readonly steps: readonly (string | number)[];
      /** Where the numbers stand inside a text, such as a rule. */
      readonly inText?: { readonly text: string; readonly spans: readonly Span[] };
    };

export interface BundleNumber {
  readonly home: Home;
  readonly where: Place;
  readonly value: number;
  /** Index into its list; 0 for a single number. */
  readonly index: number;
  /** The values beside it in a list of sizes. */
  readonly list: readonly (number | null)[];
  /** What the number is rounded to: 1 for counts, ¼ in and ½ cm for lengths. */
  readonly step: number;
  /** The least the bundle format allows. */
  readonly least: number;
}

export function numbersOfBundle(context: CheckContext): readonly BundleNumber[] {
  return [
    ...lineNumbers(context),
    ...patternNumbers(context),
    ...dataNumbers(context),
    ...ruleNumbers(context),
  ];
}

// ---------------------------------------------------------------- in the rows

function lineNumbers({ pattern }: CheckContext): readonly BundleNumber[] {
  return pattern.pieces.flatMap((piece, at) =>
    piece.sections
      .flatMap((section) => section.lines)
      .flatMap(({ line }, index) =>
        line
          ? inLine(line, (span) => placeOf(pattern, piece, index, span), (number) => ({
              kind: 'line', piece: at, line: index, number,
            })) // prettier-ignore
          : [],
      ),
  );
}

function patternNumbers({ pattern }: CheckContext): readonly BundleNumber[] {
  return (pattern.stitchPatterns ?? []).flatMap(({ lines, data }, at) =>
    lines.flatMap(({ line, text, pointer }, index) => {
      const place = (span: Span | undefined): Place => ({
        file: 'pattern.json',
        pointer,
        text,
        label: `Stitch pattern ${data.id}`,
        ...(span && { span }),
      });
      return line
        ? inLine(line, place, (number) => ({ kind: 'pattern', pattern: at, line: index, number }))
        : [];
    }),
  );
}

function inLine(
  line: Line,
  place: (span: Span | undefined) => Place,
  home: (number: LineNumber) => Home,
): readonly BundleNumber[] {
  return numbersOfLine(line).flatMap((number) =>
    number.sized.values.flatMap((value, index): readonly BundleNumber[] =>
      value === null
        ? []
        : [
            {
              home: home(number),
              where: place(number.sized.spans[index]),
              value,
              index,
              list: number.sized.values,
              step: stepOfPath(number.path),
              least: 0,
            },
          ],
    ),
  );
}

const stepOfPath = (path: LineNumber['path']): number =>
  path.includes('inches') ? 1 / 4 : path.includes('centimetres') ? 1 / 2 : 1;

// ---------------------------------------------------------------- in the rest of the bundle

type Steps = readonly (string | number)[];

function dataNumbers(context: CheckContext): readonly BundleNumber[] {
  return [...sizedNumbers(context), ...scalars(context)];
}

function sizedNumbers({ data }: CheckContext): readonly BundleNumber[] {
  return sizedPlaces(data).flatMap((place) => {
    const numbers = numbersAt(place.data, place.pointer);
    const steps = place.pointer.split('/').slice(1);
    if (!numbers) return [];
    const { values, spans } = numbers.sized;
    // A hat is smaller than the head.
    const least = place.pointer.includes('/ease/') ? -Infinity : 0;
    return values.flatMap((value, index): readonly BundleNumber[] => {
      if (value === null) return [];
      const span = spans[index];
      const text = typeof place.data === 'string' ? { text: place.data } : {};
      const where = {
        file: 'pattern.json',
        pointer: place.pointer,
        ...text,
        ...(span && { span }),
      };
      const home: Home = { kind: 'data', steps };
      return [
        { home, where, value, index, list: values, step: stepOfPointer(place.pointer), least },
      ];
    });
  });
}

function stepOfPointer(pointer: string): number {
  if (pointer.endsWith('/in')) return 1 / 4;
  return pointer.endsWith('/cm') ? 1 / 2 : 1;
}

/** Numbers that are the same in all sizes. `least` is that of the format. */
function scalars({ data }: CheckContext): readonly BundleNumber[] {
  const found: BundleNumber[] = [];
  const put = (value: number | undefined, least: number, ...steps: Steps) => {
    if (value === undefined) return;
    const where = { file: 'pattern.json', pointer: pointerTo('', ...steps) };
    const home: Home = { kind: 'data', steps };
    const step = Number.isInteger(value) ? 1 : 1 / 4;
    found.push({ home, where, value, index: 0, list: [value], step, least });
  };
  data.gauges.forEach(({ stitches, rows, swatch }, at) => {
    put(stitches, 1, 'gauges', at, 'stitches');
    put(rows, 1, 'gauges', at, 'rows');
    for (const when of ['readings', 'before'] as const)
      swatch?.[when]?.forEach((reading, index) => {
        put(reading.stitches, 1, 'gauges', at, 'swatch', when, index, 'stitches');
        put(reading.rows, 1, 'gauges', at, 'swatch', when, index, 'rows');
      });
    if (typeof swatch?.grams === 'number') put(swatch.grams, 1, 'gauges', at, 'swatch', 'grams');
    else
      for (const [colour, grams] of Object.entries(swatch?.grams ?? {}))
        put(grams, 0, 'gauges', at, 'swatch', 'grams', colour);
  });
  data.yarns.forEach(({ weight, fibres, ball }, at) => {
    put(weight, 0, 'yarns', at, 'weight');
    fibres.forEach(({ percent }, index) =>
      put(percent, 1, 'yarns', at, 'fibres', index, 'percent'),
    );
    put(ball.grams, 1, 'yarns', at, 'ball', 'grams');
    put(ball.metres, 1, 'yarns', at, 'ball', 'metres');
    put(ball.yards, 1, 'yarns', at, 'ball', 'yards');
  });
  data.needles.forEach(({ mm }, at) => put(mm, 1, 'needles', at, 'mm'));
  data.stitches.forEach(({ takes, makes }, at) => {
    put(takes, 0, 'stitches', at, 'takes');
    put(makes, 0, 'stitches', at, 'makes');
  });
  data.stitchPatterns.forEach(({ multiple, plus }, at) => {
    put(multiple, 1, 'stitchPatterns', at, 'multiple');
    put(plus, 0, 'stitchPatterns', at, 'plus');
  });
  data.charts.forEach(({ repeat }, at) => {
    for (const edge of ['fromStitch', 'toStitch', 'fromRow', 'toRow'] as const) {
      put(repeat?.[edge], 1, 'charts', at, 'repeat', edge);
    }
  });
  data.pieces.forEach(({ make }, at) => put(make, 1, 'pieces', at, 'make'));
  data.measurements.forEach(({ from }, at) => {
    if ('width' in from) put(from.times, 1, 'measurements', at, 'from', 'times');
  });
  return found;
}

// ---------------------------------------------------------------- how a number could be wrong

export interface Variant {
  readonly said: string;
  /** The list with the wrong number in it. */
  readonly list: readonly (number | null)[];
}

/** What the format itself refuses is not tried: the bundle would not be read. */
export function variantsOf({ value, index, list, step, least }: BundleNumber): readonly Variant[] {
  const wrong = new Map<number, string>();
  const put = (to: number, said: string) => {
    const rounded = Math.round(to / step) * step;
    if (rounded >= least && rounded !== value && !wrong.has(rounded)) wrong.set(rounded, said);
  };
  put(value + 1, '1 more');
  put(value - 1, '1 less');
  put(value + 2, '2 more');
  put(value - 2, '2 less');
  put(value * 1.1, '10 % more');
  put(value * 0.9, '10 % less');
  const variants = [...wrong].map(([to, said]) => ({ said, list: replaced(list, index, to) }));
  const next = list[index + 1];
  if (next === undefined || next === null || next === value) return variants;
  const swapped = replaced(replaced(list, index, next), index + 1, value);
  return [...variants, { said: 'swapped with its neighbour', list: swapped }];
}

const replaced = (
  list: readonly (number | null)[],
  index: number,
  to: number,
): readonly (number | null)[] => list.map((value, at) => (at === index ? to : value));
