/**
 * What the layout room gives: pages with marks at fixed places, and the tree of tags they belong to.
 * Points, origin at the top left of the page, y down; the PDF room turns it over. Reading order is
 * the order of the tag tree, never the order of painting.
 */
import type { Paper } from '../document.ts';
import type { Drawing } from '../drawing/drawing.ts';
import type { Run } from '../fonts/face.ts';

/** Index into `Laid.tags`, or page furniture that a screen reader skips. */
export type TagRef = number | 'artifact';

export type Mark =
  /**
   * `y` is the baseline and `x` the left edge, whichever way the run is read. Advances hold the space
   * that fills a line. A hyphen at the end of a line is read as U+00AD; a space there is kept, and may
   * stand outside the frame, since it has no ink.
   */
  | {
      readonly kind: 'run';
      readonly x: number;
      readonly y: number;
      readonly sizePoints: number;
      readonly run: Run;
      readonly colour: string;
      readonly tag: TagRef;
    }
  | {
      readonly kind: 'rule';
      readonly x1: number;
      readonly y1: number;
      readonly x2: number;
      readonly y2: number;
      readonly widthPoints: number;
      readonly colour: string;
      readonly tag: TagRef;
    }
  | {
      readonly kind: 'box';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly fill: string;
      readonly tag: TagRef;
    }
  | {
      readonly kind: 'picture';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly hash: string;
      readonly tag: TagRef;
    }
  | {
      readonly kind: 'drawing';
      readonly x: number;
      readonly y: number;
      readonly scale: number;
      readonly drawing: Drawing;
      readonly language: string;
      readonly tag: TagRef;
    }
  | {
      readonly kind: 'link';
      readonly x: number;
      readonly y: number;
      readonly width: number;
      readonly height: number;
      readonly target: string;
      readonly tag: TagRef;
    };

/** Standard structure types of ISO 32000-1, 14.8.4. */
export type TagRole =
  | 'Document' | 'Sect' | 'H1' | 'H2' | 'H3' | 'H4' | 'P' | 'L' | 'LI' | 'Lbl' | 'LBody'
  | 'TOC' | 'TOCI' | 'Reference' | 'Table' | 'Caption' | 'THead' | 'TBody' | 'TR' | 'TH' | 'TD' | 'Figure' | 'Span' | 'Link' | 'Note'; // prettier-ignore

/** Marks of the tag itself are read before its children. */
export interface Tag {
  readonly role: TagRole;
  readonly children: readonly number[];
  readonly language?: string;
  readonly alternative?: string;
  readonly scope?: 'Row' | 'Column' | 'Both';
  readonly columnSpan?: number;
  readonly ordered?: boolean;
}

export interface Page {
  readonly widthPoints: number;
  readonly heightPoints: number;
  readonly marks: readonly Mark[];
}

export interface OutlineEntry {
  readonly title: string;
  readonly level: number;
  readonly page: number; // index
  readonly y: number;
  readonly tag: number;
}

/** Something that did not fit or could not be set; the press turns it into a finding. */
export interface LayoutTrouble {
  readonly kind: 'overflow' | 'missing-glyph' | 'picture-resolution';
  readonly page: number;
  readonly text: string;
}

export interface Laid {
  readonly paper: Paper;
  readonly pages: readonly Page[];
  /** `tags[0]` is the Document. */
  readonly tags: readonly Tag[];
  readonly outline: readonly OutlineEntry[];
  /** Places links may point at, by block id. */
  readonly destinations: ReadonlyMap<string, { readonly page: number; readonly y: number }>;
  readonly trouble: readonly LayoutTrouble[];
  /** Printed page numbers by the ids of headings, where a table of contents was set. */
  readonly contentsPages?: ReadonlyMap<string, number>;
}
