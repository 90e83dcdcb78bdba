/**
 * Yarn stated for each size against the worked rows: their area by gauge and colour, through the weight
 * of the swatch. Less than the pieces take is told, and so is half as much again. Says nothing where no
 * swatch of the bundle was weighed.
 */
import { pointerTo } from '../../base/span.ts';
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import { YARN_ALLOWANCE, yarnNeeds } from '../grading/yarn.ts';
import { fabricAreas } from '../outlines/areas.ts';
import { type CheckContext, numberOf, numbersAt, placeOfNumber, valuesOf } from './context.ts';
import { named } from './measurements.ts';

/** More than this is no caution but a slip, or a swatch weighed wrongly. */
const FAR_MORE = 1.5;

export function checkYarn(context: CheckContext): readonly Finding[] {
  const checked = { pattern: context.pattern, pieces: context.pieces, findings: [] };
  const needs = context.pattern.sizes.map((_, size) =>
    context.sizes.includes(size) && worked(context, size)
      ? yarnNeeds(context.data, fabricAreas(checked, size))
      : undefined,
  );
  if (needs.every((each) => each === undefined)) return [];
  return context.data.yarns.flatMap(({ colours }, yarn) =>
    colours.flatMap((colour, at) => {
      const pointer = pointerTo('', 'yarns', yarn, 'colours', at, 'grams');
      const stated = numbersAt(colour.grams, pointer);
      if (!stated) return [];
      const grams = (size: number) =>
        needs[size]?.find((need) => need.colour === colour.id)?.grams ?? null;
      const affected = context.sizes.filter((size) => {
        const [need, given] = [grams(size), numberOf(stated, size)];
        return need !== null && given !== null && (given < need || given > need * FAR_MORE);
      });
      if (affected.length === 0) return [];
      const withAllowance = (size: number) => {
        const need = grams(size);
        return need === null ? null : Math.round(need * (1 + YARN_ALLOWANCE));
      };
      const facts = {
        colour: colour.name,
        sizes: context.pattern.sizes,
        affected,
        needed: valuesOf(context, withAllowance),
        stated: valuesOf(context, (size) => numberOf(stated, size)),
        allowance: YARN_ALLOWANCE * 100,
      };
      const where = placeOfNumber(stated, affected, `Yarn ${colour.name}`);
      return [finding('grade/yarn', where, facts, { sizes: named(context, affected) })];
    }),
  );
}

/** A size whose rows could not be worked to the end has no area to reckon from. */
const worked = ({ pieces }: CheckContext, size: number): boolean =>
  pieces.every(({ lines }) =>
    lines.every(({ outcomes }) => !outcomes[size]?.failed || outcomes[size]?.skipped),
  );
