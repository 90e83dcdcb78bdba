/**
 * Frames to bytes: a tagged PDF that claims PDF/A-2a and PDF/UA-1. Takes laid pages, what the document
 * says of itself, and the fonts and pictures the pages name. Knows no knitting, no clock and no place:
 * the same input gives the same bytes on any day.
 */
import { PDFContext } from 'pdf-lib';
import { assert } from '../../base/assert.ts';
import type { Laid } from '../layout/frames.ts';
import { standardRgbProfile } from './colour-profile.ts';
import { fileOf } from './file.ts';
import { addInformation, addXmp, type DocumentFacts } from './metadata.ts';
import { add, bytesText, packedStream, text } from './objects.ts';
import { addOutline } from './outline.ts';
import { paintPages } from './pages.ts';
import { type PressResources, Resources } from './resources.ts';
import { addStructure } from './structure.ts';

export type { DocumentFacts } from './metadata.ts';
export type { Picture, PressResources } from './resources.ts';

const PROFILE_NAME = 'sRGB IEC61966-2.1';

/** The finished file. A character without a glyph or a link without a place is a broken invariant. */
export function writePdf(
  laid: Laid,
  facts: DocumentFacts,
  pressResources: PressResources,
): Uint8Array {
  assert(laid.pages.length > 0, 'a document has at least one page');
  const context = PDFContext.create();
  const resources = new Resources(context, pressResources);
  const pages = paintPages(laid, resources);
  resources.finish();
  const structure = addStructure(context, laid, pages);
  const outline = addOutline(context, laid, pages, structure);
  const profile = packedStream(context, standardRgbProfile(), { N: 3 });
  const catalogue = add(context, {
    Type: 'Catalog',
    Pages: pages.tree,
    StructTreeRoot: structure.root,
    MarkInfo: { Marked: true },
    Lang: bytesText(facts.language),
    ViewerPreferences: {
      DisplayDocTitle: true,
      ...(facts.direction === 'rtl' ? { Direction: 'R2L' } : {}),
    },
    PageLabels: { Nums: [0, { S: 'D' }] },
    Metadata: addXmp(context, facts),
    OutputIntents: [
      {
        Type: 'OutputIntent',
        S: 'GTS_PDFA1',
        OutputConditionIdentifier: text(PROFILE_NAME),
        Info: text(PROFILE_NAME),
        DestOutputProfile: profile,
      },
    ],
    ...(outline ? { Outlines: outline, PageMode: 'UseOutlines' } : {}),
  });
  return fileOf(context, catalogue, addInformation(context, facts));
}
