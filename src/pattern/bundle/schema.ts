/**
 * The bundle, written once: this schema reads `pattern.json` and `prose/<language>.json`, gives their
 * types, and is published as JSON Schema (`castoff schema`). Sized numbers stay text or arrays here;
 * `load.ts` turns them into `Sized`. Later issues may add keys, never change the meaning of one.
 */
import { z } from 'zod';
import { RULE_LIMITS } from '../../base/limits.ts';
import { themeSchema } from './theme.ts';

export const slug = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, 'small letters, digits and single hyphens')
  .max(64);
const version = z
  .string()
  .regex(/^\d{1,4}\.\d{1,4}\.\d{1,4}$/, 'three numbers, like 1.0.0')
  .describe('MAJOR.MINOR.PATCH; a correction of an error raises the last number');
const date = z.iso.date();
const languageTag = z
  .string()
  .regex(/^[a-z]{2,3}(-[A-Za-z0-9]{2,8})*$/, 'a language tag, like de or en-US');
const proseKey = z
  .string()
  .regex(/^[a-zA-Z][\w.-]*$/, 'the key of a text in prose/<language>.json')
  .max(80);
const fileName = z
  .string()
  .regex(/^[\w][\w .-]*$/, 'a plain file name')
  .max(120);

/** A number for all sizes, `"80 (88, 96)"`, or a list with one number (or null) per size. */
const sized = z
  .union([z.number(), z.string().max(800), z.array(z.number().nullable()).max(60)])
  .describe(
    'A number; or one per size: "80 (88, 96, 104)" or [80, 88, 96, 104]; – or null: does not apply',
  );

const length = z
  .strictObject({ in: sized.optional(), cm: sized.optional() })
  .refine((value) => value.in !== undefined || value.cm !== undefined, 'give in, cm, or both');

// ---------------------------------------------------------------- who and what

const studio = z.strictObject({
  name: z.string().min(1).max(80),
  designer: z.string().min(1).max(80),
  contact: z.string().max(120).optional(),
  web: z.string().max(120).optional(),
  copyright: z.string().max(200),
});

/** For whom: decides which caution texts the document must carry. */
const wearer = z.strictObject({
  age: z.enum(['baby', 'toddler', 'child', 'teen', 'adult']),
  features: z
    .array(z.enum(['cords', 'buttons', 'beads', 'pompom', 'cot', 'sleepwear']))
    .max(10)
    .default([]),
});

const bodyMeasure = z.strictObject({
  part: z.enum([
    'head', 'bust', 'chest', 'waist', 'hip', 'upperArm', 'wrist', 'armLength', 'backLength',
    'armholeDepth', 'crossBack', 'foot', 'footLength', 'hand', 'handLength', 'height',
  ]), // prettier-ignore
  size: length,
  source: z.string().max(200).optional().describe('The table these come from'),
  table: z
    .enum(['baby', 'child', 'youth', 'woman', 'man', 'adult'])
    .optional()
    .describe(
      'Compare with the published table of this group, size by size; adult: heads and feet',
    ),
});

const reading = z.strictObject({
  stitches: z.number().positive().max(400),
  rows: z.number().positive().max(400),
});

/** What was counted and weighed. Readings are taken over the width the gauge is stated over. */
const swatch = z.strictObject({
  readings: z
    .array(reading)
    .min(1)
    .max(12)
    .optional()
    .describe('Counts after washing, in several places, to the half stitch'),
  before: z
    .array(reading)
    .min(1)
    .max(12)
    .optional()
    .describe('The same before washing: says how long to knit'),
  width: length.optional().describe('The whole swatch, washed and dried, for its weight'),
  length: length.optional(),
  grams: z
    .union([z.number().positive().max(2000), z.record(slug, z.number().nonnegative().max(2000))])
    .optional()
    .describe('Its weight; by colour where several are worked: { "slate": 11, "foam": 4.5 }'),
});

const gauge = z.strictObject({
  id: slug,
  stitches: z.number().positive().max(400),
  rows: z.number().positive().max(400),
  over: z
    .enum(['4 in', '10 cm', '1 in', '2 in', '5 cm'])
    .default('4 in')
    .describe('The unit that was measured; the other is converted from it'),
  pattern: z
    .string()
    .max(80)
    .describe('A stitch pattern of this bundle, or a known fabric: stockinette, garter, …'),
  form: z.enum(['flat', 'round']).default('flat'),
  needle: slug.describe('One of needles'),
  blocked: z.boolean().default(true),
  swatch: swatch.optional().describe('The swatch this gauge was counted on'),
});

// ---------------------------------------------------------------- materials

const colour = z.strictObject({
  id: slug,
  name: z.string().max(60).describe('The maker’s colour name, not translated'),
  swatch: z.string().regex(/^#[0-9a-f]{6}$/, 'a colour like #2f4858'),
  role: z.enum(['main', 'contrast1', 'contrast2', 'contrast3', 'contrast4']).default('main'),
  balls: sized.optional(),
  grams: sized.optional(),
});

const yarn = z.strictObject({
  id: slug,
  name: z.string().max(80),
  weight: z.number().int().min(0).max(7).describe('Standard yarn weight number, 0 lace to 7 jumbo'),
  fibres: z
    .array(z.strictObject({ fibre: z.string().max(40), percent: z.number().positive().max(100) }))
    .min(1)
    .max(10),
  ball: z.strictObject({
    grams: z.number().positive(),
    metres: z.number().positive(),
    yards: z.number().positive(),
  }),
  colours: z.array(colour).min(1).max(24),
});

const needle = z.strictObject({
  id: slug,
  mm: z.number().positive().max(30),
  kind: z.enum(['straight', 'circular', 'double-pointed', 'cable']),
  length: length.optional(),
  purpose: z.string().max(40).optional().describe('body, ribbing, … : a known word or a prose key'),
});

const notion = z.strictObject({
  kind: z.enum([
    'markers', 'lockingMarkers', 'cableNeedle', 'tapestryNeedle', 'stitchHolder', 'wasteYarn',
    'buttons', 'zip', 'ribbon', 'beads', 'pompom', 'spareNeedle',
  ]), // prettier-ignore
  count: sized.optional(),
  size: length.optional(),
});

// ---------------------------------------------------------------- stitches, charts, pieces

const text = z.string().min(1).max(2000);

const customStitch = z.strictObject({
  id: z.string().regex(/^[A-Za-z0-9/ -]{1,20}$/),
  takes: z.number().int().min(0).max(40),
  makes: z.number().int().min(0).max(40),
  like: z
    .string()
    .max(30)
    .optional()
    .describe('Drawn and placed like this stitch of the catalogue'),
  describe: proseKey.describe('How to work it'),
});

const stitchPattern = z.strictObject({
  id: slug,
  name: z.string().max(60).describe('A known fabric, or a prose key'),
  multiple: z.number().int().positive().max(400),
  plus: z.number().int().min(0).max(400).default(0),
  form: z.enum(['flat', 'round']),
  lines: z.array(text).max(200).default([]),
  chart: slug.optional(),
});

const chart = z.strictObject({
  id: slug,
  name: z.string().max(60).describe('Shown: Chart A'),
  form: z.enum(['flat', 'round']),
  firstSide: z.enum(['RS', 'WS']).default('RS').describe('Side of row 1, where worked flat'),
  key: z
    .record(
      z.string().min(1).max(2),
      z.strictObject({ stitch: z.string().max(30), colour: slug.optional() }),
    )
    .describe('What each character stands for; stitch "none" is a cell without a stitch'),
  rows: z
    .array(z.string().min(1).max(400))
    .min(1)
    .max(400)
    .describe('As drawn: the top row first, one character a cell, as seen from the right side'),
  repeat: z
    .strictObject({
      fromStitch: z.number().int().min(1),
      toStitch: z.number().int().min(1),
      fromRow: z.number().int().min(1).optional(),
      toRow: z.number().int().min(1).optional(),
    })
    .optional()
    .describe('The boxed repeat; stitches are counted from the right, rows from the bottom'),
});

const lineObject = z.strictObject({
  text,
  id: slug.optional().describe('A name other places may refer to: back/armhole'),
  note: proseKey.optional().describe('A text shown below the line'),
});

const section = z.strictObject({
  id: slug,
  title: z
    .string()
    .max(60)
    .optional()
    .describe('A known word (brim, crown, yoke, …) or a prose key'),
  intro: proseKey.optional(),
  lines: z.array(z.union([text, lineObject])).max(600),
});

const piece = z.strictObject({
  id: slug,
  title: z.string().max(60).describe('A known word (back, sleeve, body, …) or a prose key'),
  form: z.enum(['flat', 'round']),
  firstSide: z.enum(['RS', 'WS']).default('RS').describe('Side of the first row after the cast-on'),
  gauge: slug,
  make: z.number().int().min(1).max(20).default(1).describe('How many are made alike'),
  sections: z.array(section).min(1).max(60),
});

// ---------------------------------------------------------------- measurements

/** A place in the instructions: `back` (the whole piece), `back/armhole` (after that line). */
const anchor = z.string().regex(/^[a-z0-9-]+(\/[a-z0-9-]+)?$/);

/** How a measurement follows from counts and gauge. */
const derivation = z
  .union([
    z.strictObject({
      width: anchor.describe('Stitches on the needle after this line …'),
      gauge: slug.optional(),
      less: sized.optional().describe('… less these (selvedges, overlap)'),
      times: z.number().positive().optional().describe('… times this (2 for front and back)'),
    }),
    z.strictObject({
      depth: z
        .tuple([anchor, anchor])
        .describe('Rows worked after the first line up to and including the second'),
      gauge: slug.optional(),
    }),
    z.strictObject({ stitches: sized, gauge: slug }),
    z.strictObject({ rows: sized, gauge: slug }),
    z.strictObject({
      sum: z.array(z.string().max(40)).min(1).max(8).describe('Other measurements, by id'),
    }),
    z.strictObject({
      given: z.literal(true).describe('Stated by the designer; follows from nothing'),
    }),
  ])
  .describe('width: stitches through gauge; depth: rows through gauge');

const measurement = z.strictObject({
  id: slug,
  name: z.string().max(60).describe('A known measurement (bust, length, …) or a prose key'),
  letter: z
    .string()
    .regex(/^[A-Z]$/)
    .describe('The letter on the schematic'),
  size: length,
  from: derivation,
  ease: z
    .strictObject({ over: z.string().max(20).describe('A part of body'), size: length })
    .optional()
    .describe('Stated ease over a body measurement'),
});

/**
 * A number that carries its rule: "body bust + 4 in at body + 2 sts, nearest odd". Rows may name it,
 * `cast on {back} sts`, or it says at which places of the rows it must be found.
 */
const number = z
  .strictObject({
    id: slug,
    name: z.string().max(60).optional().describe('For tables; the id where it is not given'),
    unit: z
      .enum(['sts', 'rows', 'times', 'in', 'cm'])
      .describe('What it counts: stitches, rows or rounds, times; or a length'),
    rule: z
      .string()
      .min(1)
      .max(RULE_LIMITS.letters)
      .optional()
      .describe('How it follows: "bust / 2 at body + 2 sts, nearest multiple of 4 + 2"'),
    value: sized.optional().describe('The numbers themselves; compared with the rule'),
    places: z
      .array(z.union([anchor, z.tuple([anchor, anchor])]))
      .max(20)
      .optional()
      .describe('Lines after which this count is on the needle; or rows between two lines'),
  })
  .refine((each) => each.rule !== undefined || each.value !== undefined, 'give rule or value')
  .refine(
    ({ unit, places = [] }) =>
      places.every((place) => typeof place === (unit === 'sts' ? 'string' : 'object')) &&
      (unit !== 'times' || places.length === 0),
    'a place is one line for stitches, two lines for rows and lengths, none for times',
  );

/** The drawing of one piece, in terms of measurements; a later room draws it from the rows. */
const schematicPiece = z.strictObject({
  piece: slug,
  title: z.string().max(60),
  outline: z
    .enum([
      'rectangle',
      'trapezoid',
      'body',
      'bodyRound',
      'sleeve',
      'hat',
      'mitten',
      'sock',
      'triangle',
      'yoke',
    ])
    .describe('Which outline the measurements describe'),
  measurements: z
    .record(z.string().max(20), slug)
    .describe('Role on the outline to measurement id'),
});

const photo = z.strictObject({
  file: fileName.describe('Inside photos/'),
  role: z.enum(['cover', 'detail', 'back', 'flat', 'step']),
  alt: proseKey,
  caption: proseKey.optional(),
});

const join = z.strictObject({
  kind: z.enum(['seam', 'equal', 'sum', 'pickUp']),
  parts: z.array(anchor).min(1).max(8),
  to: z.array(anchor).max(8).default([]),
  note: z.string().max(200).optional(),
});

/** A translation that is not finished need not stop the others: chosen, and told in the manifest. */
const heldOver = z.strictObject({
  language: languageTag,
  reason: z.string().min(3).max(500),
});

const reviewed = z.strictObject({
  language: languageTag,
  by: z.string().min(2).max(120).describe('Who looked through the texts of this language'),
});

const accepted = z.strictObject({
  code: z.string().max(60),
  where: z.string().max(300).describe('JSON pointer of the finding'),
  reason: z.string().min(3).max(500),
});

export const bundleSchema = z.strictObject({
  $schema: z.string().max(300).optional(),
  format: z.literal('castoff/1'),
  id: slug,
  version,
  issued: date,
  language: languageTag.describe('The language the designer wrote the prose in'),
  languages: z.array(languageTag).min(1).max(40),
  studio,
  wearer,
  level: z.enum(['basic', 'easy', 'intermediate', 'complex']),
  sizes: z.array(z.string().min(1).max(24)).min(1).max(60),
  body: z.array(bodyMeasure).max(20).default([]),
  gauges: z.array(gauge).min(1).max(12),
  yarns: z.array(yarn).min(1).max(12),
  needles: z.array(needle).min(1).max(16),
  notions: z.array(notion).max(20).default([]),
  stitches: z.array(customStitch).max(60).default([]),
  stitchPatterns: z.array(stitchPattern).max(40).default([]),
  charts: z.array(chart).max(40).default([]),
  pieces: z.array(piece).min(1).max(40),
  joins: z.array(join).max(80).default([]),
  measurements: z.array(measurement).max(26),
  numbers: z.array(number).max(200).optional().describe('Named numbers that carry their rules'),
  schematic: z.array(schematicPiece).max(12).default([]),
  photos: z.array(photo).min(1).max(40),
  theme: themeSchema.optional(),
  history: z
    .array(
      z.strictObject({
        version,
        issued: date,
        change: proseKey,
        why: z
          .record(anchor, proseKey)
          .optional()
          .describe('Why a line was corrected: its name, piece/line, to a text'),
      }),
    )
    .max(60)
    .default([]),
  accepted: z.array(accepted).max(200).default([]),
  heldOver: z
    .array(heldOver)
    .max(40)
    .optional()
    .describe('Languages that wait for a later version, each with the reason'),
  reviewed: z
    .array(reviewed)
    .max(40)
    .optional()
    .describe('Languages of this pattern that a knitter who speaks them has looked through'),
  unreviewed: z
    .array(languageTag)
    .max(40)
    .optional()
    .describe('Languages that are offered although nobody has looked through them'),
});

/** `prose/<language>.json`: text by key. Required keys: title, summary. */
export const proseSchema = z.record(
  proseKey,
  z.union([z.string().max(8000), z.array(z.string().max(8000)).max(60)]),
);

const sourceHash = z.string().regex(/^[0-9a-f]{12}$/, 'the hash of a source text, 12 digits');

/** Key of a prose file under which its sources are recorded. */
export const SOURCE_KEY = '$source';

/**
 * `$source` of a prose file: for each text the hash of the source text it was translated from, one per
 * paragraph where the source has a list. Written by `castoff translate`, never by hand.
 */
export const sourceRecordSchema = z.record(
  proseKey,
  z.union([sourceHash, z.array(sourceHash).max(60)]),
);

export type BundleData = z.output<typeof bundleSchema>;
export type ProseData = z.output<typeof proseSchema>;
export type SourceRecord = z.output<typeof sourceRecordSchema>;
export type PieceData = BundleData['pieces'][number];
export type ChartData = BundleData['charts'][number];
export type GaugeData = BundleData['gauges'][number];
export type MeasurementData = BundleData['measurements'][number];
export type DerivationData = MeasurementData['from'];
export type NumberData = NonNullable<BundleData['numbers']>[number];
export type SizedData = z.output<typeof sized>;
