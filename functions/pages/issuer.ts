/**
 * The issuer of tokens, as OpenID Connect describes it (Core 1.0, Discovery 1.0): where to sign in, a code
 * turned into an ID token, and the check of such a token by its keys. Takes a way to fetch, so that tests
 * need no network; remembers what the issuer says of itself for an hour, and its keys as long as they serve.
 */
import { createRemoteJWKSet, customFetch, errors, type JWTPayload, jwtVerify } from 'jose';
import { z } from 'zod';
import { Fault } from '../../src/base/fault.ts';
import { PAGES_LIMITS } from '../../src/base/limits.ts';
import type { Wire } from './request.ts';

export interface IssuerOrder {
  /** As it stands in its tokens. */
  readonly issuer: string;
  /** Our name there: the audience of its ID tokens. */
  readonly client: string;
  /** Where it leads the browser back to; registered there, and never taken from a request. */
  readonly backTo: string;
  readonly fetch: Wire;
  readonly now: () => Date;
}

export interface Issuer {
  signInAt(terms: { state: string; nonce: string; challenge: string }): Promise<string>;
  /** The ID token for a code; `nonce` ties it to this browser. */
  redeem(code: string, terms: { verifier: string; nonce: string }): Promise<Held>;
  /** Nothing for a token that is not, or no longer, good. */
  check(token: string): Promise<Held | undefined>;
  /** Refuses an answer that another issuer gave (RFC 9207). */
  requireSelf(named: string | null): Promise<void>;
  /** Where one signs out of the issuer too. */
  signOutAt(): Promise<string | undefined>;
}

/** A token that was checked. */
export interface Held {
  readonly token: string;
  readonly until: Date;
}

const described = z.object({
  issuer: z.string(),
  authorization_endpoint: z.url(),
  token_endpoint: z.url(),
  jwks_uri: z.url(),
  end_session_endpoint: z.url().optional(),
  authorization_response_iss_parameter_supported: z.boolean().default(false),
});
type Described = z.output<typeof described>;

/** What the gateway takes: only RSA keys. */
const ALGORITHMS = ['RS256', 'RS384', 'RS512'];

export function openIssuer(order: IssuerOrder): Issuer {
  const { issuer, client, backTo, now } = order;
  const known = remember(() => describe(order), now);
  const keys = remember(async () => {
    const { jwks_uri: address } = await known();
    return createRemoteJWKSet(new URL(address), { [customFetch]: order.fetch });
  }, now);
  const verify = async (token: string): Promise<JWTPayload> => {
    const { payload } = await jwtVerify(token, await keys(), {
      issuer,
      audience: client,
      algorithms: ALGORITHMS,
      requiredClaims: ['exp', 'iat', 'sub'],
      currentDate: now(),
    });
    // A token for several must say that it was given to us (Core 1.0, 3.1.3.7).
    const given = payload['azp'];
    if (
      given === undefined ? Array.isArray(payload.aud) && payload.aud.length > 1 : given !== client
    )
      throw new errors.JWTClaimValidationFailed('given to somebody else', payload, 'azp');
    return payload;
  };
  const hold = (token: string, { exp = 0 }: JWTPayload): Held => ({
    token,
    until: new Date(exp * 1000),
  });

  return {
    async signInAt({ state, nonce, challenge }) {
      const address = new URL((await known()).authorization_endpoint);
      const asked = {
        response_type: 'code', scope: 'openid', client_id: client, redirect_uri: backTo,
        state, nonce, code_challenge: challenge, code_challenge_method: 'S256',
      }; // prettier-ignore
      for (const [name, value] of Object.entries(asked)) address.searchParams.set(name, value);
      return address.href;
    },
    async redeem(code, { verifier, nonce }) {
      const token = await exchange(order, (await known()).token_endpoint, { code, verifier });
      const payload = await verify(token).catch(asFault);
      if (payload['nonce'] !== nonce) throw refused('the token is for another visit');
      return hold(token, payload);
    },
    async check(token) {
      try {
        return hold(token, await verify(token));
      } catch (error) {
        if (isBad(error)) return undefined;
        return asFault(error);
      }
    },
    async requireSelf(named) {
      const { authorization_response_iss_parameter_supported: always } = await known();
      if (named === null ? always : named !== issuer) throw refused('another issuer answered');
    },
    signOutAt: async () => (await known()).end_session_endpoint,
  };
}

export const refused = (why: string): Fault =>
  new Fault('usage', `the sign-in was refused: ${why}`, { remedy: 'sign in once more' });

/** The token itself is wrong; anything else is an issuer that does not answer. */
const isBad = (error: unknown): boolean =>
  error instanceof errors.JOSEError &&
  !['ERR_JOSE_GENERIC', 'ERR_JWKS_TIMEOUT', 'ERR_JWKS_INVALID'].includes(error.code);

function asFault(error: unknown): never {
  if (error instanceof Fault) throw error;
  if (isBad(error)) throw refused('its token is not good');
  throw silent(error);
}

const silent = (cause: unknown): Fault =>
  new Fault('store', 'the sign-in does not answer just now', {
    remedy: 'try again in a minute',
    retryable: true,
    cause,
  });

async function describe({ issuer, fetch }: IssuerOrder): Promise<Described> {
  // Discovery 1.0, section 4: a slash at the end goes first.
  const address = `${issuer.replace(/\/$/, '')}/.well-known/openid-configuration`;
  const told = described.safeParse(await readJson(fetch, address, {}));
  if (!told.success) throw silent(told.error);
  const { authorization_endpoint, token_endpoint, jwks_uri, end_session_endpoint } = told.data;
  const addresses = [authorization_endpoint, token_endpoint, jwks_uri, end_session_endpoint];
  const open = addresses.some((each) => each !== undefined && !each.startsWith('https://'));
  if (told.data.issuer !== issuer || open) throw silent('not the issuer that was named');
  return told.data;
}

/** Public client with a proof key (RFC 7636): there is no secret that could be lost. */
async function exchange(
  { client, backTo, fetch }: IssuerOrder,
  address: string,
  { code, verifier }: { readonly code: string; readonly verifier: string },
): Promise<string> {
  const body = new URLSearchParams({
    grant_type: 'authorization_code',
    code,
    redirect_uri: backTo,
    client_id: client,
    code_verifier: verifier,
  });
  const told = await readJson(fetch, address, { method: 'POST', body });
  const answer = z.object({ id_token: z.string().max(PAGES_LIMITS.tokenLetters) }).safeParse(told);
  if (answer.success) return answer.data.id_token;
  throw refused('the code gave no token, or one too long for a cookie');
}

async function readJson(get: Wire, address: string, how: RequestInit): Promise<unknown> {
  const signal = AbortSignal.timeout(PAGES_LIMITS.waitSeconds * 1000);
  try {
    const answer = await get(address, { ...how, redirect: 'error', signal });
    if (answer.status === 400 || answer.status === 401) return undefined;
    if (!answer.ok) throw new Error(String(answer.status));
    return await answer.json();
  } catch (cause) {
    throw silent(cause);
  }
}

/** Asked for once and kept for an hour; what failed is asked for again. */
function remember<T>(ask: () => Promise<T>, now: () => Date): () => Promise<T> {
  let kept: { readonly at: number; readonly value: Promise<T> } | undefined;
  return () => {
    const at = now().getTime();
    if (kept === undefined || at - kept.at > PAGES_LIMITS.rememberedSeconds * 1000) {
      const made = { at, value: ask() };
      kept = made;
      made.value.catch(() => {
        if (kept === made) kept = undefined;
      });
    }
    return kept.value;
  };
}
