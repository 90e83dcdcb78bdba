/** Findings of the family `measure`: each code with its severity, its facts and how they are said. */
import { entry } from '../finding.ts';

export const measureFamily = {
  'measure/does-not-follow': entry<{ problem: string }>({
    severity: 'error',
    about: 'A stated measurement is not what counts and gauge give.',
    word: ({ problem }) => ({ headline: problem }),
  }),
} as const;
