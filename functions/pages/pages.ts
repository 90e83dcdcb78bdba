/**
 * The desk in the cloud: a request in, a page out. Takes the issuer, the desk of a person and the templates,
 * and holds no right of its own. The pages are those of the desk on a laptop; here stands only who may see
 * them: a browser whose token was checked this very time, and forms only from such a page.
 */
import path from 'node:path';
import { Fault } from '../../src/base/fault.ts';
import { type Answer, statusOf } from '../../src/desk/answer.ts';
import type { Desk } from '../../src/desk/desk.ts';
import { isOwnPage } from '../../src/desk/guard.ts';
import { openPages as openDeskPages, type Pages as DeskPages } from '../../src/desk/routes.ts';
import { SignedOut } from './client.ts';
import { deliver, type Delivery } from './deliver.ts';
import type { Issuer } from './issuer.ts';
import { callOf, type Request, type Served } from './request.ts';
import { tokenIn } from './session.ts';
import { comeBack, goToIssuer, leave, signInFirst } from './sign-in.ts';

export interface PagesOrder {
  /** Where the pages answer, without a slash at the end. */
  readonly home: string;
  /** Holds `templates/desk`. */
  readonly root: string;
  readonly issuer: Issuer;
  /** What a person with this token may see and do. */
  readonly studio: (token: string) => Studio;
  readonly now: () => Date;
  /** At least 32 letters that nobody can guess. */
  readonly newSecret: () => string;
}

export interface Studio {
  readonly desk: Desk;
  readonly delivery: Delivery;
}

/** Anybody. */
export interface Visitor {
  readonly order: PagesOrder;
  readonly pages: DeskPages;
  readonly request: Request;
}

export type Pages = (request: Request) => Promise<Served>;

export async function openPages(order: PagesOrder): Promise<Pages> {
  const templates = path.join(order.root, 'templates', 'desk');
  const pages = await openDeskPages({ templates, leaves: true });
  return async (request) => {
    try {
      return await serve({ order, pages, request });
    } catch (error) {
      if (error instanceof SignedOut) return wayIn({ order, pages, request });
      if (error instanceof Fault) return refusal({ order, pages, request }, error);
      throw error;
    }
  };
}

async function serve(visitor: Visitor): Promise<Served> {
  const { order, pages, request } = visitor;
  const call = callOf(request, order.home);
  const posts = call.method === 'POST';
  if (!['GET', 'HEAD', 'POST'].includes(request.method)) throw noSuchPage(call.path);
  if (posts && !isOwnPage(request.heads, order.home)) throw foreignForm();
  if (!posts && call.path === '/sign-in') return goToIssuer(visitor);
  if (!posts && call.path === '/sign-in/back') return comeBack(visitor);
  const open = await pages.forAnybody(call);
  if (open) return plainly(open);
  const token = tokenIn(request);
  const held = token === undefined ? undefined : await order.issuer.check(token);
  if (held === undefined) return wayIn(visitor);
  if (posts && call.path === '/sign-out') return leave(visitor, call);
  const { desk, delivery } = order.studio(held.token);
  return deliver(await pages.answer(desk, call), delivery);
}

/** A choice of language comes with a cookie, which here goes over TLS alone. */
function plainly({ status, headers, body }: Answer): Served {
  const { 'set-cookie': cookie, ...rest } = headers;
  const cookies = cookie === undefined ? {} : { cookies: [`${cookie}; Secure`] };
  return { status, headers: rest, body: isBytes(body) ? body : '', ...cookies };
}

const isBytes = (body: Answer['body']): body is string | Uint8Array =>
  typeof body === 'string' || body instanceof Uint8Array;

const noSuchPage = (place: string): Fault =>
  new Fault('missing', 'there is no such page', { place });

const foreignForm = (): Fault =>
  new Fault('usage', 'send forms from the desk’s own pages', {
    remedy: 'go back to the patterns and fill the form in there',
  });

/** What was sent by a form is not carried through a sign-in; one begins at the shelf again. */
const wayIn = ({ pages, request }: Visitor): Served =>
  signInFirst(request.method === 'GET' ? request.address : '/', pages);

function refusal({ order, pages, request }: Visitor, fault: Fault): Served {
  const call = { ...callOf({ ...request, path: '/' }, order.home), path: request.path };
  return plainly(pages.refuse(call, fault, statusOf(fault)));
}
