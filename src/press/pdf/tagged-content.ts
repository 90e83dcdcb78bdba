/**
 * Which piece of which page belongs to which tag. Painting hands out marked-content numbers page by
 * page; links and boxes are noted beside them. The structure tree is built from these notes alone, so
 * the order of reading is that of the tags and never that of painting.
 */
import type { PDFRef } from './objects.ts';

/** Left, bottom, right, top in the page's own coordinates, y up. */
export type Box = readonly [number, number, number, number];

export interface TagContent {
  /** Marked content in order of painting. */
  readonly pieces: { readonly page: number; readonly number: number }[];
  /** Link annotations. */
  readonly annotations: { readonly page: number; readonly ref: PDFRef }[];
  /** What it covers on its first page. */
  box: { readonly page: number; readonly box: Box } | undefined;
}

export class TaggedContent {
  readonly #byTag = new Map<number, TagContent>();
  /** By page: the tag of each marked-content number. */
  readonly #owners: number[][] = [];
  /** Annotations that name a tag, in order; their keys follow those of the pages. */
  readonly #annotationTags: number[] = [];
  readonly #pages: number;

  constructor(pages: number) {
    this.#pages = pages;
    for (let page = 0; page < pages; page++) this.#owners.push([]);
  }

  of(tag: number): TagContent {
    let content = this.#byTag.get(tag);
    if (!content) {
      content = { pieces: [], annotations: [], box: undefined };
      this.#byTag.set(tag, content);
    }
    return content;
  }

  /** A new marked-content number on a page. */
  open(tag: number, page: number): number {
    const owners = this.#owners[page] ?? [];
    const number = owners.push(tag) - 1;
    this.of(tag).pieces.push({ page, number });
    return number;
  }

  /** Key of a new link annotation in the parent tree. */
  annotate(tag: number, page: number, ref: PDFRef): number {
    this.of(tag).annotations.push({ page, ref });
    return this.#pages + this.#annotationTags.push(tag) - 1;
  }

  /** Widens the box of a tag; parts on further pages do not count. */
  cover(tag: number, page: number, [left, bottom, right, top]: Box): void {
    const content = this.of(tag);
    const old = content.box;
    if (old && old.page !== page) return;
    const [l, b, r, t] = old?.box ?? [left, bottom, right, top];
    const box: Box = [Math.min(l, left), Math.min(b, bottom), Math.max(r, right), Math.max(t, top)];
    content.box = { page, box };
  }

  get owners(): readonly (readonly number[])[] {
    return this.#owners;
  }

  get annotationTags(): readonly number[] {
    return this.#annotationTags;
  }
}
