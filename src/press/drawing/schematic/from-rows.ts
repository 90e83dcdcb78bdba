/**
 * The outline that follows from the worked rows, as the drawing takes it: closed line, bands, folds and
 * the places of the measurements. Takes an outline of the pattern room, gives one of the drawing room;
 * no length is changed on the way.
 */
import type { PieceOutline } from '../../../pattern/outlines/index.ts';
import { closedPath, openPath } from '../path.ts';
import type { Outline } from './outline.ts';

export function drawnOutline(outline: PieceOutline): Outline {
  return {
    widthInches: outline.widthInches,
    heightInches: outline.heightInches,
    steps: closedPath(...outline.edge),
    details: outline.lines.map(({ kind, points }) => ({ kind, steps: openPath(...points) })),
    borders: outline.bands.map((corners) => ({ corners })),
    dimensions: outline.places.map(({ role, from, to, side, around }) => ({
      role,
      from,
      to,
      side,
      around,
    })),
  };
}
