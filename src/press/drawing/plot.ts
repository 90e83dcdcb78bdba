/**
 * A plot of values over the sizes of a pattern, as neutral vectors: sizes along the foot, one line for
 * each series, told apart by dash and dot and named at its end, so that it reads in black and white.
 * Takes plain numbers and words; knows no measurement and no page.
 */
import type { Drawing, Shape, Stroke } from './drawing.ts';
import { ellipsePath, openPath, type Point } from './path.ts';

export interface PlotSeries {
  readonly name: string;
  /** One for each size; null where it does not apply. */
  readonly values: readonly (number | null)[];
  readonly look: 'solid' | 'dashed';
  /** Values printed at their dots. */
  readonly isLabelled: boolean;
}

export interface PlotInput {
  readonly sizes: readonly string[];
  readonly unit: string;
  readonly series: readonly PlotSeries[];
  readonly widthPoints: number;
  readonly heightPoints: number;
  readonly numberText: (value: number) => string;
}

const INK = '#1a1a1a';
const HAIRLINE = '#b5b5b5';
const TYPE = 7.5;
const ROOM = { left: 26, right: 10, top: 20, bottom: 16 };
/** Letters of the type are about half as wide as high. */
const LETTER = 0.55;
/** Dashes of the second line, and the dot that stays white inside. */
const DASH: readonly number[] = [4, 2.5];
const DOT = 2.1;

export interface Scale {
  readonly from: number;
  readonly to: number;
  readonly step: number;
}

/** Round steps that hold the values with a little room, four to six of them. */
export function plotScale(values: readonly number[]): Scale {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  const spread = Math.max(high - low, Math.abs(high) * 0.1, 1e-9);
  const rough = spread / 4;
  const ten = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 2.5, 5, 10].find((each) => each * ten >= rough) ?? 10) * ten;
  const from = Math.floor((low - spread * 0.05) / step) * step;
  const to = Math.ceil((high + spread * 0.12) / step) * step;
  return { from: Math.max(low >= 0 ? 0 : from, from), to, step };
}

export function drawPlot(input: PlotInput): Drawing {
  const all = input.series.flatMap(({ values }) => values.filter((each) => each !== null));
  const scale = plotScale(all.length > 0 ? all : [0, 1]);
  const frame = frameOf(input, scale);
  return {
    widthPoints: input.widthPoints,
    heightPoints: input.heightPoints,
    symbols: {},
    shapes: [
      ...gridShapes(input, scale, frame),
      ...sizeShapes(input, frame),
      ...input.series.flatMap((series) => seriesShapes(input, series, frame)),
      ...nameShapes(input),
    ],
  };
}

/** Where a value of a size stands on the drawing. */
interface Frame {
  readonly left: number;
  readonly right: number;
  readonly foot: number;
  readonly place: (size: number, value: number) => Point;
}

function frameOf({ sizes, widthPoints, heightPoints }: PlotInput, { from, to }: Scale): Frame {
  const [left, right] = [ROOM.left, widthPoints - ROOM.right];
  const [head, foot] = [ROOM.top, heightPoints - ROOM.bottom];
  const between = (right - left) / sizes.length;
  return {
    left,
    right,
    foot,
    place: (size, value) => [
      left + between * (size + 0.5),
      foot - ((value - from) / (to - from)) * (foot - head),
    ],
  };
}

const textShape = (
  text: string,
  x: number,
  y: number,
  anchor: 'start' | 'middle' | 'end' = 'middle',
  weight: 'regular' | 'bold' = 'regular',
): Shape => ({ kind: 'text', x, y, text, sizePoints: TYPE, anchor, weight, colour: INK });

function gridShapes(
  { numberText, unit }: PlotInput,
  { from, to, step }: Scale,
  { left, right, place }: Frame,
): readonly Shape[] {
  const ticks = Array.from({ length: Math.round((to - from) / step) + 1 }, (_, at) => from + at * step);
  const stroke: Stroke = { widthPoints: 0.4, colour: HAIRLINE };
  return [
    ...ticks.flatMap((value): readonly Shape[] => {
      const [, y] = place(0, value);
      return [
        { kind: 'path', steps: openPath([left, y], [right, y]), stroke },
        textShape(numberText(value), left - 4, y + TYPE * 0.35, 'end'),
      ];
    }),
    textShape(unit, left - 4, TYPE, 'end'),
  ];
} // prettier-ignore

/** Names of the sizes; every second one where they would run into each other. */
function sizeShapes({ sizes }: PlotInput, { left, right, foot, place }: Frame): readonly Shape[] {
  const between = (right - left) / sizes.length;
  const widest = Math.max(...sizes.map((size) => size.length)) * TYPE * LETTER + 3;
  const every = Math.max(1, Math.ceil(widest / between));
  return sizes.flatMap((size, at) =>
    at % every === 0 ? [textShape(size, place(at, 0)[0], foot + TYPE + 5)] : [],
  );
}

function seriesShapes(input: PlotInput, series: PlotSeries, frame: Frame): readonly Shape[] {
  const { look, values } = series;
  const stroke: Stroke = {
    widthPoints: look === 'solid' ? 1.3 : 0.9,
    colour: INK,
    join: 'round',
    ...(look === 'dashed' && { dash: DASH }),
  };
  const points = values.flatMap((value, size) =>
    value === null ? [] : [{ at: frame.place(size, value), value, size }],
  );
  const lines = runsOf(points.map(({ size }) => size)).flatMap(([from, to]): Shape[] => {
    const run = points.filter(({ size }) => size >= from && size <= to);
    return run.length < 2
      ? []
      : [{ kind: 'path', steps: openPath(...run.map(({ at }) => at)), stroke }];
  });
  const dots = points.map(({ at: [x, y] }): Shape => ({
    kind: 'path',
    steps: ellipsePath(x, y, DOT),
    fill: look === 'solid' ? INK : '#ffffff',
    ...(look === 'dashed' && { stroke: { widthPoints: 0.9, colour: INK } }),
  }));
  const between = (frame.right - frame.left) / input.sizes.length;
  const labels = points.filter(() => series.isLabelled).map(({ at: [x, y], value, size }) => {
    const text = input.numberText(value);
    const isTight = text.length * TYPE * LETTER + 2 > between;
    return { shape: textShape(text, x, y - DOT - 3), isShown: !isTight || size % 2 === 0 };
  }); // prettier-ignore
  return [...lines, ...dots, ...labels.flatMap(({ shape, isShown }) => (isShown ? [shape] : []))];
}

/** First and last of each stretch without a gap: no line is drawn over a size that has no value. */
function runsOf(sizes: readonly number[]): readonly (readonly [number, number])[] {
  const runs: [number, number][] = [];
  for (const size of sizes) {
    const last = runs.at(-1);
    if (last && last[1] === size - 1) last[1] = size;
    else runs.push([size, size]);
  }
  return runs;
}

/** The key at the head: a piece of each line before its name. */
function nameShapes({ series, widthPoints }: PlotInput): readonly Shape[] {
  if (series.length < 2) return [];
  let x = widthPoints - ROOM.right;
  return [...series].reverse().flatMap(({ name, look }): readonly Shape[] => {
    const start = x - name.length * TYPE * LETTER;
    x = start - 32;
    const y = TYPE * 0.65;
    const line: Stroke = {
      widthPoints: look === 'solid' ? 1.3 : 0.9,
      colour: INK,
      ...(look === 'dashed' && { dash: DASH }),
    };
    return [
      { kind: 'path', steps: openPath([start - 22, y], [start - 5, y]), stroke: line },
      textShape(name, start, TYPE, 'start'),
    ];
  });
}
