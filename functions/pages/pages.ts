/**
 * The desk in the cloud: a request in, a page out. Takes the issuer, the API and the templates as ports, and
 * holds no right of its own. Pages of a person are shown only to a browser whose token was checked this
 * very time; forms only where they come from such a page.
 */
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { Fault } from '../../src/base/fault.ts';
import { bytes, page } from '../../src/desk/answer.ts';
import { chosenLanguage, rememberLanguage } from '../../src/desk/chosen-language.ts';
import { openWordings, type Wording, type Wordings } from '../../src/desk/wording.ts';
import { ADDRESSES, type Address } from './addresses.ts';
import { type Api, SignedOut } from './client.ts';
import type { Held, Issuer } from './issuer.ts';
import { fetchFile, showRelease } from './releases.ts';
import type { Request, Served } from './request.ts';
import { followRun, followUpload } from './runs.ts';
import { isFromHere, isOwnForm, tokenIn } from './session.ts';
import { openHandIn, showShelf } from './shelf.ts';
import { comeBack, goToIssuer, isOwnPage, leave, signInFirst } from './sign-in.ts';

export interface PagesOrder {
  /** Where the pages answer, without a slash at the end. */
  readonly home: string;
  /** Holds `templates/desk`. */
  readonly root: string;
  readonly issuer: Issuer;
  readonly api: (token: string) => Api;
  readonly now: () => Date;
  /** At least 32 letters that nobody can guess. */
  readonly newSecret: () => string;
}

/** Anybody. */
export interface Visitor {
  readonly desk: PagesOrder;
  readonly request: Request;
  readonly wording: Wording;
  readonly wordings: Wordings;
}

/** A person whose token was checked. */
export interface Asked extends Visitor {
  readonly held: Held;
  readonly api: Api;
}

type VisitorsPage = (visitor: Visitor) => Promise<Served>;
type OwnPage = (asked: Asked) => Promise<Served>;

const file =
  (name: string, type: string): VisitorsPage =>
  async ({ desk }) => {
    const text = await readFile(path.join(desk.root, 'templates', 'desk', name), 'utf8');
    const served = bytes(text, `${type}; charset=utf-8`, { 'cache-control': 'max-age=600' });
    return { ...served, body: text };
  };

/** A wish of the reader, not of a person: it needs no sign-in, but a page of ours to come from. */
const chooseLanguage: VisitorsPage = async ({ desk, request, wordings }) => {
  const { heads, form } = request;
  if (!isFromHere(request, desk.home)) throw foreignForm();
  const { referer = '' } = heads;
  const from = referer.startsWith(`${desk.home}/`) ? referer.slice(desk.home.length) : '/';
  const { language } = wordings([form.get('language') ?? '']);
  const { 'set-cookie': cookie = '', ...headers } = rememberLanguage({ from }, language, isOwnPage).headers; // prettier-ignore
  return { status: 303, headers, body: '', cookies: [`${cookie}; Secure`] };
};

const foreignForm = (): Fault =>
  new Fault('usage', 'send forms from the desk’s own pages', {
    remedy: 'go back to the patterns and fill the form in there',
  });

const FOR_ANYBODY = {
  'GET /desk.css': file('desk.css', 'text/css'),
  'GET /desk.js': file('desk.js', 'text/javascript'),
  'GET /hand-in.js': file('hand-in.js', 'text/javascript'),
  'GET /cloud.js': file('cloud/cloud.js', 'text/javascript'),
  'GET /sign-in': goToIssuer,
  'GET /sign-in/back': comeBack,
  'POST /language': chooseLanguage,
} as const satisfies Partial<Record<Address, VisitorsPage>>;

const FOR_ITS_PERSON: Readonly<Record<Exclude<Address, keyof typeof FOR_ANYBODY>, OwnPage>> = {
  'GET /': showShelf,
  'POST /sign-out': leave,
  'POST /hand-in': openHandIn,
  'GET /handed-in/{upload}': followUpload,
  'GET /progress/{run}': followRun,
  'GET /patterns/{pattern}': showRelease,
  'GET /patterns/{pattern}/{version}': showRelease,
  'GET /files/{pattern}/{version}/{path+}': fetchFile,
};

export type Pages = (request: Request) => Promise<Served>;

export async function openPages(desk: PagesOrder): Promise<Pages> {
  const templates = path.join(desk.root, 'templates', 'desk');
  const wordings = await openWordings(templates, path.join(templates, 'cloud'));
  return async (request) => {
    const asked = [...chosenLanguage(request.heads['cookie']), ...request.languages];
    const visitor = { desk, request, wordings, wording: wordings(asked) };
    try {
      return await serve(visitor);
    } catch (error) {
      if (error instanceof SignedOut) return wayIn(visitor);
      if (error instanceof Fault) return refusal(visitor.wording, error);
      throw error;
    }
  };
}

async function serve(visitor: Visitor): Promise<Served> {
  const { desk, request } = visitor;
  const address = ADDRESSES.find((each) => each === request.route);
  if (address === undefined) throw new Fault('missing', 'there is no such page');
  if (isForAnybody(address)) return FOR_ANYBODY[address](visitor);
  const token = tokenIn(request);
  const held = token === undefined ? undefined : await desk.issuer.check(token);
  if (held === undefined) return wayIn(visitor);
  if (request.route.startsWith('POST ') && !isOwnForm(request, held.token, desk.home))
    throw foreignForm();
  return FOR_ITS_PERSON[address]({ ...visitor, held, api: desk.api(held.token) });
}

const isForAnybody = (address: Address): address is keyof typeof FOR_ANYBODY =>
  Object.hasOwn(FOR_ANYBODY, address);

/** What was sent by a form is not carried through a sign-in; one begins at the shelf again. */
const wayIn = ({ request }: Visitor): Served =>
  signInFirst(request.route.startsWith('GET ') ? request.address : '/');

export function refusal({ render, say }: Wording, fault: Fault): Served {
  const { message, place = '', remedy = '' } = fault;
  const html = render('fault', { title: say('fault.title'), message, place, remedy });
  return { ...page(html, statusOf(fault)), body: html };
}

function statusOf({ kind, retryable }: Fault): number {
  switch (kind) {
    case 'missing':
      return 404;
    case 'usage':
      return 403;
    case 'conflict':
      return 409;
    case 'store':
      return retryable ? 503 : 500;
    case 'input':
    case 'cancelled':
      return 422;
  }
}
