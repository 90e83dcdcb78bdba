/**
 * A small search for counts that must fit each other: every unknown has a few counts near what was
 * wanted, demands tie several of them together (a yoke that is a multiple of 12). Takes unknowns and
 * demands, gives the fits with the least deviation first. Knows numbers only, no garment.
 */
import { RULE_LIMITS } from '../../base/limits.ts';

/** A count that may be chosen, and how far it lies from what was wanted, in any one unit. */
export interface Choice {
  readonly count: number;
  readonly deviation: number;
}

export interface Unknown {
  readonly id: string;
  /** The counts that come into question, the nearest first, once those before it are chosen. */
  choices(chosen: Chosen): readonly Choice[];
}

export interface Demand {
  /** Ids of the unknowns it ties; asked as soon as all of them are chosen. */
  readonly of: readonly string[];
  holds(chosen: Chosen): boolean;
}

export type Chosen = ReadonlyMap<string, number>;

export interface Fit {
  readonly counts: Chosen;
  /** Largest deviation of any count. */
  readonly worst: number;
  /** Sum of the squares of all deviations: what the fits are ranked by. */
  readonly squares: number;
}

export interface Search {
  /** The best first; none where no choice keeps every demand. */
  readonly fits: readonly Fit[];
  /** The search was given up before every choice was looked at: the best may be missing. */
  readonly gaveUp: boolean;
}

/**
 * Depth first with a bound (branch and bound; A. H. Land and A. G. Doig, 1960): a branch is left as soon
 * as its deviations alone are no better than the worst fit kept. Gives at most `keep` fits.
 */
export function solveCounts(
  unknowns: readonly Unknown[],
  demands: readonly Demand[],
  keep = 3,
): Search {
  const places = new Map(unknowns.map(({ id }, at) => [id, at]));
  const ready = unknowns.map((_, at) =>
    demands.filter(({ of }) => Math.max(...of.map((id) => places.get(id) ?? -1)) === at),
  );
  const fits: Fit[] = [];
  const chosen = new Map<string, number>();
  let steps = 0;
  const bound = () => (fits.length < keep ? Infinity : (fits.at(-1)?.squares ?? Infinity));
  const goOn = (at: number, squares: number, worst: number): void => {
    const unknown = unknowns[at];
    if (!unknown) {
      fits.push({ counts: new Map(chosen), worst, squares });
      fits.sort((one, other) => one.squares - other.squares);
      fits.length = Math.min(fits.length, keep);
      return;
    }
    for (const { count, deviation } of unknown.choices(chosen)) {
      steps += 1;
      if (steps > RULE_LIMITS.searchSteps) return;
      const sum = squares + deviation ** 2;
      if (sum >= bound()) continue;
      chosen.set(unknown.id, count);
      if (ready[at]?.every((demand) => demand.holds(chosen)) !== false)
        goOn(at + 1, sum, Math.max(worst, Math.abs(deviation)));
    }
    chosen.delete(unknown.id);
  };
  goOn(0, 0, 0);
  return { fits, gaveUp: steps > RULE_LIMITS.searchSteps };
}
