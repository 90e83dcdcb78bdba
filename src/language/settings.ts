/**
 * The settings of one language: `locales/<tag>/language.json`, read and checked here. How numbers,
 * size lists and sentences are put together, which units stand first, which paper a country uses, and
 * how far the texts have been reviewed. Pure data; nothing here knows a sentence.
 */
import { z } from 'zod';

const brackets = z.array(z.tuple([z.string().min(1).max(2), z.string().min(1).max(2)])).length(3);

export const settingsSchema = z.strictObject({
  tag: z.string().regex(/^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$/, 'a language tag, like de or en-US'),
  name: z.string().min(1).describe('In the language itself'),
  englishName: z.string().min(1),
  direction: z.enum(['ltr', 'rtl']),
  script: z.string().regex(/^[A-Z][a-z]{3}$/, 'an ISO 15924 script code, like Latn'),
  fonts: z.array(z.string()).min(1).describe('Families that have the script, first choice first'),
  paper: z
    .enum(['A4', 'Letter'])
    .describe('Where the country is not known; else by country, CLDR paperSize'),
  countries: z.record(z.string().regex(/^[A-Z]{2}$/), z.enum(['A4', 'Letter'])).default({}),
  units: z.strictObject({
    first: z.enum(['cm', 'in']),
    yarn: z.enum(['metres', 'yards']),
    needles: z.enum(['metric', 'US', 'UK', 'JP']),
    /** White space between a number and its unit symbol; no-break space in most languages. */
    space: z.string().max(1),
  }),
  numbers: z.strictObject({
    decimal: z.enum(['.', ',']),
    /** Between thousands, from five digits on. */
    group: z.string().max(1),
    /** How quarters of an inch are written. */
    inches: z.enum(['fractions', 'decimals']),
  }),
  sizes: z.strictObject({
    brackets,
    separator: z.string().min(1),
    /** Used where a value of the list has a decimal comma. */
    separatorWithDecimals: z.string().min(1),
    before: z.string().max(1).describe('Between the first value and the bracket'),
    none: z.string().min(1).max(2),
    /** Isolates round lists and Latin words in right-to-left text (Unicode UAX #9). */
    isolate: z.boolean().default(false),
  }),
  separators: z.strictObject({
    actions: z.string().min(1),
    sentences: z.string(),
    stop: z.string().min(1),
    list: z.string().min(1),
    /** Between the two units of a measurement. */
    units: z.string().min(1),
  }),
  quotes: z.tuple([z.string(), z.string()]),
  /** Sentences begin with a capital letter. */
  capitals: z.boolean(),
  review: z.strictObject({
    state: z.enum(['checked', 'unreviewed']),
    source: z.string().min(1),
  }),
});

export type LanguageSettings = z.output<typeof settingsSchema>;
