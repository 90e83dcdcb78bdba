/** Findings of the family `press`: each code with its severity, its facts and how they are said. */
import { entry } from '../finding.ts';

export const pressFamily = {
  'press/missing-glyph': entry<{ problem: string }>({
    severity: 'error',
    about: 'No font has a character of the text.',
    word: ({ problem }) => ({
      headline: problem,
      action: 'write it with other characters',
    }),
  }),
  'press/picture-unreadable': entry<{ problem: string }>({
    severity: 'error',
    about: 'A file in photos/ is no picture, or cannot be opened.',
    word: ({ problem }) => ({ headline: problem }),
  }),
  'press/picture-too-large': entry<{ width: number; height: number }>({
    severity: 'error',
    about: 'A picture has more pixels than the press opens.',
    word: ({ width, height }) => ({
      headline: `the picture says it has ${width} × ${height} pixels, more than can be opened`,
      action: 'save it smaller: a whole page at 300 dots to the inch is 2,500 × 3,500 pixels',
    }),
  }),
  'press/picture-resolution': entry<{ dpi: number; least: number; width: number; needed: number }>({
    severity: 'warning',
    about: 'A picture is too coarse for the size it is printed at.',
    word: ({ dpi, least, width, needed }) => ({
      headline: `the picture prints at ${dpi} dots to the inch; below ${least} it looks coarse`,
      action: `give it at least ${needed} pixels wide; it has ${width}`,
    }),
  }),
  'press/overflow': entry<{ problem: string }>({
    severity: 'error',
    about: 'Something does not fit into its place on the page.',
    word: ({ problem }) => ({
      headline: `this does not fit on the page: ${problem}`,
      action: 'shorten it, or choose a wider paper',
    }),
  }),
  'press/coarse-picture': entry<{ problem: string }>({
    severity: 'warning',
    about: 'A picture is placed larger than its pixels allow.',
    word: ({ problem }) => ({ headline: problem }),
  }),
  'press/proof': entry<{ expected: string; found: string }>({
    severity: 'error',
    about: 'The finished document, read again, does not say what the pattern says.',
    word: ({ expected, found }) => ({
      headline:
        expected === ''
          ? `the document says more than the pattern`
          : `the document does not say “${expected}”`,
      notes: [`read there: “${found}”`],
      action: 'this is a fault of the program: please report it with the bundle',
    }),
  }),
} as const;
