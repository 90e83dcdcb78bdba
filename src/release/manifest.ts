/**
 * The manifest: one immutable record that names everything a release hands over, by path and content
 * hash. Takes nothing from a clock, so that the same release always has the same bytes. A release
 * exists when, and only when, its manifest is in the store.
 */
import { z } from 'zod';
import { assert } from '../base/assert.ts';
import { Fault } from '../base/fault.ts';
import { canonicalJson } from '../base/hash.ts';

const hash = z.string().regex(/^[0-9a-f]{64}$/);
/** Below the version's folder; steps of plain characters, so safe on every disk. */
const path = z
  .string()
  .regex(/^[A-Za-z0-9_][\w.-]*(\/[A-Za-z0-9_][\w.-]*)*$/)
  .max(200);

const file = z.strictObject({
  path,
  artifact: hash,
  sizeBytes: z.number().int().nonnegative(),
  mediaType: z.string().max(80),
  role: z.enum(['document', 'page', 'listing', 'picture', 'errata', 'shop', 'record']),
  language: z.string().optional(),
  edition: z.string().optional(),
});

const manifest = z.strictObject({
  format: z.literal('castoff-release/1'),
  pattern: z.string(),
  version: z.string(),
  issued: z.string(),
  bundle: hash,
  languages: z.array(z.string()),
  /** Languages the designer left out of this version, with her reason. */
  heldOver: z.array(z.strictObject({ language: z.string(), reason: z.string() })).optional(),
  /** What it is for; for sale where absent. */
  stage: z.enum(['proof', 'test']).optional(),
  /** Of a proof or a test copy: the first of its version is 1. */
  copy: z.number().int().positive().optional(),
  /** Languages that are knowingly offered although nobody has reviewed them. */
  unreviewed: z.array(z.string()).optional(),
  /** Versions whose buyers this one was compared for, the one before it first. */
  earlier: z.array(z.string()).optional(),
  accepted: z.array(
    z.strictObject({
      code: z.string(),
      file: z.string(),
      pointer: z.string(),
      sizes: z.array(z.string()),
      reason: z.string(),
    }),
  ),
  files: z.array(file),
});

export type Manifest = z.output<typeof manifest>;
export type ReleasedFile = z.output<typeof file>;

/** Bytes of a manifest: canonical, files in order of path. */
export function writeManifest(value: Manifest): Uint8Array {
  const paths = value.files.map((each) => each.path.toLowerCase());
  assert(new Set(paths).size === paths.length, 'every file of a release has a path of its own');
  const files = value.files.toSorted((a, b) => (a.path < b.path ? -1 : 1));
  const ordered = JSON.parse(canonicalJson({ ...value, files })) as unknown;
  return new TextEncoder().encode(`${JSON.stringify(ordered, null, 2)}\n`);
}

/** Reads a manifest back; one that was damaged or made by a newer program is a `Fault`. */
export function readManifest(bytes: Uint8Array, place: string): Manifest {
  const parsed = manifest.safeParse(parseJson(bytes));
  if (parsed.success) return parsed.data;
  throw new Fault('store', 'the manifest cannot be read', {
    place,
    remedy: 'was it changed by hand, or written by a newer version of the program?',
    cause: parsed.error,
  });
}

export function parseJson(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder().decode(bytes));
  } catch {
    return undefined;
  }
}

/** Later is greater: negative where `a` comes before `b`. */
export function compareVersions(a: string, b: string): number {
  const [left, right] = [a, b].map((each) => each.split('.').map(Number));
  for (const part of [0, 1, 2]) {
    const difference = (left?.[part] ?? 0) - (right?.[part] ?? 0);
    if (difference !== 0) return difference;
  }
  return 0;
}
