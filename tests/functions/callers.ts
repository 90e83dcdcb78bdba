/**
 * Callers of the API: the real handler behind the gateway of the tests, and tokens made by the jose library,
 * with everything in them that a test may want to get wrong. The cloud must have been started before.
 */
import type { CryptoKey, JWTPayload } from 'jose';
import { exportJWK, generateKeyPair, SignJWT } from 'jose';
import type { Answer } from '../../functions/api/call.ts';
import type { Answered, Gateway } from './gateway.ts';
import { openGateway } from './gateway.ts';

export const ISSUER = 'https://identity.northfold.example/';
export const AUDIENCE = 'castoff';

export interface Said {
  readonly key?: CryptoKey;
  readonly issuer?: string;
  readonly audience?: string;
  readonly from?: string;
  readonly until?: string;
}

export interface Callers {
  readonly gateway: Gateway;
  readonly keys: { readonly publicKey: CryptoKey; readonly privateKey: CryptoKey };
  sign(claims: JWTPayload, said?: Said): Promise<string>;
  tokenOf(studio: unknown): Promise<string>;
  /** As the designer Ada, or for another studio. */
  ask(request: string, studio?: string, body?: string): Promise<Answered>;
}

export async function openCallers(): Promise<Callers> {
  const keys = await generateKeyPair('RS256', { extractable: true });
  const known = { ...(await exportJWK(keys.publicKey)), kid: 'k1', alg: 'RS256' };
  const { handler } = (await import('../../functions/api/handler.ts')) as {
    handler: (event: unknown) => Promise<Answer>;
  };
  const serve = (event: unknown) => handler(event);
  const gateway = openGateway(serve, {
    issuer: ISSUER,
    audience: AUDIENCE,
    keys: { keys: [known] },
  });
  const sign: Callers['sign'] = (claims, said = {}) =>
    new SignJWT(claims)
      .setProtectedHeader({ alg: 'RS256', kid: 'k1' })
      .setIssuer(said.issuer ?? ISSUER)
      .setAudience(said.audience ?? AUDIENCE)
      .setIssuedAt()
      .setNotBefore(said.from ?? '-1 minute')
      .setExpirationTime(said.until ?? '5 minutes')
      .sign(said.key ?? keys.privateKey);
  const tokenOf = (studio: unknown) => sign({ sub: 'someone', studio });
  return {
    gateway,
    keys,
    sign,
    tokenOf,
    ask: async (request, studio = 'ada', body) =>
      gateway.ask(request, { token: await tokenOf(studio), ...(body !== undefined && { body }) }),
  };
}
