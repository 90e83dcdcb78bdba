/**
 * Who may speak to the desk: the person who was shown the key, from the desk's own pages, and nobody
 * else on this machine or on the web. Takes the heads of a request; gives the reason for a refusal or
 * nothing. The key opens once and becomes a cookie that scripts cannot read and other sites cannot send.
 */
import { timingSafeEqual } from 'node:crypto';
import { hashBytes } from '../base/hash.ts';

export interface Heads {
  readonly host?: string | undefined;
  readonly origin?: string | undefined;
  readonly cookie?: string | undefined;
  readonly 'sec-fetch-site'?: string | undefined;
}

export interface Guard {
  /** The cookie for whoever brings the key; nothing for a wrong key or one that was used. */
  admit(key: string): string | undefined;
  isKnown(heads: Heads): boolean;
}

/** A name that leads here by rebinding a name server is not ours; neither is another port. */
export function isOwnHost(host: string | undefined, port: number): boolean {
  return host === `127.0.0.1:${port}` || host === `localhost:${port}`;
}

/** What changes something must come from a page of the desk itself: the browser says so. `home`: its origin. */
export function isOwnPage(heads: Heads, home: string): boolean {
  const site = heads['sec-fetch-site'];
  return heads.origin === home && (site === undefined || site === 'same-origin');
}

export function openGuard(key: string, session: string, port: number): Guard {
  // Cookies are shared between the ports of one host, so that the name carries the port.
  const name = `desk-${port}`;
  let used = false;
  return {
    admit(given) {
      if (used || !isSame(given, key)) return undefined;
      used = true;
      return `${name}=${session}; HttpOnly; SameSite=Strict; Path=/`;
    },
    isKnown({ cookie = '' }) {
      const found = cookie
        .split(';')
        .map((each) => each.trim())
        .find((each) => each.startsWith(`${name}=`));
      return found !== undefined && isSame(found.slice(name.length + 1), session);
    },
  };
}

/** Compares hashes, so that neither time nor length tells how near a guess came. */
const isSame = (a: string, b: string): boolean =>
  timingSafeEqual(Buffer.from(hashBytes(a)), Buffer.from(hashBytes(b)));

/**
 * Nothing from elsewhere is loaded, nothing inside a page runs but the desk's own module, no other site
 * may frame it. Documents are shown in a frame of the desk, so that it may frame itself.
 */
export const PROTECTION: Readonly<Record<string, string>> = {
  'content-security-policy': [
    "default-src 'none'", "script-src 'self'", "style-src 'self'", "img-src 'self' data:",
    "connect-src 'self'", "form-action 'self'", "frame-src 'self'", "frame-ancestors 'self'",
    "base-uri 'none'",
  ].join('; '), // prettier-ignore
  'x-content-type-options': 'nosniff',
  // Stricter ones make browsers send forms with the origin "null", which is refused.
  'referrer-policy': 'same-origin',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'cache-control': 'no-store',
};
