/**
 * The words of a content stream: numbers, colours, paths. Numbers keep three decimals, a thousandth of
 * a point, which no press can show; colours of equal parts become grey, so that black text prints with
 * black ink alone. Pure strings; knows no pages and no fonts.
 */
import { assert, assertNever, BrokenInvariant } from '../../base/assert.ts';
import type { PathStep, Stroke } from '../drawing/drawing.ts';

/** No page is a thousand kilometres wide. */
const LARGEST = 1e9;

/** A number as PDF writes it: no exponent, no needless zeros. */
export function number(value: number): string {
  if (Number.isInteger(value) && value > 0 && value < LARGEST) return String(value);
  const rounded = Math.round(value * 1000) / 1000;
  if (!(Math.abs(rounded) < LARGEST)) throw new BrokenInvariant(`not a coordinate: ${value}`);
  return String(rounded + 0);
}

export const numbers = (...values: readonly number[]): string => values.map(number).join(' ');

/** `#rrggbb` as the operands of `rg`/`g` (fill) or `RG`/`G` (stroke), operator included. */
export function colourOperator(colour: string, use: 'fill' | 'stroke'): string {
  assert(/^#[0-9a-f]{6}$/i.test(colour), `not a colour: ${colour}`);
  const parts = [1, 3, 5].map((start) => parseInt(colour.slice(start, start + 2), 16) / 255);
  const [red = 0, green = 0, blue = 0] = parts;
  const grey = red === green && green === blue;
  const operator = grey ? 'g' : 'rg';
  const operands = grey ? number(red) : numbers(red, green, blue);
  return `${operands} ${use === 'fill' ? operator : operator.toUpperCase()}`;
}

/** Steps of a path in the coordinates given; four-cornered boxes become one operator. */
export function pathOperators(steps: readonly PathStep[]): string {
  const box = asBox(steps);
  if (box) return `${numbers(...box)} re`;
  return steps.map(stepOperator).join('\n');
}

function stepOperator(step: PathStep): string {
  switch (step[0]) {
    case 'M':
      return `${numbers(step[1], step[2])} m`;
    case 'L':
      return `${numbers(step[1], step[2])} l`;
    case 'C':
      return `${numbers(step[1], step[2], step[3], step[4], step[5], step[6])} c`;
    case 'Z':
      return 'h';
    default:
      return assertNever(step);
  }
}

/** Left, top, width and height of a path that is one upright box. */
function asBox(steps: readonly PathStep[]): readonly [number, number, number, number] | undefined {
  const [a, b, c, d, end] = steps;
  if (steps.length !== 5 || a?.[0] !== 'M' || end?.[0] !== 'Z') return undefined;
  if (b?.[0] !== 'L' || c?.[0] !== 'L' || d?.[0] !== 'L') return undefined;
  const upright = a[2] === b[2] && b[1] === c[1] && c[2] === d[2] && d[1] === a[1];
  return upright ? [a[1], a[2], c[1] - a[1], c[2] - a[2]] : undefined;
}

const CAPS = { butt: 0, round: 1 } as const;
const JOINS = { miter: 0, round: 1 } as const;

/** Sets everything a stroke has, so that nothing is left over from the stroke before. */
export function strokeOperators(stroke: Stroke): string {
  const { widthPoints, colour, dash = [], cap = 'butt', join = 'miter' } = stroke;
  const pen = `${number(widthPoints)} w ${CAPS[cap]} J ${JOINS[join]} j [${numbers(...dash)}] 0 d`;
  return `${pen} ${colourOperator(colour, 'stroke')}`;
}
