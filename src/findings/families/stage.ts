/** Findings of the family `stage`: what keeps a release from being for sale. */
import { entry } from '../finding.ts';

export const stageFamily = {
  'stage/unreviewed': entry<{ language: string }>({
    severity: 'error',
    about: 'A language nobody has reviewed would go on sale without that being a choice.',
    word: ({ language }) => ({
      headline: `${language}: no knitter who speaks it has reviewed the words, and the bundle does not say that this is known`,
      action: `a proof or a test copy can be made; for sale name the reviewer in "reviewed", or ${language} in "unreviewed" (pattern.json or --unreviewed ${language}); the document says so on its last page`,
    }),
  }),
  'stage/mark': entry<{ page: number; expected: string; found: string }>({
    severity: 'error',
    about: 'A page does not show the stage of its release, or shows one it is not at.',
    word: ({ page, expected, found }) => ({
      headline: `page ${page} is marked “${found}” and should be marked “${expected}”`,
      action: 'publish again; if it stays, this is our mistake: please tell us',
    }),
  }),
} as const;
