/**
 * Looks at places rather than words: everything that is read stands inside the margins of its page,
 * everything else inside what a printer reaches, and no photograph is larger than its pixels allow.
 */
import type { Box } from './page-marks.ts';
import type { ReadPage } from './read-pdf.ts';

/** Points kept free at each edge of the page. */
export interface Edges {
  readonly start: number;
  readonly end: number;
  readonly top: number;
  readonly bottom: number;
}

export interface Outside {
  readonly page: number;
  readonly text: string;
}

/** Letters may lean over their place by so much, and boxes of type are taken generously. */
const TOLERANCE = 2.5;
/** Printers at home leave some 6 mm blank. */
const PRINTER_EDGE = 17;
const POINTS_PER_INCH = 72;

export function outsideFrames(pages: readonly ReadPage[], margins: Edges): readonly Outside[] {
  const side = Math.min(margins.start, margins.end);
  return pages.flatMap(({ widthPoints, heightPoints, pieces, furniture }, page) => {
    const frame: Box = [side, margins.bottom, widthPoints - side, heightPoints - margins.top];
    const sheet: Box = [PRINTER_EDGE, PRINTER_EDGE, widthPoints - PRINTER_EDGE, heightPoints - PRINTER_EDGE]; // prettier-ignore
    const beyond =
      (within: Box) =>
      (piece: { readonly box: Box | undefined }): boolean =>
        piece.box !== undefined && !isInside(piece.box, within);
    return [...pieces.filter(beyond(frame)), ...furniture.filter(beyond(sheet))].map(
      ({ text }): Outside => ({ page, text: text === '' ? 'a drawing' : text }),
    );
  });
}

const isInside = ([l, b, r, t]: Box, [left, bottom, right, top]: Box): boolean =>
  l >= left - TOLERANCE && b >= bottom - TOLERANCE && r <= right + TOLERANCE && t <= top + TOLERANCE; // prettier-ignore

/** Text set smaller than the edition promises; a hair is lost where lines are made to fit. */
export function tooSmall(pages: readonly ReadPage[], leastPoints: number): readonly Outside[] {
  return pages.flatMap(({ pieces, furniture }, page) =>
    [...pieces, ...furniture]
      .filter(({ smallestType }) => smallestType < leastPoints * 0.98)
      .map(({ text, smallestType }) => ({ page, text: `${text} (${smallestType.toFixed(1)} pt)` })),
  );
}

/** Dots to the inch of a photograph as it stands on the page. */
export const dotsPerInch = (widthPixels: number, widthPoints: number): number =>
  (widthPixels * POINTS_PER_INCH) / widthPoints;
