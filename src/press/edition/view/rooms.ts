/**
 * How large drawings are made for an edition: the room they have on its page, the cells of charts and
 * the letters in them. In large print every letter of a drawing is as large as the text.
 */
import type { EditionKind } from '../order.ts';

export interface SchematicRoom {
  readonly maxWidthPoints: number;
  readonly maxHeightPoints: number;
  readonly letterSizePoints?: number;
  /** Two side by side, or each on the whole width. */
  readonly size: 'half' | 'full';
}

export interface ChartRoom {
  /** Beside the side column, where the page has one. */
  readonly textWidthPoints: number;
  readonly maxWidthPoints: number;
  readonly maxHeightPoints: number;
  /** Cells are no larger than is calm, no smaller than is legible; a chart that needs less is split. */
  readonly cells: {
    readonly smallest: number;
    readonly usual: number;
    readonly largest: number;
    readonly key: number;
  };
  readonly numberPoints?: number;
}

const LARGE_PRINT_POINTS = 18;

export function schematicRoom(kind: EditionKind): SchematicRoom {
  if (kind !== 'large') return { maxWidthPoints: 225, maxHeightPoints: 250, size: 'half' };
  return {
    maxWidthPoints: 480,
    maxHeightPoints: 285,
    letterSizePoints: LARGE_PRINT_POINTS,
    size: 'full',
  };
}

export function chartRoom(kind: EditionKind): ChartRoom {
  if (kind === 'large') {
    return {
      textWidthPoints: 475,
      maxWidthPoints: 475,
      maxHeightPoints: 560,
      cells: { smallest: 20, usual: 22, largest: 30, key: 24 },
      numberPoints: LARGE_PRINT_POINTS,
    };
  }
  return {
    textWidthPoints: 370,
    maxWidthPoints: 475,
    maxHeightPoints: 560,
    cells: { smallest: 10.5, usual: 13, largest: 19, key: 14 },
  };
}
