/**
 * Fills pages with slabs: repeated heads, white space between, both and figures squeezed by what the page lacks.
 * Gives the marks in place and where anchors came to stand.
 */
import type { Mark } from '../frames.ts';
import { type Anchor, lowered, type Slab } from '../slab.ts';
import { GAP_SHRINK, gapAbove, type PageRange } from './page-breaks.ts';

export interface FilledPage {
  readonly marks: readonly Mark[];
  readonly anchors: readonly (Anchor & { readonly y: number })[];
}

/** Sets the slabs of one page from `top` down. */
export function fillPage(slabs: readonly Slab[], range: PageRange, top: number): FilledPage {
  const here = slabs.slice(range.start, range.end);
  const { gapSqueeze, figureSqueeze } = range;
  const marks: Mark[] = [];
  const anchors: (Anchor & { y: number })[] = [];
  let y = top;
  const repeat = here[0]?.repeat;
  if (repeat !== undefined) {
    marks.push(...lowered(repeat.marks, y));
    y += repeat.height;
  }
  here.forEach((slab, index) => {
    y += gapAbove(here[index - 1], slab) * (1 - GAP_SHRINK * gapSqueeze);
    const given = slab.height - (slab.shrink?.by ?? 0) * figureSqueeze;
    const shrunk = slab.shrink !== undefined && figureSqueeze > 0;
    const own = shrunk ? slab.shrink.at(given) : slab.marks;
    const height = shrunk ? (slab.shrink.takes?.(given) ?? given) : given;
    marks.push(...lowered(own, y));
    anchors.push(...(slab.anchors ?? []).map((anchor) => ({ ...anchor, y })));
    y += height;
  });
  return { marks: joinedBoxes(marks), anchors };
}

type Box = Extract<Mark, { kind: 'box' }>;
const HAIR = 0.01;

/** Boxes that stand on each other become one: viewers show a seam between two. */
function joinedBoxes(marks: readonly Mark[]): Mark[] {
  const joined: Mark[] = [];
  let above: { readonly box: Box; readonly at: number } | undefined;
  for (const mark of marks) {
    if (mark.kind === 'box' && above !== undefined && continues(above.box, mark)) {
      const box = { ...above.box, height: mark.y + mark.height - above.box.y };
      joined[above.at] = box;
      above = { box, at: above.at };
      continue;
    }
    if (mark.kind === 'box') above = { box: mark, at: joined.length };
    joined.push(mark);
  }
  return joined;
}

const continues = (above: Box, below: Box): boolean =>
  above.x === below.x &&
  above.width === below.width &&
  above.fill === below.fill &&
  above.tag === below.tag &&
  Math.abs(above.y + above.height - below.y) < HAIR;
