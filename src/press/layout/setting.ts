/**
 * What every block needs while it is set: the style, the measuring interface, the language and its
 * direction, the growing tag tree, and the list of what could not be set well.
 */
import type { LayoutTrouble } from './frames.ts';
import type { Measuring } from './lines/measuring.ts';
import type { PageStyle } from './style.ts';
import type { TagTree } from './tag-tree.ts';

/** A horizontal place: from the page's start edge, the left one where text runs to the right. */
export interface Column {
  readonly x: number;
  readonly width: number;
}

/** Where a block may stand: the text column, and the whole width for what needs it. */
export interface Area {
  readonly text: Column;
  readonly wide: Column;
}

/** Trouble at a named place, or where its text came to stand. */
export type FoundTrouble = Omit<LayoutTrouble, 'page'> & { readonly at?: string };

export interface Setting {
  readonly style: PageStyle;
  readonly measuring: Measuring;
  readonly language: string;
  readonly direction: 'ltr' | 'rtl';
  readonly tags: TagTree;
  /** Added to while setting; the page of each is found when the pages stand. */
  readonly trouble: FoundTrouble[];
  /** Height of the type area of a page. */
  readonly pageHeight: number;
}
