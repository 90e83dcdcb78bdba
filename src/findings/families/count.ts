/** Findings of the family `count`: each code with its severity, its facts and how they are said. */
import { entry } from '../finding.ts';

export const countFamily = {
  'count/stated': entry<{
    row: string;
    size: string;
    worked: number;
    stated: number;
    sizes: readonly string[];
    before: readonly (number | null)[];
    workedCounts: readonly (number | null)[];
    statedCounts: readonly (number | null)[];
    fix?: string;
  }>({
    severity: 'error',
    about: 'The stitches on the needle after a row are not the count stated there.',
    word: (facts) => ({
      headline: `size ${facts.size} ends ${facts.row} with ${facts.worked} sts; the pattern states ${facts.stated}`,
      table: {
        sizes: facts.sizes,
        rows: [
          { name: 'before', cells: facts.before },
          { name: 'worked', cells: facts.workedCounts },
          { name: 'stated', cells: facts.statedCounts },
        ],
      },
      ...(facts.fix !== undefined && { action: facts.fix }),
    }),
  }),
} as const;
