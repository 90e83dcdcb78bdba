/**
 * The API as the pages use it: over the wire, with the token of the person, like any other caller. The
 * pages themselves may touch nothing, so that whatever goes wrong in them, the API still checks the token
 * and still knows one studio. Takes where the API is; gives its answers, or a fault in words.
 */
import { z } from 'zod';
import { Fault, type FaultKind } from '../../src/base/fault.ts';
import { DESK_LIMITS, PAGES_LIMITS } from '../../src/base/limits.ts';
import type { Settings } from '../../src/pipeline/payloads.ts';
import type { Shelf } from '../../src/shelf/shelf.ts';
import type { Wire } from './request.ts';
import {
  bundle,
  change,
  draft,
  link,
  type OpenedBundle,
  type OpenedDraft,
  putAway,
  run,
  type RunTold,
  upload,
  type UploadTold,
} from './told.ts';

/** Of what the pages made, for a browser to fetch. */
export interface DraftOrder {
  readonly contentType: string;
  readonly sizeBytes: number;
  readonly fileName?: string;
}

/** What a shelf does with one call. */
type ShelfCalls = Pick<
  Shelf,
  'starters' | 'begin' | 'correct' | 'accept' | 'replace' | 'undo' | 'putAway' | 'away' | 'takeBack'
>;

export interface Api extends ShelfCalls {
  bundles(): Promise<readonly string[]>;
  takeUpload(upload: string): Promise<string>;
  bundle(name: string): Promise<OpenedBundle>;
  /** A form whose file lies on the shelf afterwards. */
  openUpload(): Promise<UploadTold>;
  openDraft(order: DraftOrder): Promise<OpenedDraft>;
  draft(id: string): Promise<string>;
  start(name: string, settings: Settings): Promise<string>;
  /** The latest first. */
  runs(bundle: string): Promise<readonly RunTold[]>;
  run(run: string): Promise<RunTold>;
  stop(run: string): Promise<void>;
  /** Those of which something is for sale, in order. */
  patterns(): Promise<readonly string[]>;
  /** The earliest version first; none where nothing is released. */
  versions(pattern: string): Promise<readonly string[]>;
  /** Proofs and test copies by name, the latest version first. */
  copies(pattern: string): Promise<readonly string[]>;
  /** As it is written. */
  manifest(pattern: string, version: string): Promise<string>;
  /** An address that serves one file for a while. */
  download(pattern: string, version: string, path: string): Promise<string>;
  /** The same for a zip of all files; nothing while it is being made. */
  downloadAll(pattern: string, version: string): Promise<string | undefined>;
}

/** The API did not take the token. */
export class SignedOut extends Error {}

export interface ApiOrder {
  /** Without a slash at the end. */
  readonly address: string;
  readonly fetch: Wire;
}

const named = z.object({ bundle: z.string() });

export function openApi(order: ApiOrder, token: string): Api {
  const get = async <T>(schema: z.ZodType<T>, path: string) =>
    schema.parse(JSON.parse(await ask(order, token, path)));
  const post = async <T>(schema: z.ZodType<T>, path: string, body: unknown = {}) =>
    schema.parse(JSON.parse(await ask(order, token, path, JSON.stringify(body))));
  const changed = (name: string, how: string, body?: unknown) =>
    post(change, `/bundles/${plain(name)}/${how}`, body);
  const releaseAt = (pattern: string, version: string) =>
    `/releases/${plain(pattern)}/${plain(version)}`;
  return {
    bundles: async () =>
      (await get(z.object({ bundles: z.array(z.string()) }), '/bundles')).bundles,
    starters: async () =>
      (await get(z.object({ starters: z.array(z.string()) }), '/starters')).starters,
    begin: async (starter) => (await post(named, '/bundles', { starter })).bundle,
    takeUpload: async (id) => (await post(named, '/bundles', { upload: id })).bundle,
    bundle: (name) => get(bundle, `/bundles/${plain(name)}`),
    correct: (name, correction) => changed(name, 'corrections', correction),
    accept: (name, acceptance) => changed(name, 'acceptances', acceptance),
    replace: (name, { file, tag, bytes, said }) =>
      changed(name, 'replacements', { file, tag, text: new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes), said }), // prettier-ignore
    undo: (name) => changed(name, 'undo'),
    putAway: (name) => post(putAway, `/bundles/${plain(name)}/away`),
    away: async () => (await get(z.object({ away: z.array(putAway) }), '/away')).away,
    takeBack: async (name) => (await post(named, `/away/${plain(name)}/back`)).bundle,
    openUpload: () => post(upload, '/uploads', { into: 'shelf', leadTo: 'desk' }),
    openDraft: (wanted) => post(draft, '/drafts', wanted),
    draft: async (id) => (await get(link, `/drafts/${plain(id)}`)).url,
    start: async (name, settings) =>
      (await post(z.object({ run: z.string() }), `/bundles/${plain(name)}/runs`, settings)).run,
    runs: async (name) =>
      (await get(z.object({ runs: z.array(run) }), `/runs?bundle=${plain(name)}`)).runs,
    run: (id) => get(run, `/runs/${plain(id)}`),
    stop: async (id) => void (await post(z.unknown(), `/runs/${plain(id)}/stop`)),
    patterns: () => patternsOf((path) => get(released, path)),
    versions: async (pattern) => (await madeOf(order, token, pattern)).versions,
    copies: async (pattern) => (await madeOf(order, token, pattern)).copies.map(({ name }) => name),
    manifest: (pattern, version) => ask(order, token, releaseAt(pattern, version)),
    download: async (pattern, version, path) =>
      (await get(link, `${releaseAt(pattern, version)}/download?path=${encodeURIComponent(path)}`))
        .url,
    downloadAll: async (pattern, version) => {
      const path = `${releaseAt(pattern, version)}/zip`;
      await post(z.unknown(), path);
      return (await get(link.partial(), path)).url;
    },
  };
}

const released = z.object({
  releases: z.array(z.object({ pattern: z.string() })),
  next: z.string().optional(),
});

/** Releases are told in pages; behind the last version of a pattern the next pattern begins. */
async function patternsOf(
  ask: (path: string) => Promise<z.output<typeof released>>,
): Promise<readonly string[]> {
  const found = new Set<string>();
  let after = '';
  do {
    const { releases, next } = await ask(`/releases${after}`);
    for (const { pattern } of releases) found.add(pattern);
    const last = next === undefined ? undefined : releases.at(-1)?.pattern;
    after = last === undefined ? '' : `?after=${last}/${LAST_VERSION}`;
  } while (after !== '' && found.size < DESK_LIMITS.patterns);
  return [...found];
}

/** No version stands behind it. */
const LAST_VERSION = '9999.9999.9999';

const made = z.object({
  versions: z.array(z.string()),
  copies: z.array(z.object({ name: z.string() })),
});

/** What was made of a pattern; nothing yet is an answer too. */
async function madeOf(
  order: ApiOrder,
  token: string,
  pattern: string,
): Promise<z.output<typeof made>> {
  const told = await ask(order, token, `/releases/${plain(pattern)}`).catch((error: unknown) => {
    if (error instanceof Fault && error.kind === 'missing') return '{"versions":[],"copies":[]}';
    throw error;
  });
  return made.parse(JSON.parse(told));
}

/** A word of an address, which must not lead to another route. */
function plain(word: string): string {
  if (/^(?!\.)[\w.-]{1,80}$/.test(word)) return word;
  throw new Fault('missing', 'there is no such thing in your studio');
}

async function ask(
  { address, fetch: send }: ApiOrder,
  token: string,
  path: string,
  body?: string,
): Promise<string> {
  const asks = body === undefined;
  const answer = await patiently(asks ? WAITS_MILLISECONDS : [], () =>
    send(address + path, {
      method: asks ? 'GET' : 'POST',
      headers: { authorization: `Bearer ${token}` },
      redirect: 'error',
      signal: AbortSignal.timeout(PAGES_LIMITS.waitSeconds * 1000),
      ...(!asks && { body }),
    }).catch((cause: unknown) => {
      throw busyFault(cause);
    }),
  );
  const text = await answer.text();
  if (answer.ok) return text;
  if (answer.status === 401) throw new SignedOut();
  if (answer.status === 403)
    throw new Fault('usage', 'your sign-in names no studio', {
      remedy: 'ask whoever looks after the sign-in to give you one',
    });
  throw faultOf(answer.status, text);
}

/** A question that came too fast, or in a busy moment, is asked again after so long. */
const WAITS_MILLISECONDS = [200, 500, 1_200];

async function patiently(
  waits: readonly number[],
  ask: () => Promise<Response>,
): Promise<Response> {
  const answer = await ask();
  const [wait, ...more] = waits;
  if (wait === undefined || (answer.status !== 429 && answer.status !== 503)) return answer;
  await new Promise((resolve) => setTimeout(resolve, wait));
  return patiently(more, ask);
}

const KINDS: Readonly<Record<number, FaultKind>> = {
  400: 'input',
  404: 'missing',
  409: 'conflict',
  422: 'input',
};

const problem = z.object({
  title: z.string(),
  detail: z.string().optional(),
  place: z.string().optional(),
});

/** What the API refused in words (RFC 9457) is said on in the same words. */
function faultOf(status: number, text: string): Fault {
  const kind = KINDS[status];
  if (kind === undefined) return busyFault(status);
  const { title, detail, place } = problem.parse(JSON.parse(text));
  return new Fault(kind, title, {
    ...(detail !== undefined && { remedy: detail }),
    ...(place !== undefined && { place }),
  });
}

const busyFault = (cause: unknown): Fault =>
  new Fault('store', 'the studio’s rooms do not answer just now', {
    remedy: 'try again in a minute',
    retryable: true,
    cause,
  });
