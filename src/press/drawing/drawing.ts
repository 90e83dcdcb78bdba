/**
 * Neutral vectors: what a chart or schematic looks like, in points, origin at the top left, y down.
 * Painted to PDF and SVG by others. Repeated shapes are defined once as symbols and used many times,
 * so that a chart of thousands of cells stays small.
 */
import type { PathStep } from '../../base/path-data.ts';

export type { PathStep };

export interface Stroke {
  readonly widthPoints: number;
  readonly colour: string; // #rrggbb
  readonly dash?: readonly number[];
  readonly cap?: 'butt' | 'round';
  readonly join?: 'miter' | 'round';
}

export type Shape =
  | {
      readonly kind: 'path';
      readonly steps: readonly PathStep[];
      readonly fill?: string;
      readonly stroke?: Stroke;
    }
  | { readonly kind: 'use'; readonly symbol: string; readonly x: number; readonly y: number }
  | {
      readonly kind: 'text';
      readonly x: number;
      readonly y: number; // baseline
      readonly text: string;
      readonly sizePoints: number;
      readonly anchor: 'start' | 'middle' | 'end';
      readonly weight: 'regular' | 'bold';
      readonly colour?: string;
    };

export interface Drawing {
  readonly widthPoints: number;
  readonly heightPoints: number;
  readonly symbols: Readonly<Record<string, readonly Shape[]>>;
  readonly shapes: readonly Shape[];
}
