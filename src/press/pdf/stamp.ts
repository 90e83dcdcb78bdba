/**
 * Paints one mark on every page of a finished file, as an update behind it (ISO 32000-1, 7.5.6): the
 * bytes of the file stay as they are, so that the unmarked document is the marked one cut off. Takes a
 * file of this room, runs at their places and the fonts they name; the mark is an artifact, which a
 * screen reader passes over.
 */
import { PDFArray, PDFDict, PDFDocument, PDFName, type PDFObject, PDFRef } from 'pdf-lib';
import { assert, present } from '../../base/assert.ts';
import type { PrintFonts } from '../fonts/face.ts';
import type { Mark } from '../layout/frames.ts';
import { Canvas } from './canvas.ts';
import { embedFont } from './embedded-font.ts';
import { updateOf } from './file.ts';
import { dictionary, packedStream } from './objects.ts';
import type { FontInUse } from './resources.ts';
import { paintRuns } from './text-lines.ts';

type RunMark = Extract<Mark, { kind: 'run' }>;

export interface PageStamp {
  /** Runs only, y from the top. */
  readonly marks: readonly Mark[];
  readonly heightPoints: number;
}

/** The file with the mark on every page. The same file and mark give the same bytes. */
export async function stampPdf(
  file: Uint8Array,
  stamp: PageStamp,
  fonts: PrintFonts,
): Promise<Uint8Array> {
  const document = await PDFDocument.load(file, { updateMetadata: false });
  const { context } = document;
  const end = endOf(file);
  context.largestObjectNumber = end.size - 1;
  const inUse = new Map<string, FontInUse>();
  const fontOf = (face: string): FontInUse => {
    const known = inUse.get(face);
    if (known) return known;
    const name = `M${inUse.size + 1}`;
    const font = { name, ref: context.nextRef(), subset: fonts.subset(face) };
    inUse.set(face, font);
    return font;
  };
  const mark = packedStream(context, paintStamp(stamp, fontOf));
  for (const { ref, subset } of inUse.values()) embedFont(context, ref, subset);
  const changed = new Map<PDFRef, PDFObject>();
  for (const page of document.getPages()) {
    const { node, ref } = page;
    const painted = node.get(PDFName.of('Contents'));
    assert(painted instanceof PDFRef, 'a page of ours has one stream');
    node.set(PDFName.of('Contents'), listOf(context, [painted, mark]));
    changed.set(ref, node);
    const resources = node.get(PDFName.of('Resources'));
    assert(resources instanceof PDFRef, 'pages of ours share their resources');
    changed.set(resources, withFonts(context.lookup(resources, PDFDict), inUse));
  }
  const added = context.enumerateIndirectObjects().filter(([ref]) => ref.objectNumber >= end.size);
  const objects = [...changed, ...added].map(
    ([ref, object]) => [ref.objectNumber, object] as const,
  );
  const { Root, Info, ID } = context.trailerInfo;
  assert(Root instanceof PDFRef && Info instanceof PDFRef, 'the file names its catalogue');
  assert(ID instanceof PDFArray, 'the file has an identifier');
  const trailer = { root: Root, info: Info, identifier: ID.get(0), previous: end.start };
  return updateOf(file, context, objects, trailer);
}

/** Begins with nothing set, whatever the page left behind but its matrix, which it gave back. */
function paintStamp(
  { marks, heightPoints }: PageStamp,
  fontOf: (face: string) => FontInUse,
): string {
  const runs = marks.filter((mark): mark is RunMark => mark.kind === 'run');
  assert(runs.length === marks.length, 'a stamp is text');
  const canvas = new Canvas();
  canvas.add('/Artifact <</Type /Pagination>> BDC');
  canvas.add('0 g');
  paintRuns(
    canvas,
    runs.map((run) => ({ ...run, y: heightPoints - run.y })),
    fontOf,
  );
  canvas.add('EMC');
  return canvas.toString();
}

function listOf(context: PDFDocument['context'], refs: readonly PDFRef[]): PDFArray {
  const list = PDFArray.withContext(context);
  for (const ref of refs) list.push(ref);
  return list;
}

/** The resources with the fonts of the mark added once. */
function withFonts(resources: PDFDict, inUse: ReadonlyMap<string, FontInUse>): PDFDict {
  const key = PDFName.of('Font');
  const fonts = resources.lookupMaybe(key, PDFDict) ?? dictionary(resources.context, {});
  for (const { name, ref } of inUse.values()) fonts.set(PDFName.of(name), ref);
  resources.set(key, fonts);
  return resources;
}

/** Where the file's table stands, and how many numbers it gives out. */
function endOf(file: Uint8Array): { readonly start: number; readonly size: number } {
  const text = Buffer.from(file.buffer, file.byteOffset, file.byteLength);
  const tail = text.subarray(-64).toString('latin1');
  const start = Number(present(/startxref\n(\d+)\n%%EOF\n$/.exec(tail)?.[1], 'startxref'));
  const head = text.subarray(start, start + 400).toString('latin1');
  const size = Number(present(/\/Size (\d+)/.exec(head)?.[1], 'the size of the table'));
  return { start, size };
}
