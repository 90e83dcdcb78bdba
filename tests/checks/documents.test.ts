/** Every document raises exactly what it says, and every code has a document. */
import { describe, expect, it } from 'vitest';
import { chartFamily } from '../../src/findings/families/chart.ts';
import { countFamily } from '../../src/findings/families/count.ts';
import { joinFamily } from '../../src/findings/families/join.ts';
import { measureFamily } from '../../src/findings/families/measure.ts';
import { referenceFamily } from '../../src/findings/families/reference.ts';
import { wordingOf } from '../../src/findings/register.ts';
import { countText } from '../../src/pattern/checks/count-text.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import { bundleOf } from '../needle/working.ts';
import { DOCUMENTS } from './documents.ts';

describe('documents', () => {
  it.each(DOCUMENTS.map((each) => [each.title, each] as const))('%s', (_, each) => {
    const { findings } = checkPattern(bundleOf(each));
    expect(findings.map((found) => [found.code, wordingOf(found).headline])).toEqual(
      each.findings,
    );
  });

  it('leave no code out', () => {
    const families = { ...countFamily, ...chartFamily, ...joinFamily, ...measureFamily, ...referenceFamily };
    const text = countText('Cast on 20 sts.\nRow 1: Work Chart B.').findings.map(({ code }) => code);
    const raised = new Set<string>([...text, ...DOCUMENTS.flatMap(({ findings }) => findings.map(([code]) => code))]);
    expect(Object.keys(families).filter((code) => !raised.has(code))).toEqual([]);
  });
}); // prettier-ignore
