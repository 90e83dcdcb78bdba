/**
 * What went wrong in one line and one size, before the sizes are put together to a finding. A problem
 * has the code of the finding it becomes, the blameworthy words and the numbers of this size.
 */
import type { Span } from '../../base/span.ts';
import type { CountCode } from '../../findings/families/count.ts';
import type { FactsOf } from '../../findings/register.ts';

type KeysOf<T> = keyof T & string;
type NumbersOf<Code extends CountCode> = Readonly<
  Record<KeysOf<FactsOf<Code>['numbers']>, number | null>
>;
type WordsOf<Code extends CountCode> = Readonly<Record<KeysOf<FactsOf<Code>['words']>, string>>;

export interface Problem {
  readonly code: CountCode;
  readonly span: Span;
  readonly numbers: Readonly<Record<string, number | null>>;
  readonly words: Readonly<Record<string, string>>;
  readonly notes?: readonly string[];
  /** The line whose row was worked again, where the span is in another line. */
  readonly written?: number;
}

/** Builds a problem whose numbers and words are those its code is worded from. */
export const problem = <Code extends CountCode>(
  code: Code,
  span: Span,
  numbers: NumbersOf<Code>,
  words: WordsOf<Code>,
  notes: readonly string[] = [],
): Problem => ({ code, span, numbers, words, ...(notes.length > 0 && { notes }) });
