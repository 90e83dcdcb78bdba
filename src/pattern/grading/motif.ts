/**
 * Fitting a motif round the body in every size. Takes the motif's width, the wanted circumferences and
 * the gauge; gives every way that works in all sizes, ranked by deviation: whole repeats, front and back
 * centred, half motifs that meet in the side seams, a plainer panel at each side, another gauge. Each
 * way says why. Pure arithmetic.
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
  /** Worked round, or as a front and a back with this many seam stitches at each edge. */
  readonly seamStitches: number | undefined;
  /** Side panels may be this wide, in stitches each; both 0 where panels are not wanted. */
  readonly panel: { readonly min: number; readonly max: number };
}

/** Panels of more stitches are not offered for a motif. */
export const WIDEST_PANEL = 12;

export type MotifWay =
  | 'whole repeats'
  | 'centred front and back'
  | 'across the side seams'
  | 'side panels'
  | 'another gauge';

export interface FittedSize {
  /** Whole repeats round the body. */
  readonly repeats: number;
  /** Stitches of the plainer panel at each of the two sides. */
  readonly panel: number;
  /** Stitches of one half, seam stitches included; the same for front and back. */
  readonly half: number;
  /** Stitches of a motif that one half shows at each side and the other completes; 0 for none. */
  readonly cut: number;
  /** All stitches round the body, without seam stitches. */
  readonly stitches: number;
  readonly deviationInches: number;
}

export interface MotifFit {
  readonly way: MotifWay;
  readonly sizes: readonly FittedSize[];
  /** Stitches over the gauge's base that make this way fit. */
  readonly gaugeStitches: number;
  readonly worstDeviationInches: number;
  readonly reason: string;
}

/**
 * All ways that work in every size: least worst deviation first, of equals the one that changes least.
 * Where front and back are seamed, each keeps the balancing stitches; in the round there is one set.
 */
export function fitMotif(wish: MotifWish): readonly MotifFit[] {
  const ways = [wholeRepeats(wish), centred(wish), acrossSeams(wish), sidePanels(wish), otherGauge(wish)]; // prettier-ignore
  return ways
    .filter((way) => way !== undefined)
    .sort((one, other) => one.worstDeviationInches - other.worstDeviationInches);
}

type Fitting = (around: number, wish: MotifWish, gauge: Gauge) => FittedSize | undefined;

/** One way in all sizes; undefined where a size has no room for it. */
function fitAll(
  way: MotifWay,
  wish: MotifWish,
  gauge: Gauge,
  fit: Fitting,
  reason: (sizes: readonly FittedSize[], worst: number) => string,
): MotifFit | undefined {
  const sizes = wish.aroundInches.map((around) => fit(around, wish, gauge));
  const found = sizes.filter((size) => size !== undefined);
  if (found.length < sizes.length || found.length === 0) return undefined;
  const worstDeviationInches = Math.max(...found.map((each) => Math.abs(each.deviationInches)));
  const gaugeStitches = gauge.stitches;
  return { way, sizes: found, gaugeStitches, worstDeviationInches, reason: reason(found, worstDeviationInches) }; // prettier-ignore
}

const isFlat = ({ seamStitches }: MotifWish): boolean => seamStitches !== undefined;

// ---------------------------------------------------------------- whole repeats

/** In the round: so many repeats and one set of balancing stitches. */
const wholeRepeats = (wish: MotifWish): MotifFit | undefined =>
  isFlat(wish)
    ? undefined
    : fitAll('whole repeats', wish, wish.gauge, fitWhole, (_, worst) =>
        `whole repeats come within ${inches(worst)} of every size`,
      ); // prettier-ignore

const fitWhole: Fitting = (around, { motif }, gauge) => {
  const repeats = Math.round((stitchesInWidth(around, gauge) - motif.plus) / motif.stitches);
  return repeats < 1 ? undefined : fitted({ repeats, panel: 0, cut: 0 }, around, motif, gauge);
};

/** Front and back alike, each with whole repeats, so that both have a motif or a gap in their middle. */
const centred = (wish: MotifWish): MotifFit | undefined =>
  fitAll('centred front and back', wish, wish.gauge, fitCentred, (_, worst) =>
    `front and back each have whole repeats, centred; within ${inches(worst)} of every size`,
  ); // prettier-ignore

const fitCentred: Fitting = (around, wish, gauge) => {
  const { motif } = wish;
  const balance = isFlat(wish) ? 2 * motif.plus : motif.plus;
  const pairs = Math.round((stitchesInWidth(around, gauge) - balance) / (2 * motif.stitches));
  if (pairs < 1) return undefined;
  return fitted({ repeats: 2 * pairs, panel: 0, cut: 0 }, around, motif, gauge, wish);
};

/**
 * The pattern runs on across the side seams: the whole round is whole repeats. With an odd number, half
 * a motif stands at each edge of each half; the front is centred on a motif, the back between two. Needs
 * a motif with an even number of stitches and no balancing ones.
 */
const acrossSeams = (wish: MotifWish): MotifFit | undefined =>
  !isFlat(wish) || wish.motif.plus > 0 || wish.motif.stitches % 2 === 1
    ? undefined
    : fitAll('across the side seams', wish, wish.gauge, fitAcross, (sizes, worst) => {
        const cut = sizes.filter(({ cut: half }) => half > 0).length;
        const halves = cut === 0 ? '' : `; in ${cut} of ${sizes.length} sizes half motifs meet in the seam`;
        return `the pattern runs on across the side seams, within ${inches(worst)} of every size${halves}`;
      }); // prettier-ignore

const fitAcross: Fitting = (around, wish, gauge) => {
  const { motif } = wish;
  const repeats = Math.round(stitchesInWidth(around, gauge) / motif.stitches);
  if (repeats < 2) return undefined;
  const cut = repeats % 2 === 1 ? motif.stitches / 2 : 0;
  return fitted({ repeats, panel: 0, cut }, around, motif, gauge, wish);
};

// ---------------------------------------------------------------- side panels

function sidePanels(wish: MotifWish): MotifFit | undefined {
  const { min, max } = wish.panel;
  if (max <= 0 || max < min) return undefined;
  return fitAll('side panels', wish, wish.gauge, fitPanels, (sizes, worst) => {
    const panels = sizes.map(({ panel }) => panel);
    const range = [...new Set([Math.min(...panels), Math.max(...panels)])].join('–');
    return `a mirrored panel of ${range} sts at each side takes up what repeats leave, within ${inches(worst)}`;
  });
}

/** Of equally good fits the one with most motif, since the motif is the design. */
const fitPanels: Fitting = (around, wish, gauge) => {
  const { motif, panel } = wish;
  const wanted = stitchesInWidth(around, gauge);
  const balance = 2 * motif.plus;
  const choices: FittedSize[] = [];
  for (let repeats = 2; repeats * motif.stitches + balance <= wanted; repeats += 2) {
    const left = wanted - balance - repeats * motif.stitches;
    const width = Math.min(panel.max, Math.max(panel.min, Math.round(left / 2)));
    choices.push(fitted({ repeats, panel: width, cut: 0 }, around, motif, gauge, wish, balance));
  }
  return choices.sort(
    (one, other) =>
      Math.abs(one.deviationInches) - Math.abs(other.deviationInches) ||
      other.repeats - one.repeats,
  )[0];
};

// ---------------------------------------------------------------- another gauge

/** Tried in quarter stitches over the base, up to two stitches away: another needle reaches that. */
const GAUGE_STEP = 1 / 4;
const GAUGE_REACH = 8;

function otherGauge(wish: MotifWish): MotifFit | undefined {
  const fit = isFlat(wish) ? fitCentred : fitWhole;
  const { amount, unit } = wish.gauge.over;
  const fits = Array.from(
    { length: 2 * GAUGE_REACH + 1 },
    (_, step) => (step - GAUGE_REACH) * GAUGE_STEP,
  )
    .filter((step) => step !== 0)
    .flatMap((step) => {
      const stitches = wish.gauge.stitches + step;
      const needle = step > 0 ? 'smaller' : 'larger';
      const way = fitAll('another gauge', wish, { ...wish.gauge, stitches }, fit, (_, worst) =>
        `at ${stitches} sts over ${amount} ${unit}, on a ${needle} needle, whole repeats come within ${inches(worst)}`,
      ); // prettier-ignore
      return way ? [{ way, step: Math.abs(step) }] : [];
    });
  const [best] = fits.sort(
    (one, other) =>
      one.way.worstDeviationInches - other.way.worstDeviationInches || one.step - other.step,
  );
  return best?.way;
}

// ---------------------------------------------------------------- what came of it

function fitted(
  { repeats, panel, cut }: Pick<FittedSize, 'repeats' | 'panel' | 'cut'>,
  around: number,
  motif: Motif,
  gauge: Gauge,
  wish?: MotifWish,
  balance = wish && isFlat(wish) ? 2 * motif.plus : motif.plus,
): FittedSize {
  const stitches = repeats * motif.stitches + balance + 2 * panel;
  const seams = 2 * (wish?.seamStitches ?? 0);
  const half = Math.ceil(stitches / 2) + seams;
  const deviationInches = widthInches(stitches, gauge) - around;
  return { repeats, panel, cut, half, stitches, deviationInches };
}

const inches = (value: number): string => `${value.toFixed(2)} in`;

// ---------------------------------------------------------------- rows of the motif

/** Which row of a motif `rows` high is worked after `worked` rows: 1 to `rows`, counted from row 1. */
export const motifRowAt = (worked: number, rows: number): number =>
  worked === 0 ? 0 : ((worked - 1) % rows) + 1;

/**
 * Rows to work so that a landmark (armhole, neck, cuff) falls on row `row` of the motif in every size:
 * the nearest count to each wanted one; a tie works the longer.
 */
export function alignToMotif(
  wanted: readonly number[],
  motifRows: number,
  row: number,
): readonly { readonly rows: number; readonly deviationRows: number }[] {
  return wanted.map((each) => {
    const first = ((row - 1) % motifRows) + 1;
    const repeats = Math.max(0, Math.floor((each - first) / motifRows + 0.5));
    const rows = first + repeats * motifRows;
    return { rows, deviationRows: rows - each };
  });
}

/** The row on which a landmark falls best in all sizes together: least worst deviation. */
export function bestMotifRow(wanted: readonly number[], motifRows: number): number {
  const worst = (row: number) =>
    Math.max(...alignToMotif(wanted, motifRows, row).map((each) => Math.abs(each.deviationRows)));
  const rows = Array.from({ length: motifRows }, (_, at) => at + 1);
  return rows.reduce((best, row) => (worst(row) < worst(best) - 1e-9 ? row : best), motifRows);
}

/** Where the motif stands at a shoulder: the column at the neck edge, and the rows of it worked last. */
export interface MotifAtShoulder {
  /** 0 to stitches − 1, counted from the right of the chart. */
  readonly column: number;
  /** Rows of the unfinished repeat; 0 where the last repeat is complete. */
  readonly rows: number;
}

/**
 * Does a motif that is the same mirrored run on over a shoulder, joined stitch to stitch? Its columns
 * meet where each lies as far from the neck edge on both sides; its rows make one whole motif where the
 * unfinished rows of front and back add up to one (geometry).
 */
export function overShoulder(
  motif: { readonly stitches: number; readonly rows: number },
  front: MotifAtShoulder,
  back: MotifAtShoulder,
): { readonly columnsMeet: boolean; readonly rowsMissing: number } {
  const remainder = (value: number, of: number) => ((value % of) + of) % of;
  return {
    columnsMeet: remainder(front.column + back.column + 1, motif.stitches) === 0,
    rowsMissing: remainder(-(front.rows + back.rows), motif.rows),
  };
}
