/** Corrections: suggested only where working the piece again in every size proves them. */
import type { FindFix } from './gather.ts';
import type { Shelf } from './build.ts';
import type { WorkedPiece } from './index.ts';

export function findFix(_shelf: Shelf, _piece: number, _worked: WorkedPiece): FindFix {
  return () => undefined;
}
