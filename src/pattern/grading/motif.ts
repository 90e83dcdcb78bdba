/**
 * Fitting a motif round the body in every size. Takes the motif's width, the wanted circumferences
 * and the gauge; gives ranked ways to make it fit: whole repeats alone, whole repeats with a plainer
 * panel at each side, or another gauge. Pure arithmetic; each way says why it ranks where it does.
 */
import { type Gauge, stitchesInWidth, widthInches } from './gauge.ts';

export interface Motif {
  /** Stitches of one repeat. */
  readonly stitches: number;
  /** Stitches beyond the repeats that balance it, such as a closing purl groove. */
  readonly plus: number;
}

export interface MotifWish {
  readonly motif: Motif;
  /** Finished circumference by size, in inches. */
  readonly aroundInches: readonly number[];
  readonly gauge: Gauge;
  /** Side panels may be this wide, in stitches each; both 0 where panels are not wanted. */
  readonly panel: { readonly min: number; readonly max: number };
  /** Front and back each carry whole repeats, centred. */
  readonly centred: boolean;
}

export interface FittedSize {
  readonly repeats: number;
  /** Stitches of the plainer panel at each of the two sides. */
  readonly panel: number;
  readonly stitches: number;
  readonly deviationInches: number;
}

export interface MotifFit {
  readonly way: 'whole repeats' | 'side panels' | 'other gauge';
  readonly sizes: readonly FittedSize[];
  /** Stitches over the gauge's base that make this way fit; the given gauge in the first two ways. */
  readonly gaugeStitches: number;
  readonly worstDeviationInches: number;
  readonly reason: string;
}

/** All ways that work in every size, the best first: least worst deviation, then fewest changes. */
export function fitMotif(wish: MotifWish): readonly MotifFit[] {
  const ways = [wholeRepeats(wish, wish.gauge), sidePanels(wish), otherGauge(wish)];
  return ways
    .filter((way): way is MotifFit => way !== undefined)
    .sort((a, b) => a.worstDeviationInches - b.worstDeviationInches);
}

function wholeRepeats(wish: MotifWish, gauge: Gauge): MotifFit | undefined {
  const sizes = wish.aroundInches.map((around) => {
    const wanted = stitchesInWidth(around, gauge);
    const repeats = nearestRepeats(wanted, wish);
    return fitted(repeats, 0, around, wish, gauge);
  });
  if (sizes.some((size) => size.repeats < 1)) return undefined;
  const worst = worstOf(sizes);
  const reason = `no size is further than ${worst.toFixed(2)} in from its width with whole repeats`;
  return {
    way: 'whole repeats',
    sizes,
    gaugeStitches: gauge.stitches,
    worstDeviationInches: worst,
    reason,
  };
}

/** Repeats come in pairs where front and back are both centred on whole repeats. */
function nearestRepeats(wanted: number, { motif, centred }: MotifWish): number {
  const unit = centred ? 2 : 1;
  return Math.max(unit, Math.round((wanted - motif.plus) / (motif.stitches * unit)) * unit);
}

function sidePanels(wish: MotifWish): MotifFit | undefined {
  const { min, max } = wish.panel;
  if (max <= 0 || max < min) return undefined;
  const sizes = wish.aroundInches.map((around) => bestPanel(around, wish));
  if (sizes.some((size) => size === undefined)) return undefined;
  const found = sizes.filter((size) => size !== undefined);
  const worst = worstOf(found);
  const reason = `a mirrored panel of ${Math.min(...found.map((size) => size.panel))}–${Math.max(
    ...found.map((size) => size.panel),
  )} sts at each side takes up what whole repeats leave over`;
  return {
    way: 'side panels',
    sizes: found,
    gaugeStitches: wish.gauge.stitches,
    worstDeviationInches: worst,
    reason,
  };
}

function bestPanel(around: number, wish: MotifWish): FittedSize | undefined {
  const { min, max } = wish.panel;
  const wanted = stitchesInWidth(around, wish.gauge);
  const unit = wish.centred ? 2 : 1;
  const choices: FittedSize[] = [];
  for (let repeats = unit; repeats * wish.motif.stitches <= wanted; repeats += unit) {
    const left = wanted - wish.motif.plus - repeats * wish.motif.stitches;
    const panel = Math.min(max, Math.max(min, Math.round(left / 2)));
    choices.push(fitted(repeats, panel, around, wish, wish.gauge));
  }
  // Of equally good fits the one with most motif, since the motif is the design.
  return choices.sort(
    (a, b) => Math.abs(a.deviationInches) - Math.abs(b.deviationInches) || b.repeats - a.repeats,
  )[0];
}

/**
 * The gauge nearest to the given one at which whole repeats fit best: tried in quarter stitches over
 * the base, up to two stitches away; a different needle or yarn reaches it.
 */
function otherGauge(wish: MotifWish): MotifFit | undefined {
  const steps = Array.from({ length: 17 }, (_, index) => (index - 8) / 4).filter(
    (step) => step !== 0,
  );
  const fits = steps
    .map((step) => wholeRepeats(wish, { ...wish.gauge, stitches: wish.gauge.stitches + step }))
    .filter((fit): fit is MotifFit => fit !== undefined)
    .sort((a, b) => a.worstDeviationInches - b.worstDeviationInches);
  const [best] = fits;
  if (!best) return undefined;
  const { amount, unit } = wish.gauge.over;
  const reason = `at ${best.gaugeStitches} sts over ${amount} ${unit} whole repeats fit within ${best.worstDeviationInches.toFixed(2)} in`;
  return { ...best, way: 'other gauge', reason };
}

function fitted(
  repeats: number,
  panel: number,
  around: number,
  { motif }: MotifWish,
  gauge: Gauge,
): FittedSize {
  const count = repeats * motif.stitches + motif.plus + 2 * panel;
  return { repeats, panel, stitches: count, deviationInches: widthInches(count, gauge) - around };
}

const worstOf = (sizes: readonly FittedSize[]): number =>
  Math.max(...sizes.map((size) => Math.abs(size.deviationInches)));

/** Which row of a motif `rows` high is worked after `worked` rows: 1 to `rows`, counted from row 1. */
export const motifRowAt = (worked: number, rows: number): number =>
  worked === 0 ? 0 : ((worked - 1) % rows) + 1;
