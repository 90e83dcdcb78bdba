/** What the API tells, as far as the pages read it: the shapes of `functions/api/openapi.json`. */
import { z } from 'zod';
import { runFacts } from '../../src/desk/run-record.ts';
import { settings } from '../../src/pipeline/payloads.ts';
import { changeRecord } from '../../src/shelf/change-record.ts';

/** Whatever more a newer API may tell of it. */
export const change = changeRecord.strip();

export const bundle = z.object({
  state: z.string(),
  files: z.array(z.object({ path: z.string(), hash: z.string(), url: z.url() })),
  history: z.array(change),
});
export type OpenedBundle = z.output<typeof bundle>;

/** A bundle that was put away. */
export const putAway = z
  .object({ bundle: z.string(), at: z.string() })
  .transform(({ bundle: name, at }) => ({ name, at }));

export const upload = z.object({ url: z.url(), fields: z.record(z.string(), z.string()) });
export type UploadTold = z.output<typeof upload>;

export const draft = z.object({
  draft: z.string(),
  put: z.object({ url: z.url(), headers: z.record(z.string(), z.string()) }),
  url: z.url(),
});
export type OpenedDraft = z.output<typeof draft>;

export const link = z.object({ url: z.url() });

const document = z.object({
  language: z.string(),
  edition: z.string(),
  done: z.boolean(),
});

export const run = z.object({
  ...runFacts,
  startedAt: z.string(),
  /** Left out where the bundle came as an upload. */
  bundle: z.string().optional(),
  settings,
  done: z.array(z.enum(['intake', 'check', 'pictures', 'stage'])).default([]),
  documents: z.array(document).default([]),
});
export type RunTold = z.output<typeof run>;
