/**
 * The small machine-readable record a packet leaves beside it, so that the next packet can say what
 * changed: every number with its values and what holds it, every finding. Takes a gathered packet, gives
 * JSON; reads it back and refuses what is no such record, with place and remedy.
 */
import { z } from 'zod';
import { Fault } from '../../base/fault.ts';
import { PACKET_LIMITS } from '../../base/limits.ts';
import type { Finding } from '../../findings/finding.ts';
import { wordingOf } from '../../findings/register.ts';
import type { Bundle } from '../../pattern/pattern.ts';
import type { EditorEntry } from './numbers.ts';

const FORMAT = 'castoff-packet/1';

const holding = z.enum(['held', 'free', 'unheld']);

const recordSchema = z.strictObject({
  format: z.literal(FORMAT),
  pattern: z.string(),
  version: z.string(),
  issued: z.string(),
  /** SHA-256 of the bundle. */
  bundle: z.string(),
  sizes: z.array(z.string()),
  entries: z.array(
    z.strictObject({
      part: z.string(),
      place: z.string(),
      key: z.string(),
      text: z.string(),
      numbers: z.array(
        z.strictObject({
          what: z.string(),
          values: z.array(z.number().nullable()),
          holding,
          heldBy: z.array(z.string()),
        }),
      ),
    }),
  ),
  findings: z.array(
    z.strictObject({
      code: z.string(),
      where: z.string(),
      says: z.string(),
      accepted: z.string().optional(),
    }),
  ),
});

export type PacketRecord = z.output<typeof recordSchema>;
export type RecordedEntry = PacketRecord['entries'][number];
export type RecordedFinding = PacketRecord['findings'][number];

export function recordOf(
  { data, hash }: Pick<Bundle, 'data' | 'hash'>,
  entries: readonly EditorEntry[],
  findings: readonly Finding[],
): PacketRecord {
  return {
    format: FORMAT,
    pattern: data.id,
    version: data.version,
    issued: data.issued,
    bundle: hash,
    sizes: [...data.sizes],
    entries: entries.map(({ part, place, key, text, numbers }) => ({
      part, place, key, text,
      numbers: numbers.map(({ what, values, holding: state, heldBy }) => ({
        what, values: [...values], holding: state, heldBy: [...heldBy],
      })),
    })), // prettier-ignore
    findings: findings.map((each) => ({
      code: each.code,
      where: each.where.label ?? each.where.pointer,
      says: wordingOf(each).headline,
      ...(each.accepted !== undefined && { accepted: each.accepted }),
    })),
  };
}

export const writeRecord = (record: PacketRecord): Uint8Array =>
  new TextEncoder().encode(`${JSON.stringify(record, null, 1)}\n`);

/** `place`: the file, for the person who named it. */
export function readRecord(bytes: Uint8Array, place: string): PacketRecord {
  const remedy = 'name the .json file that castoff packet editor wrote beside the packet';
  if (bytes.byteLength > PACKET_LIMITS.recordBytes)
    throw new Fault('input', 'the record of the last packet is too large', { place, remedy });
  let json: unknown;
  try {
    json = JSON.parse(new TextDecoder().decode(bytes));
  } catch (cause) {
    throw new Fault('input', 'the record of the last packet is no JSON', { place, remedy, cause });
  }
  const read = recordSchema.safeParse(json);
  if (read.success) return read.data;
  const [issue] = read.error.issues;
  throw new Fault('input', 'this is not the record of a packet', {
    place: `${place} /${(issue?.path ?? []).join('/')}`,
    remedy,
  });
}
