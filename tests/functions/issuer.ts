/**
 * An issuer of tokens in this process, written after OpenID Connect Core 1.0 (3.1.2 and 3.1.3), Discovery 1.0
 * and RFC 7636: it describes itself, lets a person in, and gives an ID token for a code once, against the
 * proof key. Answers requests as a server would; its keys and its slips can be changed by a test.
 */
import { createHash, randomUUID } from 'node:crypto';
import { exportJWK, generateKeyPair, SignJWT } from 'jose';
import type { CryptoKey, JSONWebKeySet, JWTPayload } from 'jose';
import type { Wire } from '../../functions/pages/request.ts';

export const ISSUER = 'https://identity.northfold.example/';
export const CLIENT = 'castoff-desk';

export interface Said {
  readonly key?: CryptoKey;
  readonly issuer?: string;
  readonly audience?: string | string[];
  readonly from?: string;
  readonly until?: string;
}

export interface TestIssuer {
  readonly keys: JSONWebKeySet;
  readonly publicKey: CryptoKey;
  readonly asked: string[];
  /** What the next tokens say besides, such as another nonce. */
  slip: JWTPayload;
  /** For whom, by whom and for how long the next tokens are. */
  terms: Said;
  /** Is out of reach. */
  silent: boolean;
  sign(claims: JWTPayload, said?: Said): Promise<string>;
  /** A person of this studio signs in on the page at this address; gives where the browser is led. */
  letIn(address: string, studio: unknown): URL;
  fetch: Wire;
}

interface Granted {
  readonly asked: URLSearchParams;
  readonly studio: unknown;
}

export async function openIssuerForTests(): Promise<TestIssuer> {
  const { publicKey, privateKey } = await generateKeyPair('RS256', { extractable: true });
  const keys = { keys: [{ ...(await exportJWK(publicKey)), kid: 'k1', alg: 'RS256' }] };
  const granted = new Map<string, Granted>();
  const json = (value: unknown, status = 200) => Response.json(value, { status });

  const redeem = async (form: URLSearchParams): Promise<Response> => {
    const code = form.get('code') ?? '';
    const grant = granted.get(code);
    granted.delete(code);
    const proof = createHash('sha256').update(form.get('code_verifier') ?? '');
    const holds =
      form.get('grant_type') === 'authorization_code' &&
      form.get('client_id') === grant?.asked.get('client_id') &&
      form.get('redirect_uri') === grant.asked.get('redirect_uri') &&
      proof.digest('base64url') === grant.asked.get('code_challenge');
    if (!holds) return json({ error: 'invalid_grant' }, 400);
    const { asked, studio } = grant;
    const said = { sub: 'someone', studio, nonce: asked.get('nonce') ?? '', ...issuer.slip };
    return json({ id_token: await issuer.sign(said, issuer.terms), token_type: 'Bearer' });
  };

  const issuer: TestIssuer = {
    keys,
    publicKey,
    asked: [],
    slip: {},
    terms: {},
    silent: false,
    sign: (claims, said = {}) =>
      new SignJWT(claims)
        .setProtectedHeader({ alg: 'RS256', kid: 'k1' })
        .setIssuer(said.issuer ?? ISSUER)
        .setAudience(said.audience ?? CLIENT)
        .setIssuedAt()
        .setNotBefore(said.from ?? '-1 minute')
        .setExpirationTime(said.until ?? '5 minutes')
        .sign(said.key ?? privateKey),
    letIn(address, studio) {
      const { searchParams: asked, origin, pathname } = new URL(address);
      if (`${origin}${pathname}` !== `${ISSUER}authorize`) throw new Error(address);
      const code = randomUUID();
      granted.set(code, { asked, studio });
      const back = new URL(asked.get('redirect_uri') ?? '');
      back.searchParams.set('code', code);
      back.searchParams.set('state', asked.get('state') ?? '');
      back.searchParams.set('iss', ISSUER);
      return back;
    },
    fetch: async (address, how) => {
      issuer.asked.push(address);
      if (issuer.silent) throw new TypeError('fetch failed');
      switch (address) {
        case `${ISSUER}.well-known/openid-configuration`:
          return json({
            issuer: ISSUER,
            authorization_endpoint: `${ISSUER}authorize`,
            token_endpoint: `${ISSUER}token`,
            jwks_uri: `${ISSUER}keys`,
            end_session_endpoint: `${ISSUER}leave`,
            authorization_response_iss_parameter_supported: true,
          });
        case `${ISSUER}keys`:
          return json(keys);
        case `${ISSUER}token`:
          return redeem(how.body as URLSearchParams);
        default:
          return new Response('', { status: 404 });
      }
    },
  };
  return issuer;
}
