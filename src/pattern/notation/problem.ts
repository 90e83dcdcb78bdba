/**
 * What can be wrong with a written line, as data: a code of the family `notation`, the smallest
 * blameworthy part of the line, and the facts the code is worded from. Problems are collected; reading
 * never throws.
 */
import type { Span } from '../../base/span.ts';
import type { FactsOf } from '../../findings/register.ts';
import type { notationFamily } from '../../findings/families/notation.ts';

export type NotationCode = keyof typeof notationFamily;

/** One problem; its facts are those its code is worded from. */
export type NotationProblem = {
  [Code in NotationCode]: {
    readonly code: Code;
    readonly span: Span;
    readonly facts: FactsOf<Code>;
  };
}[NotationCode];
