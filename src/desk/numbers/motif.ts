/**
 * The ways a motif goes round, for one place at a time: which there are, why each works, and the round
 * drawn in every size for the one that is chosen. Takes what a check sees and the choice; gives plain
 * data for the page.
 */
import { sayNumber, sayOff } from '../../base/plain-number.ts';
import type { CheckContext } from '../../pattern/checks/context.ts';
import { motifPlaces } from '../../pattern/checks/motif-ways.ts';
import { motifRing } from '../figures/ring.ts';
import type { Telling } from './measures.ts';

export interface MotifView {
  readonly title: string;
  readonly id: string;
  readonly ways: readonly {
    readonly id: string;
    readonly name: string;
    readonly worst: string;
    readonly reason: string;
    readonly rounds: readonly { readonly svg: string; readonly caption: string }[];
  }[];
}

export function motifViews(context: CheckContext, { spoken, say }: Telling): readonly MotifView[] {
  const { sizes } = context.data;
  return motifPlaces(context).map(({ pattern, measurement, ways }, at) => ({
    id: `motif-${at + 1}`,
    title: say('motif.place', {
      pattern: spoken.fabric(pattern.name ?? pattern.id),
      multiple: `${pattern.multiple}${pattern.plus ? ` + ${pattern.plus}` : ''}`,
      measurement: `${measurement.letter} ${spoken.measurement(measurement.name)}`,
    }),
    ways: ways.map((fit, way) => ({
      id: `motif-${at + 1}-${way + 1}`,
      name: say(`motif.${fit.way.replaceAll(' ', '-')}`),
      worst: say('motif.worst', { off: sayNumber(fit.worstDeviationInches) }),
      reason: say(`motif.${fit.way.replaceAll(' ', '-')}.why`, { gauge: fit.gaugeStitches }),
      rounds: fit.sizes.map((size, each) => {
        const name = sizes[each] ?? '';
        const facts = {
          size: name,
          repeats: size.repeats,
          stitches: size.stitches,
          panel: size.panel,
          off: sayOff(size.deviationInches),
        };
        const caption = say(size.panel > 0 ? 'motif.roundPanels' : 'motif.round', facts);
        const motif = { stitches: pattern.multiple, plus: pattern.plus };
        return { caption, svg: motifRing(size, motif, name, caption) };
      }),
    })),
  }));
}
