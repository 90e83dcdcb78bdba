/** Findings of the family `press`: each code with its severity, its facts and how they are said. */
import { entry } from '../finding.ts';

export const pressFamily = {
  'press/missing-glyph': entry<{ problem: string }>({
    severity: 'error',
    about: 'No font has a character of the text.',
    word: ({ problem }) => ({ headline: problem }),
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
} as const;
