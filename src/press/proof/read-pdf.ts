/**
 * Reads a finished PDF with a reader that shares nothing with our writer (pdf.js): the text of each
 * tagged element in the order of the tag tree. Takes bytes, gives text; knows nothing of what it
 * should say.
 */
import type { PDFPageProxy } from 'pdfjs-dist';

export interface ReadDocument {
  readonly pages: number;
  readonly title: string;
  readonly language: string;
  /** Text of all tagged content in reading order. */
  readonly text: string;
}

/** Throws where the file cannot be opened at all. */
export async function readPdf(bytes: Uint8Array): Promise<ReadDocument> {
  const { getDocument, VerbosityLevel } = await import('pdfjs-dist/legacy/build/pdf.mjs');
  const task = getDocument({
    // The reader keeps the buffer it is given, so it gets a copy.
    data: Uint8Array.from(bytes),
    useSystemFonts: false,
    disableFontFace: true,
    verbosity: VerbosityLevel.ERRORS,
  });
  try {
    const document = await task.promise;
    const { info } = (await document.getMetadata()) as unknown as { info: Record<string, unknown> };
    const texts: string[] = [];
    for (let number = 1; number <= document.numPages; number += 1)
      texts.push(await pageText(await document.getPage(number)));
    return {
      pages: document.numPages,
      title: words(info['Title']),
      language: words(info['Language']),
      text: texts.join('\n'),
    };
  } finally {
    await task.destroy();
  }
}

const words = (value: unknown): string => (typeof value === 'string' ? value : '');

/** Text by marked-content id, put in the order the page's part of the tag tree names the ids. */
async function pageText(page: PDFPageProxy): Promise<string> {
  const content = await page.getTextContent({
    includeMarkedContent: true,
    disableNormalization: true,
  });
  const byId = new Map<string, string>();
  const open: (string | undefined)[] = [];
  for (const item of content.items) {
    if ('str' in item) {
      const id = open.findLast((each) => each !== undefined);
      if (id !== undefined)
        byId.set(id, `${byId.get(id) ?? ''}${item.str}${item.hasEOL ? ' ' : ''}`);
    } else if (item.type === 'endMarkedContent') open.pop();
    else open.push(item.id || undefined);
  }
  const tree = await page.getStructTree();
  return idsOf(tree)
    .map((id) => byId.get(id) ?? '')
    .join(' ');
}

function idsOf(node: unknown): string[] {
  if (typeof node !== 'object' || node === null) return [];
  const { type, id, children } = node as { type?: string; id?: string; children?: unknown[] };
  if (type === 'content' && id !== undefined) return [id];
  return (children ?? []).flatMap(idsOf);
}
