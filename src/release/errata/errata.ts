/**
 * All that a correction needs in one language: the sheet as PDF, page and plain text, and the notice for
 * buyers. Takes the old and the new pattern, the language, and which versions are concerned; gives files
 * under their names. Used alike by the command line and by every release that follows another.
 */
import type { Finding } from '../../findings/finding.ts';
import type { Language } from '../../language/index.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import type { EditionOrder } from '../../press/edition/order.ts';
import type { Templates } from '../../press/edition/templates.ts';
import type { PrintFonts } from '../../press/fonts/face.ts';
import { writeHtml } from '../../press/html/write-html.ts';
import { printDocument } from '../../press/print.ts';
import { writeText } from '../../press/text/write-text.ts';
import { type ComparedVersion, concernedVersions } from './affected.ts';
import { type Change, compareVersions } from './changes.ts';
import { sayHistory, writeNotice } from './notice.ts';
import { buildSheet, type SheetOrder } from './sheet.ts';

export interface ErrataFile {
  /** `errata.pdf`, `errata.html`, `errata.txt`, `notice.txt`. */
  readonly name: string;
  readonly mediaType: string;
  readonly bytes: Uint8Array;
}

export interface ErrataOrder {
  readonly now: CheckedPattern;
  readonly language: Language;
  /** Earlier versions, the one that is corrected first. */
  readonly earlier: readonly CheckedPattern[];
}

export interface Errata {
  readonly changes: readonly Change[];
  readonly affected: readonly string[];
  /** The sheet as plain text. */
  readonly text: string;
  readonly notice: string;
  /** One line for the history of the document. */
  readonly history: string;
  print(fonts: PrintFonts): Promise<{
    readonly files: readonly ErrataFile[];
    readonly findings: readonly Finding[];
  }>;
}

/** Nothing where both versions print the same. */
export function writeErrata(order: ErrataOrder, templates: Templates): Errata | undefined {
  const sheet = sheetOrder(order);
  if (!sheet || sheet.changes.length === 0) return undefined;
  const document = buildSheet(sheet, templates);
  const notice = writeNotice(sheet, templates);
  const text = writeText(document);
  return {
    changes: sheet.changes,
    affected: sheet.affected,
    text,
    notice,
    history: sayHistory(sheet.edition, sheet.changes),
    async print(fonts) {
      const printed = await printDocument(document, fonts);
      const html = writeHtml(document, { source: () => '' });
      const files = [
        { name: 'errata.pdf', mediaType: 'application/pdf', bytes: printed.bytes },
        { name: 'errata.html', mediaType: 'text/html', bytes: encode(html) },
        { name: 'errata.txt', mediaType: 'text/plain', bytes: encode(text) },
        { name: 'notice.txt', mediaType: 'text/plain', bytes: encode(notice) },
      ];
      return { files, findings: printed.findings };
    },
  };
}

/** The line for the history of the document, without the sheet. */
export function writeHistory(order: ErrataOrder): string | undefined {
  const sheet = sheetOrder(order);
  return sheet && sheet.changes.length > 0 ? sayHistory(sheet.edition, sheet.changes) : undefined;
}

function sheetOrder({ now, language, earlier }: ErrataOrder): SheetOrder | undefined {
  const compared = earlier.map((old): ComparedVersion => ({
    version: old.pattern.bundle.data.version,
    changes: compareVersions(old, now, language),
  }));
  const [last] = compared;
  if (!last) return undefined;
  const edition: EditionOrder = { checked: now, language, kind: 'standard', pictures: new Map() };
  return { edition, old: last.version, changes: last.changes, ...concernedVersions(compared) };
}

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);
