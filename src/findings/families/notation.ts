/** Findings of the family `notation`: each code with its severity, its facts and how they are said. */
import { entry } from '../finding.ts';

export const notationFamily = {
  'notation/unknown-word': entry<{ word: string; nearest: readonly string[] }>({
    severity: 'error',
    about: 'A word that is no stitch, no abbreviation and no term of the notation.',
    word: ({ word, nearest }) => ({
      headline: `“${word}” is not a known stitch or term`,
      ...(nearest.length > 0 && {
        action: `did you mean ${nearest.map((each) => `“${each}”`).join(', ')}?`,
      }),
    }),
  }),
} as const;
