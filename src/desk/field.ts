/**
 * A value of the pattern as a field of a form: where it stands, in which state of its file, and what is
 * in it. What was typed and could not be written comes back in its own field, with the value that now
 * stands in the pattern beside it, so that nobody types anything twice.
 */

export interface FieldView {
  readonly id: string;
  readonly name: string;
  readonly file: string;
  readonly pointer: string;
  readonly value: string;
  /** The file as it was when the page was made. */
  readonly tag: string;
  /** What was typed came back. */
  readonly returned: boolean;
  /** The value in the pattern, where another one was typed. */
  readonly now: string;
}

/** Typed on a page and not written. `code`: the reason for accepting that finding. */
export interface Typed {
  readonly file: string;
  readonly pointer: string;
  readonly typed: string;
  readonly code?: string;
}

type Place = Omit<FieldView, 'returned' | 'now'>;

export function fieldView(place: Place, typed?: Typed): FieldView {
  const { file, pointer, value } = place;
  const returned = typed?.code === undefined && typed?.file === file && typed.pointer === pointer;
  if (!returned || typed === undefined) return { ...place, returned: false, now: '' };
  const now = typed.typed === value ? '' : value;
  return { ...place, value: typed.typed, returned, now };
}
