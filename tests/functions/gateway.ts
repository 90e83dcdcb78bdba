/**
 * API Gateway in this process, as far as our API needs it: routes from the OpenAPI document, tokens checked
 * as its JWT authoriser does ("Control access to HTTP APIs with JWT authorizers", Developer Guide) by the
 * jose library, and the request handed on in payload format 2.0. Every answer of ours is held against the
 * document.
 */
import { Ajv2020 } from 'ajv/dist/2020.js';
import { createLocalJWKSet, type JSONWebKeySet, jwtVerify } from 'jose';
import { expect } from 'vitest';
import openapi from '../../functions/api/openapi.json' with { type: 'json' };
import type { Answer } from '../../functions/api/call.ts';

export interface Asked {
  readonly token?: string | undefined;
  readonly body?: string;
}

export interface Answered {
  readonly status: number;
  readonly value: unknown;
}

export interface Gateway {
  /** `GET /runs/r1?x=y` */
  ask(request: string, asked?: Asked): Promise<Answered>;
}

export interface Issuer {
  readonly issuer: string;
  readonly audience: string;
  readonly keys: JSONWebKeySet;
}

type Serve = (event: unknown) => Promise<Answer>;

export interface Operation {
  readonly operationId: string;
  readonly responses: Readonly<Record<string, unknown>>;
}

/** Routes of the document: `GET /runs/{run}` with a pattern for its path. */
export const OPERATIONS = Object.entries(openapi.paths).flatMap(([path, operations]) =>
  Object.entries(operations as Record<string, Operation>).map(([method, operation]) => ({
    route: `${method.toUpperCase()} ${path}`,
    method: method.toUpperCase(),
    names: [...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => name ?? ''),
    pattern: new RegExp(`^${path.replaceAll(/\{\w+\}/g, '([^/]+)')}$`),
    operation,
  })),
);

export function openGateway(serve: Serve, { issuer, audience, keys }: Issuer): Gateway {
  const keySet = createLocalJWKSet(keys);
  const judge = answerJudge();

  const claimsOf = async (token: string | undefined): Promise<object | undefined> => {
    if (token === undefined) return undefined;
    // Only RSA keys are supported there.
    const algorithms = ['RS256', 'RS384', 'RS512'];
    const requiredClaims = ['exp', 'iss', 'aud'];
    const checked = await jwtVerify(token, keySet, {
      issuer,
      audience,
      algorithms,
      requiredClaims,
    }).catch(() => undefined);
    return checked?.payload;
  };

  return {
    async ask(request, { token, body } = {}) {
      const [method = '', address = ''] = request.split(' ');
      const url = new URL(address, 'https://api.example');
      const found = OPERATIONS.find(
        (each) => each.method === method && each.pattern.test(url.pathname),
      );
      if (found === undefined) return { status: 404, value: { message: 'Not Found' } };
      const claims = await claimsOf(token);
      if (claims === undefined) return { status: 401, value: { message: 'Unauthorized' } };
      const values = found.pattern.exec(url.pathname)?.slice(1) ?? [];
      const pathParameters = Object.fromEntries(
        found.names.map((name, each) => [name, decodeURIComponent(values[each] ?? '')]),
      );
      const answer = await serve({
        version: '2.0',
        routeKey: found.route,
        ...(values.length > 0 && { pathParameters }),
        ...(url.search !== '' && {
          queryStringParameters: Object.fromEntries(url.searchParams),
        }),
        ...(body !== undefined && { body, isBase64Encoded: false }),
        requestContext: { authorizer: { jwt: { claims, scopes: null } } },
      });
      const status = answer.statusCode ?? 200;
      const value = JSON.parse(answer.body ?? 'null') as unknown;
      judge(found.operation, status, value);
      return { status, value };
    },
  };
}

/** Fails the test where an answer is not what the document says of that operation and status. */
export function answerJudge(): (operation: Operation, status: number, value: unknown) => void {
  const ajv = new Ajv2020({ strict: false, allErrors: true });
  for (const format of ['uuid', 'uri', 'uri-reference', 'date-time']) ajv.addFormat(format, true);
  ajv.addSchema({ $id: 'https://api.example/openapi', ...openapi });
  return (operation, status, value) => {
    const said = operation.responses[String(status)];
    expect(said, `${operation.operationId} says nothing of ${status}`).toBeDefined();
    const check = ajv.compile({ $ref: `https://api.example/openapi#${pointerTo(said)}` });
    expect(check(value), JSON.stringify([check.errors, value])).toBe(true);
  };
}

/** Where the schema of a response stands in the document. */
function pointerTo(response: unknown): string {
  const { $ref } = response as { readonly $ref?: string };
  const name = $ref?.split('/').at(-1);
  const shared = openapi.components.responses as Readonly<Record<string, unknown>>;
  const { content } = (name === undefined ? response : shared[name]) as {
    readonly content: Readonly<Record<string, { readonly schema: { readonly $ref: string } }>>;
  };
  return Object.values(content)[0]?.schema.$ref.slice(1) ?? '';
}
