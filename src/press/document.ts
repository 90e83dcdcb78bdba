/**
 * The semantic document: what a page says, without geometry. The edition room builds it, the layout
 * room sets it, the tag tree and the proof are taken from it. It knows no knitting and no PDF.
 */
import type { Drawing } from './drawing/drawing.ts';

export type InlineRole =
  | 'plain' | 'strong' | 'emphasis' | 'abbreviation' | 'count' | 'small'; // prettier-ignore

export type Inline =
  | {
      readonly kind: 'text';
      readonly text: string;
      readonly role: InlineRole;
      readonly language?: string;
    }
  /** Never broken across lines: a number and its unit, one group of a size list. */
  | { readonly kind: 'unbroken'; readonly children: readonly Inline[] }
  | { readonly kind: 'link'; readonly target: string; readonly children: readonly Inline[] } // '#id' or URL
  /** A small drawing in the line, such as a chart symbol in the key; sits on the baseline. */
  | { readonly kind: 'drawing'; readonly drawing: Drawing; readonly alternative: string }
  | { readonly kind: 'lineBreak' };

export type ParagraphRole =
  | 'body' | 'lead' | 'note' | 'caution' | 'caption' | 'byline' | 'fine'; // prettier-ignore

export interface TableColumn {
  /** `figures`: centred, whole numbers under each other, fractions and decimals behind them. */
  readonly align: 'start' | 'centre' | 'end' | 'figures';
  /** Share of the width beyond what the text needs; 0 keeps the column as narrow as its text. */
  readonly stretch: number;
}

export interface TableCell {
  readonly content: readonly Inline[];
  readonly header?: 'row' | 'column';
  readonly span?: number;
}

/** Set in the column beside what follows, where the page has such a column. */
export type Place = 'side';

export type Block =
  | {
      readonly kind: 'heading';
      readonly level: 1 | 2 | 3 | 4;
      readonly id: string;
      readonly content: readonly Inline[];
      readonly place?: Place;
    }
  | {
      readonly kind: 'paragraph';
      readonly role: ParagraphRole;
      readonly content: readonly Inline[];
      readonly place?: Place;
    }
  /** A row of instructions: label, what to do, and the count at the end. */
  | {
      readonly kind: 'instruction';
      readonly id: string;
      readonly label: readonly Inline[];
      readonly content: readonly Inline[];
      readonly count: readonly Inline[];
    }
  | {
      readonly kind: 'list';
      readonly ordered: boolean;
      readonly items: readonly (readonly Block[])[];
    }
  | {
      readonly kind: 'definitions';
      readonly entries: readonly {
        readonly term: readonly Inline[];
        readonly description: readonly Inline[];
      }[];
      readonly place?: Place;
      /** Kept in the text column, one entry below the other. */
      readonly narrow?: boolean;
    }
  | {
      readonly kind: 'table';
      readonly id: string;
      readonly caption: readonly Inline[];
      readonly columns: readonly TableColumn[];
      readonly head: readonly (readonly TableCell[])[];
      readonly rows: readonly (readonly TableCell[])[];
    }
  | {
      readonly kind: 'figure';
      readonly id: string;
      readonly content: FigureContent;
      readonly alternative: string;
      readonly caption: readonly Inline[];
      readonly size: 'cover' | 'full' | 'half' | 'natural';
    }
  /** Headings and the pages they stand on; left out of documents of few pages. */
  | {
      readonly kind: 'contents';
      readonly id: string;
      readonly title: readonly Inline[];
      readonly leastPages: number;
      readonly entries: readonly ContentsEntry[];
    }
  /** Kept on one page where it fits on one. */
  | { readonly kind: 'together'; readonly children: readonly Block[] }
  /** A named part of the document; a `page` section starts on a new page. */
  | {
      readonly kind: 'section';
      readonly id: string;
      readonly start: 'flow' | 'page';
      readonly children: readonly Block[];
    };

export interface ContentsEntry {
  /** Id of the heading. */
  readonly target: string;
  readonly title: string;
  readonly level: 2 | 3;
  /** As printed; known when the pages stand. */
  readonly page?: number;
}

export type FigureContent =
  | {
      readonly kind: 'picture';
      readonly hash: string;
      readonly widthPixels: number;
      readonly heightPixels: number;
    }
  | { readonly kind: 'drawing'; readonly drawing: Drawing };

export type Paper = 'A4' | 'Letter';

export interface Document {
  readonly title: string;
  readonly author: string;
  readonly subject: string;
  readonly keywords: readonly string[];
  /** BCP 47. */
  readonly language: string;
  readonly direction: 'ltr' | 'rtl';
  readonly paper: Paper;
  /** ISO date; the only date in the file. */
  readonly issued: string;
  readonly edition: 'standard' | 'large' | 'one-size' | 'ink-saving';
  /** The designer's two colours, `#rrggbb`; those of the house where absent. */
  readonly colours?: { readonly ink: string; readonly accent: string };
  /** Said at the head of each page, where a document is no finished edition: a proof, a test copy. */
  readonly mark?: string;
  /** Foot of each page; `{page}` and `{pages}` stand for the numbers. */
  readonly footer: { readonly start: string; readonly end: string };
  readonly blocks: readonly Block[];
}
