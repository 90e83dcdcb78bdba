/**
 * A finding is data: what does not follow, where, in which sizes, with the numbers. It is collected,
 * never thrown, and worded only when printed (see `families/` and `text.ts`). An `error` blocks, a
 * `warning` blocks until the bundle accepts it with a reason, a `note` informs.
 */
import type { Span } from '../base/span.ts';

export type Severity = 'error' | 'warning' | 'note';

export interface Place {
  /** File inside the bundle, e.g. `pattern.json` or `prose/de.json`. */
  readonly file: string;
  /** JSON pointer (RFC 6901) into that file. */
  readonly pointer: string;
  /** The text the span points into, where the value is a string. */
  readonly text?: string;
  /** The smallest blameworthy part of `text`. */
  readonly span?: Span;
  /** The place in the knitter's words: "Yoke, row 12". */
  readonly label?: string;
}

/** One row of the table over the sizes: a name and one cell per size of the pattern. */
export interface SizeRow {
  readonly name: string;
  readonly cells: readonly (number | string | null)[];
}

/** How a finding is said. Produced from its facts by its family. */
export interface Wording {
  /** The fact, with its numbers: "size L ends row 12 with 108 sts; the pattern states 109". */
  readonly headline: string;
  readonly table?: { readonly sizes: readonly string[]; readonly rows: readonly SizeRow[] };
  readonly notes?: readonly string[];
  /** What to do. Printed after `=`. */
  readonly action?: string;
}

/** Facts are JSON: strings, numbers, lists and records of them. */
export type Fact =
  string | number | boolean | null | readonly Fact[] | { readonly [key: string]: Fact };
export type Facts = Readonly<Record<string, Fact | undefined>>;

export interface Finding {
  readonly code: string;
  readonly severity: Severity;
  readonly where: Place;
  /** Names of the sizes concerned; empty means all, or none in particular. */
  readonly sizes: readonly string[];
  readonly facts: Facts;
  /** Other places that belong to the story. */
  readonly related?: readonly { readonly where: Place; readonly note: string }[];
  /** Set when the bundle accepts this warning, with the reason given there. */
  readonly accepted?: string;
}

/** One code of a family: its severity and how its facts are worded. */
export interface Entry<F extends Facts> {
  readonly severity: Severity;
  /** What the check behind the code is about, one line for `castoff explain` and the guide. */
  readonly about: string;
  word(facts: F): Wording;
}

/** Keeps the fact type of one code: `entry<{ worked: number }>({ … })`. */
export const entry = <F extends Facts>(value: Entry<F>): Entry<F> => value;

export const blocks = (finding: Finding): boolean =>
  finding.severity === 'error' ||
  (finding.severity === 'warning' && finding.accepted === undefined);
