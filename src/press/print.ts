/**
 * Prints any document of the studio that is no pattern edition: correction sheets, packets, lists. Takes
 * a semantic document, fonts and the pictures it names; gives the finished PDF and proves it as strictly
 * as an edition. Pure but for the reader that the proof opens.
 */
import type { Finding } from '../findings/finding.ts';
import type { Document } from './document.ts';
import type { PrintFonts } from './fonts/face.ts';
import { layOut } from './layout/lay-out.ts';
import { pageStyle } from './layout/style.ts';
import type { Picture } from './pdf/write.ts';
import { writePdf } from './pdf/write.ts';
import { proveDocument } from './proof/prove.ts';

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
  const style = pageStyle(document.edition);
  const laid = layOut(document, style, fonts);
  const bytes = writePdf(laid, document, { fonts, pictures });
  const copy = {
    document,
    pages: laid.pages.length,
    margins: style.margins,
    smallestDotsPerInch: style.figure.smallestDotsPerInch,
    trouble: laid.trouble,
  };
  return { bytes, pages: laid.pages.length, findings: await proveDocument(copy, bytes) };
}
