/**
 * Numbers written inside the rules of a bundle: the 4 and the 2 of "(body bust + 4 in) / 2 at body".
 * Takes a bundle's data, gives each with its place in the text and the least and the step it is written
 * in, so that it can be tried like any other number. What the rule then gives is not known here.
 */
import { pointerTo, type Span } from '../../base/span.ts';
import type { Sized } from '../bundle/size-list.ts';
import { readRule } from '../grading/rules/read-rule.ts';
import type { Expression, LiteralUnit, Rule } from '../grading/rules/rule.ts';
import type { CheckContext } from './context.ts';
import type { BundleNumber } from './pin-numbers.ts';

interface Written {
  readonly values: Sized['values'];
  readonly spans: readonly Span[];
  readonly step: number;
}

export function ruleNumbers({ data }: CheckContext): readonly BundleNumber[] {
  return (data.numbers ?? []).flatMap(({ rule: text }, at) => {
    const read = text === undefined ? undefined : readRule(text);
    if (text === undefined || !read || 'problem' in read) return [];
    const steps = ['numbers', at, 'rule'];
    const pointer = pointerTo('', ...steps);
    return writtenIn(read.rule).flatMap(({ values, spans, step }) =>
      values.flatMap((value, index): readonly BundleNumber[] => {
        const span = spans[index];
        if (value === null || !span) return [];
        const where = { file: 'pattern.json', pointer, text, span };
        const home = { kind: 'data', steps, inText: { text, spans } } as const;
        return [{ home, where, value, index, list: values, step, least: 1 }];
      }),
    );
  });
}

/** The rule with other numbers at these places. */
export function ruleWith(
  { text, spans }: { readonly text: string; readonly spans: readonly Span[] },
  values: Sized['values'],
): string {
  return spans.reduceRight(
    (changed, { start, end }, at) =>
      changed.slice(0, start) + String(values[at] ?? '–') + changed.slice(end),
    text,
  );
}

function writtenIn({ text, expression, rounding, within }: Rule): readonly Written[] {
  return [
    ...literalsIn(text, expression),
    ...(rounding ? plainNumbers(text, rounding.span) : []),
    ...(within ? plainNumbers(text, within.span) : []),
  ];
}

function literalsIn(text: string, expression: Expression): readonly Written[] {
  switch (expression.kind) {
    case 'literal': {
      const { values, unit, span } = expression;
      const percent = text.slice(span.start, span.end).includes('%');
      const shown = values.values.map((value) => (value === null || !percent ? value : value * 100)); // prettier-ignore
      return [{ values: shown, spans: values.spans, step: STEPS[unit] }];
    }
    case 'binary':
      return [...literalsIn(text, expression.left), ...literalsIn(text, expression.right)];
    case 'through':
      return literalsIn(text, expression.of);
    case 'name':
    case 'body':
      return [];
  }
}

const STEPS: Readonly<Record<LiteralUnit, number>> = {
  plain: 1, sts: 1, rows: 1, in: 1 / 4, cm: 1 / 2,
}; // prettier-ignore

/** Whole numbers that a rounding or a bound is written with: `multiple of 4 + 2`, `within 1 in`. */
function plainNumbers(text: string, { start, end }: Span): readonly Written[] {
  return [...text.slice(start, end).matchAll(/(?<![\w.½¼¾-])\d+(?![\w.½¼¾])/g)].map((match) => {
    const from = start + match.index;
    return {
      values: [Number(match[0])],
      spans: [{ start: from, end: from + match[0].length }],
      step: 1,
    };
  });
}
