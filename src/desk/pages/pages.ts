/**
 * The documents as they would be set now: page by page, in one language beside another, in each edition
 * and on each paper. Takes choices from the address and holds them against the pattern; the pages are
 * drawn in the browser from the document itself, and without a script there is the document to open.
 */
import { createHash } from 'node:crypto';
import { blocks } from '../../findings/finding.ts';
import type { BundleData } from '../../pattern/bundle/schema.ts';
import type { DocumentOrder } from '../../pipeline/ports.ts';
import { PAGE_STYLE } from '../../press/html/page-style.ts';
import { type Answer, bytes, page } from '../answer.ts';
import type { Asked, Desk } from '../desk.ts';
import { frameOf } from './frame.ts';
import { unreadFault } from '../unread.ts';

const EDITIONS = ['standard', 'large', 'ink-saving', 'one-size'] as const;
const PAPERS = ['A4', 'Letter'] as const;
/** The same words as one web page: no edition of the press, but chosen like one. */
const WEB = 'web';

export async function showPages(desk: Desk, { call, words, wording }: Asked): Promise<Answer> {
  const { say, render } = wording;
  const name = words['name'] ?? '';
  const looked = await desk.look(name);
  const frame = frameOf(looked, name, 'pages', say);
  const data = looked.bundle?.data;
  if (!data) return page(render('pages', { ...frame, readable: false }));
  const known = await desk.languages();
  const nameOf = (tag: string) => known.get(tag)?.settings.name ?? tag;
  const { language, beside, edition, paper, size } = choicesOf(call.query, data);
  const option = (value: string, word: string, chosen: string) => ({
    value,
    word,
    chosen: value === chosen,
  });
  const address = `/patterns/${encodeURIComponent(name)}`;
  const shown = [...new Set([beside, language])].filter((tag) => tag !== '');
  const view = {
    ...frame,
    readable: true,
    draft: looked.findings.some(blocks),
    languages: data.languages.map((tag) => option(tag, nameOf(tag), language)),
    besides: ['', ...data.languages].map((tag) =>
      option(tag, tag === '' ? say('pages.alone') : nameOf(tag), beside),
    ),
    editions: [...EDITIONS, WEB].map((kind) => option(kind, say(`edition.${kind}`), edition)),
    papers: ['', ...PAPERS].map((each) =>
      option(each, each === '' ? say('pages.ownPaper') : each, paper),
    ),
    sizes: data.sizes.map((each) => option(each, each, size)),
    web: edition === WEB,
    sheets: shown.map((tag) => ({
      tag,
      title: nameOf(tag),
      direction: known.get(tag)?.settings.direction ?? 'ltr',
      pdf: `${address}/sheet.pdf?${new URLSearchParams({ language: tag, edition, paper, size }).toString()}`,
      web: `${address}/web-page?${new URLSearchParams({ language: tag }).toString()}`,
      frameTitle: say('pages.webOf', { language: nameOf(tag) }),
      pageWords: say('pages.page', { language: nameOf(tag) }),
      openWords: say('pages.open', { language: nameOf(tag) }),
      webWords: say('pages.openWeb', { language: nameOf(tag) }),
    })),
    two: shown.length > 1,
  };
  return page(render('pages', view));
}

/** What was chosen, as far as the pattern knows it. */
function choicesOf(query: URLSearchParams, data: BundleData) {
  const among = (name: string, known: readonly string[], otherwise: string): string => {
    const asked = query.get(name);
    return asked !== null && known.includes(asked) ? asked : otherwise;
  };
  const other = data.languages.find((tag) => tag !== data.language) ?? data.language;
  return {
    language: among('language', data.languages, other),
    beside: among('beside', ['', ...data.languages], data.language),
    edition: among('edition', [...EDITIONS, WEB], 'standard'),
    paper: among('paper', ['', ...PAPERS], ''),
    size: among('size', data.sizes, data.sizes[Math.floor((data.sizes.length - 1) / 2)] ?? ''),
  };
}

export async function sendSheet(desk: Desk, { call, words }: Asked): Promise<Answer> {
  const name = words['name'] ?? '';
  const data = await readableData(desk, name);
  const { language, edition, paper, size } = choicesOf(call.query, data);
  const kind = EDITIONS.find((each) => each === edition) ?? 'standard';
  const sheet = PAPERS.find((each) => each === paper);
  const order: DocumentOrder = {
    language,
    edition: { kind, ...(kind === 'one-size' && { size }), ...(sheet && { paper: sheet }) },
  };
  return bytes(await desk.work.ask('sheet', { name, order }), 'application/pdf');
}

/** The page carries its style and pictures in itself; nothing else may run or load in it. */
const WEB_PROTECTION = [
  "default-src 'none'",
  `style-src 'sha256-${createHash('sha256').update(PAGE_STYLE).digest('base64')}'`,
  'img-src data:',
  "frame-ancestors 'self'",
  'sandbox allow-popups',
].join('; ');

export async function sendWebPage(desk: Desk, { call, words }: Asked): Promise<Answer> {
  const name = words['name'] ?? '';
  const { language } = choicesOf(call.query, await readableData(desk, name));
  const html = await desk.work.ask('webPage', { name, language });
  const heads = { 'content-security-policy': WEB_PROTECTION };
  return bytes(html, 'text/html; charset=utf-8', heads);
}

async function readableData(desk: Desk, name: string): Promise<BundleData> {
  const { bundle } = await desk.look(name);
  if (bundle) return bundle.data;
  throw unreadFault();
}
