/** Every sized number of the bundle can be read, and has one number for all sizes or one for each. */
import { pointerTo } from '../../base/span.ts';
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import type { SizedData } from '../bundle/schema.ts';
import { type CheckContext, numbersAt } from './context.ts';

/** A sized number of the bundle outside the rows, with what it is. */
export interface SizedPlace {
  readonly data: SizedData;
  readonly pointer: string;
}

type Length = { readonly in?: SizedData | undefined; readonly cm?: SizedData | undefined };

/** All sized numbers outside the rows, in the order of the bundle. */
export function sizedPlaces(data: CheckContext['data']): readonly SizedPlace[] {
  const places: SizedPlace[] = [];
  const put = (value: SizedData | undefined, ...steps: readonly (string | number)[]) => {
    if (value !== undefined) places.push({ data: value, pointer: pointerTo('', ...steps) });
  };
  const putLength = (length: Length | undefined, ...steps: readonly (string | number)[]) => {
    put(length?.in, ...steps, 'in');
    put(length?.cm, ...steps, 'cm');
  };
  data.body.forEach(({ size }, at) => putLength(size, 'body', at, 'size'));
  data.yarns.forEach((yarn, at) =>
    yarn.colours.forEach((colour, index) => {
      put(colour.balls, 'yarns', at, 'colours', index, 'balls');
      put(colour.grams, 'yarns', at, 'colours', index, 'grams');
    }),
  );
  data.needles.forEach(({ length }, at) => putLength(length, 'needles', at, 'length'));
  data.notions.forEach(({ count, size }, at) => {
    put(count, 'notions', at, 'count');
    putLength(size, 'notions', at, 'size');
  });
  data.gauges.forEach(({ swatch }, at) => {
    putLength(swatch?.width, 'gauges', at, 'swatch', 'width');
    putLength(swatch?.length, 'gauges', at, 'swatch', 'length');
  });
  data.numbers?.forEach(({ value }, at) => put(value, 'numbers', at, 'value'));
  data.measurements.forEach(({ size, from, ease }, at) => {
    putLength(size, 'measurements', at, 'size');
    if ('width' in from) put(from.less, 'measurements', at, 'from', 'less');
    if ('stitches' in from) put(from.stitches, 'measurements', at, 'from', 'stitches');
    if ('rows' in from) put(from.rows, 'measurements', at, 'from', 'rows');
    putLength(ease?.size, 'measurements', at, 'ease', 'size');
  });
  return places;
}

export function checkSizeLists(context: CheckContext): readonly Finding[] {
  const { sizes } = context.pattern;
  return sizedPlaces(context.data).flatMap(({ data, pointer }) => {
    const numbers = numbersAt(data, pointer);
    const text = typeof data === 'string' ? { text: data } : {};
    const where = { file: 'pattern.json', pointer, ...text };
    if (!numbers) return [finding('measure/unreadable', where, { found: String(data) })];
    const given = numbers.sized.values.length;
    if (given === 1 || given === sizes.length) return [];
    return [finding('measure/size-list', where, { given, sizes })];
  });
}
