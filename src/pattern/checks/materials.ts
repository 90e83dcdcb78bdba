/**
 * Materials agree with themselves: fibres make a hundred per cent, metres and yards of a ball are one
 * length, and the balls are the grams rounded up.
 */
import { METRES_PER_YARD } from '../../base/brand.ts';
import { pointerTo } from '../../base/span.ts';
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import { type CheckContext, numberOf, numbersAt, placeOfNumber, valuesOf } from './context.ts';
import { named } from './measurements.ts';

type Yarn = CheckContext['data']['yarns'][number];

export function checkMaterials(context: CheckContext): readonly Finding[] {
  return context.data.yarns.flatMap((yarn, at) => [
    ...fibres(yarn, at),
    ...yardage(yarn, at),
    ...yarn.colours.flatMap((_, index) => balls(context, yarn, at, index)),
  ]);
}

function fibres(yarn: Yarn, at: number): readonly Finding[] {
  const sum = yarn.fibres.reduce((total, { percent }) => total + percent, 0);
  if (Math.abs(sum - 100) < 0.5) return [];
  const where = { file: 'pattern.json', pointer: pointerTo('', 'yarns', at, 'fibres') };
  return [finding('measure/fibres', where, { yarn: yarn.name, sum })];
}

/** Ball bands round to whole metres and yards, and some makers to fives. */
function yardage({ name, ball }: Yarn, at: number): readonly Finding[] {
  const { metres, yards } = ball;
  const wanted = Math.round(metres / METRES_PER_YARD);
  if (Math.abs(yards - wanted) <= 1) return [];
  const where = { file: 'pattern.json', pointer: pointerTo('', 'yarns', at, 'ball', 'yards') };
  return [finding('measure/yardage', where, { yarn: name, metres, yards, wanted })];
}

function balls(context: CheckContext, yarn: Yarn, at: number, index: number): readonly Finding[] {
  const colour = yarn.colours[index];
  const pointer = pointerTo('', 'yarns', at, 'colours', index);
  const stated = numbersAt(colour?.balls, pointerTo(pointer, 'balls'));
  const grams = numbersAt(colour?.grams, pointerTo(pointer, 'grams'));
  if (!colour || !stated || !grams) return [];
  const needed = (size: number): number | null => {
    const weight = numberOf(grams, size);
    return weight === null ? null : Math.ceil(weight / yarn.ball.grams - 1e-9);
  };
  const affected = context.sizes.filter((size) => {
    const given = numberOf(stated, size);
    const wanted = needed(size);
    return given !== null && wanted !== null && given !== wanted;
  });
  if (affected.length === 0) return [];
  const facts = {
    colour: colour.name,
    sizes: context.pattern.sizes,
    affected,
    grams: valuesOf(context, (size) => numberOf(grams, size)),
    balls: valuesOf(context, (size) => numberOf(stated, size)),
    needed: valuesOf(context, needed),
  };
  const where = placeOfNumber(stated, affected);
  return [finding('measure/balls', where, facts, { sizes: named(context, affected) })];
}
