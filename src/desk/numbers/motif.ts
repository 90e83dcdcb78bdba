/**
 * The ways a motif goes round, for one place at a time: which there are, why each works, the round drawn
 * in every size, and the numbers for which a way can be chosen. Takes what a check sees and the choice;
 * gives plain data for the page.
 */
import { sayNumber, sayOff } from '../../base/plain-number.ts';
import type { BundleData } from '../../pattern/bundle/schema.ts';
import type { CheckContext } from '../../pattern/checks/context.ts';
import { type MotifPlace, motifPlaces } from '../../pattern/checks/motif-ways.ts';
import type { FittedSize, MotifFit } from '../../pattern/grading/motif.ts';
import {
  motifFits,
  motifIn,
  type MotifNumber,
  motifNumber,
  type MotifSize,
} from '../../pattern/grading/rules/motif-rule.ts';
import { nameOf } from '../../pattern/grading/rules/resolve.ts';
import { motifRing } from '../figures/ring.ts';
import type { Say } from '../wording.ts';
import type { Telling } from './measures.ts';

export interface RoundView {
  readonly svg: string;
  readonly caption: string;
}

export interface MotifView {
  readonly title: string;
  readonly id: string;
  /** Why no way can be chosen here; empty where one can. */
  readonly none: string;
  readonly ways: readonly {
    readonly id: string;
    readonly name: string;
    readonly worst: string;
    readonly reason: string;
    /** What must be done before this way can be taken. */
    readonly first: string;
    readonly rounds: readonly RoundView[];
    /** Numbers whose rule this way can become, as queries of the page of a rule. */
    readonly choices: readonly { readonly query: string; readonly word: string }[];
  }[];
}

export function motifViews(context: CheckContext, { spoken, say }: Telling): readonly MotifView[] {
  const { sizes } = context.data;
  return motifPlaces(context).map((place, at) => {
    const { pattern, measurement } = place;
    const numbers = numbersAt(context.data, place);
    return {
      id: `motif-${at + 1}`,
      title: say('motif.place', {
        pattern: spoken.fabric(pattern.name),
        multiple: `${pattern.multiple}${pattern.plus ? ` + ${pattern.plus}` : ''}`,
        measurement: `${measurement.letter} ${spoken.measurement(measurement.name)}`,
      }),
      none: numbers.length === 0 ? say('rule.noNumber') : '',
      ways: waysOf(place, numbers).map((fit, way) => ({
        id: `motif-${at + 1}-${way + 1}`,
        name: say(wayWord(fit.way)),
        worst: say('motif.worst', { off: sayNumber(fit.worstDeviationInches) }),
        reason: say(`${wayWord(fit.way)}.why`, { gauge: fit.gaugeStitches }),
        first: fit.way === 'another gauge' ? say('rule.gaugeFirst') : '',
        rounds: motifRounds(fit.sizes, pattern, {}, sizes, say),
        choices: fit.way === 'another gauge' ? [] : numbers.map(({ number }) => ({
          query: new URLSearchParams({ number: number.id, choose: 'motif', way: fit.way }).toString(),
          word: say('rule.choose', { number: nameOf(number) }),
        })), // prettier-ignore
      })),
    };
  });
}

export const wayWord = (way: string): string => `motif.${way.replaceAll(' ', '-')}`;

/** Numbers of the same piece whose count is made at the gauge of the motif. */
function numbersAt(
  data: BundleData,
  { pattern, measurement, gauge }: MotifPlace,
): readonly MotifNumber[] {
  // prettier-ignore
  const pieceOf = (anchor: string) => anchor.split('/')[0];
  const piece = 'width' in measurement.from ? pieceOf(measurement.from.width) : undefined;
  return (data.numbers ?? []).flatMap(({ id, places = [] }) => {
    if (!places.flat().some((each) => pieceOf(each) === piece)) return [];
    const motif = motifNumber(data, id);
    return motif?.pattern.id === pattern.id && motif.gauge.id === gauge.id ? [motif] : [];
  });
}

/** A number tells what was wanted; without one the rows are all there is to measure by. */
function waysOf({ ways }: MotifPlace, [first]: readonly MotifNumber[]): readonly MotifFit[] {
  if (!first) return ways;
  return [...motifFits(first), ...ways.filter(({ way }) => way === 'another gauge')];
}

/** Every size drawn, with its caption. */
export function motifRounds(
  fitted: readonly FittedSize[],
  pattern: { readonly multiple: number; readonly plus: number },
  own: MotifSize,
  sizes: readonly string[],
  say: Say,
): readonly RoundView[] {
  return fitted.map((size, at) => {
    const name = sizes[at] ?? '';
    const caption = say(size.panel > 0 ? 'motif.roundPanels' : 'motif.round', {
      size: name,
      repeats: size.repeats,
      stitches: size.stitches,
      panel: size.panel,
      off: sayOff(size.deviationInches),
    });
    return { caption, svg: motifRing(size, motifIn(pattern, own, at), name, caption) };
  });
}
