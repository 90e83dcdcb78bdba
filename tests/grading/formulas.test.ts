/**
 * Handbook formulas: every entry of `formulas.json`, with its source, against the functions that reckon
 * it. The figures were collected from the books named in each entry and are never computed here.
 */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  afterRatio,
  circleIncreasePerRound,
  crownCounts,
  doublingCircle,
  mitredSquare,
  percentageYoke,
  planYoke,
  topDownCrown,
} from '../../src/pattern/grading/circles.ts';
import { compareCap } from '../../src/pattern/grading/cap.ts';
import {
  heelFlap,
  heelTurnCounts,
  pickUpAlongRows,
} from '../../src/pattern/grading/feet-and-hands.ts';
import { perCentimetre, readBase } from '../../src/pattern/grading/gauge.ts';
import { planRaglan, RAGLAN_STITCHES_PER_ROUND } from '../../src/pattern/grading/raglan.ts';
import { shapingRates } from '../../src/pattern/grading/spacing.ts';

interface Formula {
  readonly id: string;
  readonly rule: string;
  readonly check: unknown;
  readonly status: string;
  readonly source: string;
}

const formulas = JSON.parse(readFileSync('tests/grading/formulas.json', 'utf8')) as Formula[];

type Figures = Readonly<Record<string, number>>;

/** By id of the formula: the handbook's figures against ours. */
const CHECKS: Readonly<Record<string, (check: never) => void>> = {
  eps_yoke: (check: Figures) => {
    const yoke = percentageYoke(check['K'] ?? 0, 40);
    expect(yoke).toMatchObject({
      upperSleeve: check['upper_sleeve'],
      underarm: check['underarm'],
      yokeStart: check['yoke_start'],
      neck: check['neck'],
      depthInches: check['yoke_depth_in_for_40in'],
    });
  },
  eps_yoke_decreases_A: (counts: readonly number[]) => {
    for (const [at, count] of counts.slice(0, -1).entries())
      expect(Math.abs(afterRatio(count, 3, 2) - (counts[at + 1] ?? 0))).toBeLessThanOrEqual(1);
    const plan = planYoke(268, 80, 80, [[1 / 2, 2 / 3], [3 / 4, 4 / 9], [1, 80 / 268]]); // prettier-ignore
    expect(plan?.map(({ round, after }) => [round, after])).toEqual([[40, 179], [60, 119], [80, 80]]); // prettier-ignore
  },
  eps_yoke_decreases_B: (counts: readonly number[]) => {
    expect([afterRatio(268, 4, 3), afterRatio(201, 3, 2)]).toEqual(counts.slice(1, 3));
    expect(Math.abs(afterRatio(134, 5, 3) - (counts[3] ?? 0))).toBeLessThanOrEqual(2);
  },
  pi_shawl: (rows: readonly Figures[]) => {
    expect(doublingCircle(9, rows.length)).toEqual(
      rows.map((row) => ({ plainRounds: row['plain_rounds'], round: row['increase_on_round'], stitches: row['sts_after'] })), // prettier-ignore
    );
  },
  even_spacing: (check: Readonly<Record<string, Figures>>) => {
    for (const [name, rates] of Object.entries(check)) {
      const [rows = 0, events = 0] = name.split('/').map(Number);
      expect(shapingRates(rows, events)?.legs).toEqual([
        { every: rates['every'], times: rates['times'] },
        { every: rates['and_every'], times: rates['times_2'] },
      ]);
    }
  },
  flat_circle_rate: (check: Figures) => {
    expect(circleIncreasePerRound(0.75, 1)).toBeCloseTo(check['ratio 0.75'] ?? 0, 3);
    expect(circleIncreasePerRound(0.5, 1)).toBeCloseTo(check['ratio 0.5 (garter)'] ?? 0, 3);
  },
  top_down_crown: (counts: readonly number[]) => {
    const ours = [...new Set(topDownCrown(22))].filter((count) => count >= 24);
    expect(ours.slice(0, counts.length)).toEqual(counts);
  },
  heel_turn: (check: Figures) => {
    for (const [heel, left] of Object.entries(check))
      expect(heelTurnCounts(Number(heel)).at(-1)).toBe(left);
  },
  heel_flap: (check: Readonly<Record<string, Figures>>) => {
    for (const [round, heel] of Object.entries(check))
      expect(heelFlap(Number(round))).toEqual({ flap: heel['flap_sts'], rows: heel['rows'], pickUp: heel['pickup'] }); // prettier-ignore
  },
  pickup_ratio: (check: Figures) => {
    expect(pickUpAlongRows(4, 21, 28) / 4).toBe(check['21 sts 28 rows']);
    expect(pickUpAlongRows(102, 16, 24)).toBe(check['102 rows at 16/24']);
  },
  raglan: (check: Figures) => {
    expect(RAGLAN_STITCHES_PER_ROUND).toBe(check['per_round']);
    const even = planRaglan({ bodyFrom: 40, bodyTo: 80, sleeveFrom: 14, sleeveTo: 54, rounds: 40, step: 2 }); // prettier-ignore
    const counts = 'plan' in even ? even.plan.stitchesAfter : [];
    const grown = counts
      .map((count, at) => count - (counts[at - 1] ?? 108))
      .filter((each) => each > 0);
    expect(new Set(grown)).toEqual(new Set([check['per_round']]));
  },
  set_in_cap: () => {
    // A cap and an armhole of the same steps are as long as each other; the top is to be eased in.
    const edge = [{ stitches: 4, rows: 2 }, { stitches: 10, rows: 20 }, { stitches: 0, rows: 26 }]; // prettier-ignore
    const gauge = { stitches: 20, rows: 28, over: readBase('4 in') };
    expect(compareCap(edge, 5, [edge, edge], gauge)).toMatchObject({
      fits: true,
      fullnessInches: 1,
    });
  },
  mitred_square: (check: Readonly<Record<string, Figures>>) => {
    expect(mitredSquare(20)).toEqual({
      castOn: check['n=20']?.['CO'],
      rows: check['n=20']?.['rows'],
    });
  },
  gauge_base: (check: Figures) => {
    for (const [stitches, perTen] of Object.entries(check))
      expect(perCentimetre(Number(stitches), readBase('4 in')) * 10).toBeCloseTo(perTen, 3);
  },
};

/** Advice that is a range or a habit, with nothing to reckon: read by the body tables and the ease. */
const ADVICE = ['foot_proportions', 'hat_negative_ease', 'standard_ease_book'];

describe('handbook formulas', () => {
  it.each(formulas.map((formula) => [formula.id, formula.source, formula] as const))(
    '%s (%s)',
    (id, _source, { check }) => {
      if (ADVICE.includes(id)) return;
      const run = CHECKS[id];
      expect(run, `no check reads ${id}`).toBeDefined();
      run?.(check as never);
    },
  );

  it('crown of eight wedges of twelve (common practice)', () => {
    expect(crownCounts(8, 12).slice(0, 3)).toEqual([96, 88, 80]);
    expect(crownCounts(8, 12).at(-1)).toBe(8);
  });
});
