/**
 * Prints any document of the studio that is no pattern edition: correction sheets, packets, lists. Takes
 * a semantic document, fonts and the pictures it names; gives the finished PDF and proves it as strictly
 * as an edition. Pure but for the reader that the proof opens.
 */
import type { Finding } from '../findings/finding.ts';
import type { Document } from './document.ts';
import type { PrintFonts } from './fonts/face.ts';
import { settledDocument } from './layout/contents.ts';
import type { Laid } from './layout/frames.ts';
import { layOut } from './layout/lay-out.ts';
import { pageStyle } from './layout/style.ts';
import type { Picture } from './pdf/write.ts';
import { writePdf } from './pdf/write.ts';
import { type ProofCopy, proveDocument } from './proof/prove.ts';

export interface Printed {
  readonly bytes: Uint8Array;
  readonly pages: number;
  /** What the proof found; empty for a sheet that says what its document says. */
  readonly findings: readonly Finding[];
}

const NO_PICTURES: ReadonlyMap<string, Picture> = new Map();

/** `pictures`: JPEG by hash, as figures of the document name them. */
export async function printDocument(
  document: Document,
  fonts: PrintFonts,
  pictures: ReadonlyMap<string, Picture> = NO_PICTURES,
): Promise<Printed> {
  const { laid, copy } = setDocument(document, fonts);
  const bytes = writePdf(laid, document, { fonts, pictures });
  return { bytes, pages: copy.pages, findings: await proveDocument(copy, bytes) };
}

export interface SetDocument {
  readonly laid: Laid;
  /** What the finished file is to be compared with. */
  readonly copy: ProofCopy;
}

/** Lays out a document in the style of its edition and in its own colours. */
export function setDocument(document: Document, fonts: PrintFonts): SetDocument {
  const style = pageStyle(document.edition, document.colours);
  const laid = layOut(document, style, fonts);
  const copy: ProofCopy = {
    document: settledDocument(document, laid),
    pages: laid.pages.length,
    margins: style.margins,
    smallestDotsPerInch: style.figure.smallestDotsPerInch,
    leastTypePoints: Math.min(style.leastSize, style.leastDrawnSize),
    trouble: laid.trouble,
  };
  return { laid, copy };
}
