/**
 * What a written rule means: `(body bust + 4 in) / 2 at body + 2 sts, nearest odd`. Names, lengths and
 * counts are added, multiplied and taken through a gauge; a last clause says how the count is rounded.
 * Types only; every node carries the span of its own text.
 */
import type { Span } from '../../../base/span.ts';
import type { Sized } from '../../bundle/size-list.ts';

/** What a written number is of. A percentage is a plain number. */
export type LiteralUnit = 'plain' | 'in' | 'cm' | 'sts' | 'rows';

export type Operator = '+' | '-' | '*' | '/';

export type Expression =
  /** `2`, `8%`, `2½ in`, `4 (5, 6) sts` */
  | {
      readonly kind: 'literal';
      readonly values: Sized;
      readonly unit: LiteralUnit;
      readonly span: Span;
    }
  /** A number of the bundle, or one of its measurements: `back`, `neck-width` */
  | { readonly kind: 'name'; readonly name: string; readonly span: Span }
  /** `body bust`: the body that the garment is for */
  | { readonly kind: 'body'; readonly part: string; readonly span: Span }
  | {
      readonly kind: 'binary';
      readonly operator: Operator;
      readonly left: Expression;
      readonly right: Expression;
      readonly span: Span;
    }
  /** `bust at rib`: a length becomes stitches or rows, stitches or rows become a length */
  | {
      readonly kind: 'through';
      readonly of: Expression;
      readonly gauge: string;
      readonly gaugeSpan: Span;
      /** `at rib rows`; absent: what the number counts. */
      readonly toward?: 'sts' | 'rows';
      readonly span: Span;
    };

/** The counts that are allowed: every `multiple`th, beginning with `plus`; both may differ by size. */
export type Grid =
  | { readonly kind: 'multiple'; readonly multiple: Sized; readonly plus: Sized }
  /** `multiple of rib`: of the stitch pattern of that id, with its edge stitches */
  | { readonly kind: 'pattern'; readonly id: string; readonly span: Span }
  /** `nearest ¼ in` */
  | { readonly kind: 'length'; readonly step: number; readonly unit: 'in' | 'cm' };

export interface Rounding {
  /** `exactly` rounds nothing: it demands that the sum comes out. */
  readonly way: 'nearest' | 'up' | 'down' | 'exactly';
  readonly grid: Grid;
  readonly span: Span;
}

export interface Rule {
  readonly text: string;
  readonly expression: Expression;
  readonly rounding?: Rounding;
  /** `within ½ in`: how far the count may lie from what was wanted. */
  readonly within?: {
    readonly amount: number;
    readonly unit: Exclude<LiteralUnit, 'plain'>;
    readonly span: Span;
  };
}

/** What is wrong with a rule, and where in its text. */
export type RuleProblem = { readonly span: Span } & (
  | { readonly kind: 'text'; readonly found: string; readonly expected: string }
  | {
      readonly kind: 'name';
      readonly what: string;
      readonly name: string;
      readonly nearest: readonly string[];
    }
  | { readonly kind: 'units'; readonly says: string; readonly remedy: string }
  | { readonly kind: 'circle'; readonly names: readonly string[] }
);
