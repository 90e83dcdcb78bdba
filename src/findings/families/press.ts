/** Findings of the family `press`: each code with its severity, its facts and how they are said. */
import { entry } from '../finding.ts';

export const pressFamily = {
  'press/missing-glyph': entry<{ problem: string }>({
    severity: 'error',
    about: 'No font has a character of the text.',
    word: ({ problem }) => ({ headline: problem }),
  }),
} as const;
