/** Findings of the family `bundle`: each code with its severity, its facts and how they are said. */
import { entry } from '../finding.ts';

export const bundleFamily = {
  'bundle/shape': entry<{ problem: string }>({
    severity: 'error',
    about: 'A value is missing, of the wrong type, or not known to the bundle format.',
    word: ({ problem }) => ({ headline: problem }),
  }),
} as const;
