/**
 * Chooses between the ways in which some blocks may be set: whichever gives the best pages. Each block
 * is settled in turn, the others as they are, so that a few choices cost a few trials.
 */
import { type Choice, type Slab, withEnds } from '../slab.ts';
import { breakPages, type PageBreaks } from './page-breaks.ts';

export interface ChosenPages extends PageBreaks {
  /** Without choices left. */
  readonly slabs: readonly Slab[];
}

export function choosePages(flow: readonly Slab[], pageHeight: number): ChosenPages {
  const open = flow.flatMap(({ choices }, index) => (choices === undefined ? [] : [index]));
  const taken = new Map<number, Choice>();
  let best = attempt(flow, taken, pageHeight);
  for (const index of open) {
    for (const choice of (flow[index]?.choices ?? []).slice(1)) {
      const before = taken.get(index);
      taken.set(index, choice);
      const tried = attempt(flow, taken, pageHeight);
      if (tried.cost < best.cost) best = tried;
      else if (before === undefined) taken.delete(index);
      else taken.set(index, before);
    }
  }
  return best;
}

function attempt(
  flow: readonly Slab[],
  taken: ReadonlyMap<number, Choice>,
  pageHeight: number,
): ChosenPages {
  let extra = 0;
  const slabs = flow.flatMap((each, index) => {
    const choice = taken.get(index) ?? each.choices?.[0];
    if (choice === undefined) return [each];
    extra += choice.cost;
    return inPlaceOf(each, choice.slabs);
  });
  const { ranges, cost } = breakPages(slabs, pageHeight);
  return { slabs, ranges, cost: cost + extra };
}

/** The slabs of a choice, which begin and end as the one slab that stood for them. */
function inPlaceOf(each: Slab, slabs: readonly Slab[]): Slab[] {
  const { before, breakBefore, newPage, anchors, after, breakAfter } = each;
  const first = { before, breakBefore, ...(newPage && { newPage }), ...(anchors && { anchors }) };
  return withEnds(slabs, first, { after, breakAfter });
}
