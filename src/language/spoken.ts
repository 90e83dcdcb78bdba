/**
 * What the language room gives for a line of instructions: parts with a role and nothing about pages.
 * Numbers keep their role so that a one-size edition and the proof can find them again.
 */
export type SpokenRole = 'plain' | 'abbreviation' | 'count' | 'strong';

export interface SpokenPart {
  readonly text: string;
  readonly role: SpokenRole;
  /** Must not be broken across lines (a number and its unit, one group of a size list). */
  readonly unbroken?: boolean;
  /** The glossary term an abbreviation stands for, e.g. `rep` or `stitch:k2tog`. */
  readonly term?: string;
  /** The chart a part names, by its id: languages decline the name, so that its text does not tell. */
  readonly chart?: string;
}

export interface SpokenLine {
  /** `Row 1 (RS):` with its closing mark; empty where the line has no label. */
  readonly label: readonly SpokenPart[];
  readonly body: readonly SpokenPart[];
  /** `84 (92, 100) sts`; empty where the line does not change the count. */
  readonly count: readonly SpokenPart[];
}

export const plainText = (parts: readonly SpokenPart[]): string =>
  parts.map((part) => part.text).join('');
