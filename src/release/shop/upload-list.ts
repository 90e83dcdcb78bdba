/**
 * The list a person works down while filling in a shop's forms: every picture with its description,
 * every text with its length, every file. A working paper in English, like findings; takes what the
 * parcel holds, gives a document for the press.
 */
import type { Document } from '../../press/document.ts';
import { readMarkup } from '../../press/edition/markup.ts';
import type { Templates } from '../../press/edition/templates.ts';
import { type CellView, type TableView, textCell } from '../../press/edition/view/table.ts';

export interface ListedPicture {
  readonly name: string;
  readonly widthPixels: number;
  readonly heightPixels: number;
  readonly sizeBytes: number;
  /** What it shows, in the language of the list. */
  readonly alternative: string;
}

export interface ListedFile {
  readonly name: string;
  /** "84 of 120 letters", "12 pages"; empty where the name says it. */
  readonly note: string;
}

export interface UploadList {
  readonly title: string;
  readonly about: string;
  readonly issued: string;
  readonly studio: string;
  readonly pictures: readonly ListedPicture[];
  readonly languages: readonly {
    readonly tag: string;
    readonly name: string;
    /** The title as it will stand in the shop. */
    readonly heading: string;
    readonly files: readonly ListedFile[];
  }[];
  readonly cautions: readonly string[];
}

const BOX = '[  ]';
const LEAD = 'Tick each line when it is uploaded. Names are safe to keep as they are.';

export function uploadListDocument(list: UploadList, templates: Templates): Document {
  const view = {
    title: list.title,
    about: list.about,
    lead: LEAD,
    pictures: pictureTable(list.pictures),
    languages: list.languages.map((each) => ({ ...each, files: fileTable(each.tag, each.files) })),
    cautions: list.cautions,
  };
  const markup = templates.write('upload-list', view, (key) => key);
  return {
    title: list.title,
    author: list.studio,
    subject: list.about,
    keywords: [],
    language: 'en',
    direction: 'ltr',
    paper: 'A4',
    issued: list.issued,
    edition: 'standard',
    footer: { start: `${list.studio} · ${list.title}`, end: 'Page {page} of {pages}' },
    blocks: readMarkup(markup, { figures: new Map(), drawings: new Map() }),
  };
}

function pictureTable(pictures: readonly ListedPicture[]): TableView {
  const rows = pictures.map((each) => [
    BOX,
    each.name,
    `${each.widthPixels} × ${each.heightPixels}`,
    `${Math.ceil(each.sizeBytes / 1000)} kB`,
    each.alternative,
  ]);
  return tableOf('pictures', ['', 'File', 'Pixels', 'Size', 'Describe it as'], rows);
}

const fileTable = (tag: string, files: readonly ListedFile[]): TableView =>
  tableOf(
    `files-${tag}`,
    ['', 'File', 'Note'],
    files.map(({ name, note }) => [BOX, name, note]),
  );

/** The last column has what room is left. */
function tableOf(
  id: string,
  head: readonly string[],
  rows: readonly (readonly string[])[],
): TableView {
  const cells = (texts: readonly string[], header: boolean): CellView[] =>
    texts.map((text) => textCell(text, header));
  return {
    id,
    caption: '',
    columns: head.map((_, column) => ({
      align: 'start',
      stretch: column === head.length - 1 ? 1 : 0,
    })),
    head: [cells(head, true)],
    rows: rows.map((row) => cells(row, false)),
  };
}
