/**
 * What a browser keeps for us: the token of its person, and during a sign-in one secret from which state,
 * nonce and proof key follow. Cookies of the `__Host-` kind, which no other host can set and no script can
 * read; nothing is kept here.
 */
import { createHash, createHmac, timingSafeEqual } from 'node:crypto';
import { PAGES_LIMITS } from '../../src/base/limits.ts';
import type { Held } from './issuer.ts';
import type { Request } from './request.ts';

const SESSION = '__Host-desk';
const VISIT = '__Host-sign-in';

/**
 * Lax, for two other sites lead the browser back by a plain link: the issuer, and the store after an
 * upload. A form from elsewhere brings no cookie of this kind, and is refused by its origin besides.
 */
const FLAGS = 'Path=/; Secure; HttpOnly; SameSite=Lax';

export const tokenIn = ({ cookies }: Request): string | undefined => cookies.get(SESSION);

export function keepSession({ token, until }: Held, now: Date): string {
  const seconds = Math.max(0, Math.floor((until.getTime() - now.getTime()) / 1000));
  return `${SESSION}=${token}; Max-Age=${seconds}; ${FLAGS}`;
}

export const forgetSession = `${SESSION}=; Max-Age=0; ${FLAGS}`;

/** One visit to the issuer. */
export interface Visit {
  readonly state: string;
  readonly nonce: string;
  readonly verifier: string;
  readonly challenge: string;
  /** A page of ours, to go on with. */
  readonly onTo: string;
}

export const keepVisit = (secret: string, onTo: string): string =>
  `${VISIT}=${secret}.${Buffer.from(onTo).toString('base64url')}; Max-Age=${PAGES_LIMITS.visitSeconds}; ${FLAGS}`;

export const forgetVisit = `${VISIT}=; Max-Age=0; ${FLAGS}`;

export function visitOf(secret: string, onTo: string): Visit {
  const part = (name: string) => createHmac('sha256', secret).update(name).digest('base64url');
  const verifier = part('verifier');
  return {
    state: part('state'),
    nonce: part('nonce'),
    verifier,
    challenge: challengeOf(verifier),
    onTo,
  };
}

/** RFC 7636, 4.2. */
export const challengeOf = (verifier: string): string =>
  createHash('sha256').update(verifier).digest('base64url');

/** The visit that this answer of the issuer belongs to. */
export function visitIn({ cookies, query }: Request): Visit | undefined {
  const [secret = '', onTo = ''] = (cookies.get(VISIT) ?? '').split('.');
  if (secret.length < 32) return undefined;
  const visit = visitOf(secret, Buffer.from(onTo, 'base64url').toString('utf8'));
  return isSame(query.get('state') ?? '', visit.state) ? visit : undefined;
}

const isSame = (a: string, b: string): boolean => {
  const hash = (text: string) => createHash('sha256').update(text).digest();
  return timingSafeEqual(hash(a), hash(b));
};
