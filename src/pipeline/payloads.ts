/**
 * What the steps hand to each other: small JSON records, for a state machine carries at most 256 KiB.
 * Everything large lies in a store and is named here by hash or key. The schemas guard each step.
 */
import { z } from 'zod';
import { RUN_LIMITS } from '../base/limits.ts';
import { STAGES } from '../release/stage.ts';

const hash = z.string().regex(/^[0-9a-f]{64}$/);
const runName = z.string().regex(/^[A-Za-z0-9_-]{1,80}$/);

/** Whose room in both stores a run works in: small letters, digits, hyphens. On a laptop `local`. */
export const studioName = z.string().regex(/^[a-z0-9](?:[a-z0-9-]{0,38}[a-z0-9])?$/);
const whose = { run: runName, studio: studioName };

const edition = z.strictObject({
  kind: z.enum(['standard', 'large', 'ink-saving', 'one-size']),
  size: z.string().optional(),
  /** Where it is not the paper of the language's country. */
  paper: z.enum(['A4', 'Letter']).optional(),
});
/** Where the documents are not for sale: each page says so. */
const markedStage = z.enum(['proof', 'test']);
export const order = z.strictObject({
  language: z.string(),
  edition,
  stage: markedStage.optional(),
});

export const settings = z.strictObject({
  /** Only these languages of the bundle; all where left out. */
  languages: z.array(z.string()).min(1).max(RUN_LIMITS.languages).optional(),
  editions: z.array(edition).min(1).max(RUN_LIMITS.editions).optional(),
  /** For sale where left out. */
  stage: z.enum(STAGES).optional(),
  /** Languages that are knowingly offered unreviewed, or `all`. */
  unreviewed: z.array(z.string()).max(RUN_LIMITS.languages).optional(),
});

export const intakeInput = z.strictObject({ ...whose, source: z.string(), settings });
export const intakeOutput = z.strictObject({
  outcome: z.enum(['readable', 'blocked']),
  /** Content hash; the empty text where the bundle could not be loaded. */
  bundle: z.string(),
});

export const checkInput = z.strictObject({ ...whose, bundle: hash, settings });
export const checkOutput = z.strictObject({
  outcome: z.enum(['clean', 'blocked']),
  orders: z.array(order),
});

export const picturesInput = z.strictObject({ ...whose, bundle: hash });
const pictureRecord = z.strictObject({
  file: z.string(),
  size: z.string(),
  artifact: hash,
  sizeBytes: z.number(),
  mediaType: z.string(),
  widthPixels: z.number(),
  heightPixels: z.number(),
});
/** Files that were made, and those that were found as an earlier run had made them. */
export const counts = z.strictObject({ made: z.number(), reused: z.number() });
export const picturesOutput = counts;
export const pictureRecords = z.array(pictureRecord);

export const composeInput = z.strictObject({ ...whose, bundle: hash, order });
export const composedRecord = z.strictObject({
  order,
  artifact: hash,
  sizeBytes: z.number(),
  pages: z.number(),
  reused: z.boolean(),
});

export const proofInput = z.strictObject({ ...whose, bundle: hash, document: composedRecord });
export const proofOutput = composedRecord.extend({ proofFindings: z.number() });

export const stageInput = z.strictObject({
  ...whose,
  bundle: hash,
  settings,
  pictures: picturesOutput,
  documents: z.array(proofOutput),
});
export const stageOutput = z.strictObject({
  outcome: z.enum(['released', 'already', 'blocked']),
  pattern: z.string(),
  version: z.string(),
  manifest: z.string(),
  stage: markedStage.optional(),
  /** Number of a proof or a test copy. */
  copy: z.number().optional(),
  made: z.number(),
  reused: z.number(),
  /** Where the release was handed over as a folder. */
  folder: z.string().optional(),
  /** Where a folder of this version was moved to that somebody had changed by hand. */
  setAside: z.string().optional(),
});

/** How a run ended, for whoever waits for it. */
export const reportInput = z.strictObject({ ...whose, outcome: z.enum(['released', 'blocked']) });
export const runEnd = z.strictObject({
  ...whose,
  /** `cancelled`: a person stopped it. */
  outcome: z.enum(['released', 'blocked', 'failed', 'cancelled']),
  /** Findings of the run, and how many of them block. */
  findings: z.number(),
  blocking: z.number(),
  /** Where the bundle could be read. */
  pattern: z.string().optional(),
  version: z.string().optional(),
  /** Of a proof or a test copy: what it is, and its number. */
  stage: markedStage.optional(),
  copy: z.number().optional(),
  /** Of a release: files that were made for it, and those that were found. */
  made: z.number().optional(),
  reused: z.number().optional(),
  /** Of a failure: what went wrong, in words. */
  message: z.string().optional(),
});

export const failedInput = z.strictObject({
  ...whose,
  failure: z.object({ Error: z.string(), Cause: z.string() }),
});
export const failureRecord = z.strictObject({
  run: runName,
  kind: z.string(),
  message: z.string(),
  place: z.string().optional(),
  remedy: z.string().optional(),
});

export type Settings = z.output<typeof settings>;
export type IntakeInput = z.output<typeof intakeInput>;
export type IntakeOutput = z.output<typeof intakeOutput>;
export type CheckInput = z.output<typeof checkInput>;
export type CheckOutput = z.output<typeof checkOutput>;
export type PicturesInput = z.output<typeof picturesInput>;
export type Counts = z.output<typeof counts>;
export type PicturesOutput = z.output<typeof picturesOutput>;
export type PictureRecord = z.output<typeof pictureRecord>;
export type ComposeInput = z.output<typeof composeInput>;
export type ComposedRecord = z.output<typeof composedRecord>;
export type ProofInput = z.output<typeof proofInput>;
export type ProofOutput = z.output<typeof proofOutput>;
export type StageInput = z.output<typeof stageInput>;
export type StageOutput = z.output<typeof stageOutput>;
export type ReportInput = z.output<typeof reportInput>;
export type RunEnd = z.output<typeof runEnd>;
export type FailedInput = z.output<typeof failedInput>;
export type FailureRecord = z.output<typeof failureRecord>;
