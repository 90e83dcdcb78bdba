/** Findings of the family `chart`: each code with its severity, its facts and how they are said. */
import { entry } from '../finding.ts';

export const chartFamily = {
  'chart/ragged': entry<{ problem: string }>({
    severity: 'error',
    about: 'The rows of a chart are not equally wide.',
    word: ({ problem }) => ({ headline: problem }),
  }),
} as const;
