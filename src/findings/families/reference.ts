/** Findings of the family `reference`: one part of a bundle names another that is not there. */
import { entry } from '../finding.ts';

export const referenceFamily = {
  'reference/unknown': entry<{ what: string; name: string; nearest: readonly string[] }>({
    severity: 'error',
    about: 'A name refers to something the bundle does not have.',
    word: ({ what, name, nearest }) => ({
      headline: `there is no ${what} “${name}” in the bundle`,
      ...(nearest.length > 0 && {
        action: `did you mean ${nearest.map((each) => `“${each}”`).join(' or ')}?`,
      }),
    }),
  }),
  'reference/twice': entry<{ what: string; name: string }>({
    severity: 'error',
    about: 'Two things of one kind have the same name, so that neither can be referred to.',
    word: ({ what, name }) => ({
      headline: `two ${what} have the name “${name}”`,
      action: 'give each a name of its own',
    }),
  }),
  'reference/two-pieces': entry<{ first: string; second: string }>({
    severity: 'error',
    about: 'A depth is measured between places of two pieces.',
    word: ({ first, second }) => ({
      headline: `${first} and ${second} are not in one piece, so no rows lie between them`,
      action: 'measure in one piece, and add the parts with a sum',
    }),
  }),
  'reference/unused-acceptance': entry<{ code: string; pointer: string }>({
    severity: 'warning',
    about: 'The bundle accepts a warning that is not there (any more).',
    word: ({ code, pointer }) => ({
      headline: `no warning ${code} is found at ${pointer}`,
      action: 'take the acceptance out, or correct its code and place',
    }),
  }),
} as const;
