/**
 * Grows the tree of tags while blocks are set. Children stand in reading order and are named by their
 * index; marks carry that index wherever they land, so reading order never depends on geometry.
 * A tag's own marks are read before its children, in the order of pages and of marks on them.
 */
import { assert, present } from '../../base/assert.ts';
import type { Tag, TagRole } from './frames.ts';

export type TagDetails = Omit<Tag, 'role' | 'children'>;

export class TagTree {
  readonly #tags: { tag: Tag; children: number[] }[] = [];

  /** The first tag is the root and has no parent; `position` is the place among older children. */
  add(
    role: TagRole,
    parent: number | undefined,
    details: TagDetails = {},
    position?: number,
  ): number {
    assert((parent === undefined) === (this.#tags.length === 0), 'only the root has no parent');
    const index = this.#tags.length;
    const children: number[] = [];
    this.#tags.push({ tag: { role, children, ...details }, children });
    if (parent !== undefined) {
      const siblings = present(this.#tags[parent], 'parent tag').children;
      siblings.splice(position ?? siblings.length, 0, index);
    }
    return index;
  }

  /** How many children a tag has so far. */
  childCount(tag: number): number {
    return present(this.#tags[tag], 'a tag').children.length;
  }

  list(): readonly Tag[] {
    return this.#tags.map(({ tag }) => tag);
  }
}
