/** The shelf: what the studio has released, and the way to hand a pattern in. */
import { BUNDLE_LIMITS } from '../../src/base/limits.ts';
import { page } from '../../src/desk/answer.ts';
import type { Settings } from '../../src/pipeline/payloads.ts';
import { formToken } from './session.ts';
import type { Asked } from './pages.ts';
import type { Served } from './request.ts';

export async function showShelf({ request, api, wording, held }: Asked): Promise<Served> {
  const after = request.query.get('after') ?? undefined;
  const { releases, next } = await api.releases(after);
  const patterns = new Map<string, string[]>();
  for (const { pattern, version } of releases)
    patterns.set(pattern, [...(patterns.get(pattern) ?? []), version]);
  const view = {
    title: wording.say('shelf.title'),
    token: formToken(held.token),
    patterns: [...patterns].map(([pattern, versions]) => ({
      address: `/patterns/${pattern}`,
      title: nameOf(pattern),
      versions: versions.join(', '),
    })),
    next: next === undefined ? '' : `/?after=${encodeURIComponent(next)}`,
  };
  return shown(wording.render('cloud-shelf', view));
}

/** What is ordered is sealed into the form that the store takes; the file goes there and not through us. */
export async function openHandIn({ request, api, wording }: Asked): Promise<Served> {
  const { url, fields } = await api.openUpload(orderOf(request.form));
  const view = {
    title: wording.say('handIn.title'),
    url,
    most: BUNDLE_LIMITS.zipBytes,
    fields: Object.entries(fields).map(([name, value]) => ({ name, value })),
  };
  return { ...shown(wording.render('cloud-hand-in', view)), formsGoTo: new URL(url).origin };
}

const KINDS = ['large', 'ink-saving'] as const;
const PAPERS = ['A4', 'Letter'] as const;

/** The standard edition is always made; each edition on the language's own paper, or on both. */
function orderOf(form: URLSearchParams): Settings {
  const chosen = new Set(form.getAll('edition'));
  const kinds = ['standard' as const, ...KINDS.filter((kind) => chosen.has(kind))];
  if (form.get('papers') !== 'both') return { editions: kinds.map((kind) => ({ kind })) };
  return { editions: kinds.flatMap((kind) => PAPERS.map((paper) => ({ kind, paper }))) };
}

export const nameOf = (pattern: string): string => pattern.replaceAll('-', ' ');

export const shown = (html: string): Served => ({ ...page(html), body: html });
