/**
 * The designer's look: typefaces of a list, two colours and a logo. Part of the bundle's schema; the
 * colours must be legible on white paper, and the logo is drawn from outlines, so that it prints sharp
 * and brings nothing in.
 */
import { z } from 'zod';
import { contrastRatio } from '../../base/contrast.ts';
import { readPathData } from '../../base/path-data.ts';

const PAPER = '#ffffff';
/** W3C, WCAG 2.1, success criterion 1.4.3: text of any size. */
const LEAST_CONTRAST = 4.5;

const legibleColour = z
  .string()
  .regex(/^#[0-9a-f]{6}$/, 'a colour like #2f4858')
  .refine(
    (colour) => !/^#[0-9a-f]{6}$/.test(colour) || contrastRatio(colour, PAPER) >= LEAST_CONTRAST,
    'too pale to read on white paper: its contrast must be at least 4.5 to 1 (WCAG 2.1, 1.4.3)',
  );

const typeface = z.enum(['source-sans-3', 'noto-sans', 'noto-serif']);

const logo = z.strictObject({
  width: z.number().positive().max(2000).describe('Of the drawing, in its own units'),
  height: z.number().positive().max(2000),
  paths: z
    .array(
      z.strictObject({
        d: z
          .string()
          .max(20_000)
          .refine(
            (text) => readPathData(text) !== undefined,
            'path data of SVG with M, L, H, V, C and Z',
          ),
        colour: z.enum(['ink', 'accent']).default('ink'),
      }),
    )
    .min(1)
    .max(60),
});

export const themeSchema = z
  .strictObject({
    text: typeface.optional().describe('Typeface of the text'),
    headings: typeface.optional().describe('Typeface of titles and headings'),
    ink: legibleColour.optional().describe('Colour of the text'),
    accent: legibleColour.optional().describe('Colour of labels, rules and links'),
    logo: logo.optional().describe('Filled outlines, drawn in the two colours'),
  })
  .describe('The look of the documents; what is left out is that of the house');

export type ThemeData = z.output<typeof themeSchema>;
