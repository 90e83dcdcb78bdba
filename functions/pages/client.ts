/**
 * The API as the pages use it: over the wire, with the token of the person, like any other caller. The
 * pages themselves may touch nothing, so that whatever goes wrong in them, the API still checks the token
 * and still knows one studio. Takes where the API is; gives its answers, or a fault in words.
 */
import { z } from 'zod';
import { Fault } from '../../src/base/fault.ts';
import { PAGES_LIMITS } from '../../src/base/limits.ts';
import type { Wire } from './request.ts';
import type { Finding } from '../../src/findings/finding.ts';
import type { Settings } from '../../src/pipeline/payloads.ts';
import { type Manifest, readManifest } from '../../src/release/manifest.ts';

export interface Api {
  /** In pages; `next` is there while there are more. */
  releases(after: string | undefined): Promise<z.output<typeof releases>>;
  /** The earliest version first. */
  versions(pattern: string): Promise<readonly string[]>;
  manifest(pattern: string, version: string): Promise<Manifest>;
  /** An address that serves one file for a while. */
  download(pattern: string, version: string, path: string): Promise<string>;
  openUpload(order: Settings): Promise<z.output<typeof upload>>;
  runOf(upload: string): Promise<string | undefined>;
  run(run: string): Promise<Run>;
  findings(run: string): Promise<{ readonly findings: readonly Finding[]; readonly more: number }>;
}

/** The API did not take the token. */
export class SignedOut extends Error {}

const releases = z.object({
  releases: z.array(z.object({ pattern: z.string(), version: z.string() })),
  next: z.string().optional(),
});
const upload = z.object({ url: z.url(), fields: z.record(z.string(), z.string()) });
const run = z.object({
  run: z.string(),
  state: z.enum(['working', 'released', 'blocked', 'failed', 'lost', 'cancelled']),
  findings: z.number(),
  blocking: z.number(),
  done: z.array(z.string()).default([]),
  pattern: z.string().optional(),
  version: z.string().optional(),
  message: z.string().optional(),
  place: z.string().optional(),
  remedy: z.string().optional(),
});
export type Run = z.output<typeof run>;
const findings = z.object({ more: z.number(), findings: z.array(z.looseObject({})) });

export interface ApiOrder {
  /** Without a slash at the end. */
  readonly address: string;
  readonly fetch: Wire;
}

export function openApi(order: ApiOrder, token: string): Api {
  const get = (path: string) => ask(order, token, path);
  const read = async <T>(schema: z.ZodType<T>, path: string) =>
    schema.parse(JSON.parse(await get(path)));
  return {
    releases: (after) =>
      read(
        releases,
        `/releases${after === undefined ? '' : `?after=${encodeURIComponent(after)}`}`,
      ),
    versions: async (pattern) =>
      (await read(z.object({ versions: z.array(z.string()) }), `/releases/${plain(pattern)}`))
        .versions,
    manifest: async (pattern, version) => {
      const path = `/releases/${plain(pattern)}/${plain(version)}`;
      return readManifest(new TextEncoder().encode(await get(path)), path);
    },
    download: async (pattern, version, file) => {
      const path = `/releases/${plain(pattern)}/${plain(version)}/download`;
      const query = `?path=${encodeURIComponent(file)}`;
      return (await read(z.object({ url: z.url() }), path + query)).url;
    },
    openUpload: async (settings) => {
      const body = JSON.stringify({ ...settings, leadTo: 'desk' });
      return upload.parse(JSON.parse(await ask(order, token, '/uploads', body)));
    },
    runOf: async (id) =>
      (await read(z.object({ run: z.string().optional() }), `/uploads/${plain(id)}`)).run,
    run: (id) => read(run, `/runs/${plain(id)}`),
    findings: async (id) => {
      const told = await read(findings, `/runs/${plain(id)}/findings`);
      // The API prints findings with all their keys; its own tests hold it to that.
      return { more: told.more, findings: told.findings as unknown as readonly Finding[] };
    },
  };
}

/** A word of an address, which must not lead to another route. */
function plain(word: string): string {
  if (/^(?!\.)[\w.-]{1,80}$/.test(word)) return word;
  throw missing();
}

const missing = (): Fault =>
  new Fault('missing', 'there is no such thing in your studio', {
    remedy: 'look for it among the patterns',
  });

async function ask(
  { address, fetch: send }: ApiOrder,
  token: string,
  path: string,
  body?: string,
): Promise<string> {
  const answer = await send(address + path, {
    method: body === undefined ? 'GET' : 'POST',
    headers: { authorization: `Bearer ${token}` },
    redirect: 'error',
    signal: AbortSignal.timeout(PAGES_LIMITS.waitSeconds * 1000),
    ...(body !== undefined && { body }),
  }).catch((cause: unknown) => {
    throw busy(cause);
  });
  if (answer.ok) return answer.text();
  switch (answer.status) {
    case 400:
      throw new Fault('input', 'this cannot be asked for');
    case 401:
      throw new SignedOut();
    case 403:
      throw new Fault('usage', 'your sign-in names no studio', {
        remedy: 'ask whoever looks after the sign-in to give you one',
      });
    case 404:
      throw missing();
    default:
      throw busy(answer.status);
  }
}

const busy = (cause: unknown): Fault =>
  new Fault('store', 'the studio’s rooms do not answer just now', {
    remedy: 'try again in a minute',
    retryable: true,
    cause,
  });
