/**
 * The glossary of one language: for each stitch and each term of row instructions its abbreviation, its
 * full name, how it is worked, how it stands in a row and where the words come from. Read from
 * `glossary.json`; cables are said by rule from width and lean, one pattern per kind and not per width.
 */
import { z } from 'zod';

const status = z.enum(['confirmed', 'partly confirmed', 'from memory']);

const provenance = {
  status: status.default('from memory'),
  source: z.string().optional(),
};

/** `…_one`, `…_few`, `…_other`: CLDR plural categories of the number before the word. */
const plurals = /^(name|how|row|aloud)_(zero|one|two|few|many|other)$/;

const termEntry = z.strictObject({
  abbr: z.string().min(1),
  name: z.string().min(1),
  how: z.string().optional(),
  ...provenance,
});

const stitchEntry = z
  .object({
    abbr: z.string().min(1).describe('As the list of abbreviations shows it'),
    name: z.string().min(1),
    how: z.string().min(1).describe('How to work it, in whole sentences'),
    /** In a row: `{{n}} M re`, or without a number: `2 M re zus-str`. Falls back to `abbr`. */
    row: z.string().optional(),
    /** Before "to end": `re str`. Falls back to `abbr`. */
    run: z.string().optional(),
    /** A whole row of it: `Knit 3 rows`. Falls back to `run`. */
    verb: z.string().optional(),
    /** Read aloud, in full words. Falls back to `name`. */
    aloud: z.string().optional(),
    ...provenance,
  })
  .catchall(z.string())
  .superRefine((value, context) => {
    for (const key of Object.keys(value)) {
      if (!KNOWN.has(key) && !plurals.test(key)) {
        context.addIssue({ code: 'custom', message: `unknown key ${key}`, path: [key] });
      }
    }
  });
const KNOWN = new Set(['abbr', 'name', 'how', 'row', 'run', 'verb', 'aloud', 'status', 'source']);

/** `{{front}}`, `{{middle}}`, `{{back}}` and `{{total}}` stand for the widths of the crossing. */
const crossingEntry = z.strictObject({
  abbr: z.string().min(1),
  name: z.string().min(1),
  how: z.string().min(1),
  ...provenance,
});

/** Keys may hold `#` for any number, which the texts name `{{w}}`: `k#tog` says `k2tog` to `k9tog`. */
export const glossarySchema = z.strictObject({
  terms: z.record(z.string().regex(/^[a-z][\w-]*$/), termEntry),
  stitches: z.record(z.string(), stitchEntry),
  crossings: z.record(z.string(), crossingEntry),
  /** Abbreviations that two terms share on purpose, with the reason. */
  shared: z.record(z.string(), z.string()).default({}),
});

export type Glossary = z.output<typeof glossarySchema>;
export type TermEntry = z.output<typeof termEntry>;
export type StitchEntry = z.output<typeof stitchEntry>;

/** The kinds of crossing that a language describes; widths are filled in. */
export const CROSSINGS = [
  'left',
  'right',
  'leftPurl',
  'rightPurl',
  'leftTwisted',
  'rightTwisted',
  'leftTwistedPurl',
  'rightTwistedPurl',
  'leftMiddle',
  'rightMiddle',
  'leftMiddlePurl',
  'rightMiddlePurl',
] as const;
export type CrossingKind = (typeof CROSSINGS)[number];
