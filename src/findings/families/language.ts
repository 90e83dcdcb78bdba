/** Findings of the family `language`: each code with its severity, its facts and how they are said. */
import { entry } from '../finding.ts';

export const languageFamily = {
  'language/missing-message': entry<{ problem: string }>({
    severity: 'error',
    about: 'A language lacks a message, term or text that the pattern needs.',
    word: ({ problem }) => ({ headline: problem }),
  }),
} as const;
