/**
 * The HTTP API: the routes of `functions/api/openapi.json`, every one behind the authoriser that checks the
 * caller's token before any code of ours runs; and the pages, which look at their own cookie, for the
 * authoriser reads a token from a header alone. Takes who issues the tokens; gives the address.
 */
import { RemovalPolicy } from 'aws-cdk-lib';
import { AccessLogFormat } from 'aws-cdk-lib/aws-apigateway';
import {
  type CfnRoute,
  type CfnStage,
  HttpApi,
  HttpMethod,
  HttpNoneAuthorizer,
  type HttpRoute,
  HttpStage,
  LogGroupLogDestination,
} from 'aws-cdk-lib/aws-apigatewayv2';
import { HttpJwtAuthorizer } from 'aws-cdk-lib/aws-apigatewayv2-authorizers';
import { HttpLambdaIntegration } from 'aws-cdk-lib/aws-apigatewayv2-integrations';
import type { Function as Lambda } from 'aws-cdk-lib/aws-lambda';
import { LogGroup, RetentionDays } from 'aws-cdk-lib/aws-logs';
import { Construct } from 'constructs';
import openapi from '../functions/api/openapi.json' with { type: 'json' };
import { ADDRESSES } from '../functions/pages/addresses.ts';
import { present } from '../src/base/assert.ts';
import { API_LIMITS, SIGN_IN_LIMITS } from '../src/base/limits.ts';
import { acknowledge, LOOKS_ITSELF } from './acknowledge.ts';
import type { Options } from './options.ts';

export class Gateway extends Construct {
  readonly api: HttpApi;
  readonly #stage: HttpStage;

  constructor(
    scope: Construct,
    id: string,
    served: Lambda,
    { issuer, audience }: NonNullable<Options['tokens']>,
  ) {
    super(scope, id);
    this.api = new HttpApi(this, 'Api', {
      description: openapi.info.summary,
      createDefaultStage: false,
      defaultAuthorizer: new HttpJwtAuthorizer('Token', issuer, { jwtAudience: [...audience] }),
    });
    const integration = new HttpLambdaIntegration('Serve', served);
    const routes = Object.entries(openapi.paths).flatMap(([path, operations]) => {
      const methods = Object.keys(operations).map(methodOf);
      return this.api.addRoutes({ path, methods, integration });
    });
    const log = new LogGroup(this, 'Log', {
      retention: RetentionDays.ONE_MONTH,
      removalPolicy: RemovalPolicy.DESTROY,
    });
    this.#stage = new HttpStage(this, 'Stage', {
      httpApi: this.api,
      autoDeploy: true,
      throttle: { rateLimit: API_LIMITS.requestsPerSecond, burstLimit: API_LIMITS.burst },
      accessLogSettings: { destination: new LogGroupLogDestination(log), format: LINE },
    });
    for (const route of routes) this.#bound(route, API_LIMITS);
  }

  /** The desk, at the same address. */
  addPages(served: Lambda): void {
    const integration = new HttpLambdaIntegration('Show', served);
    const authorizer = new HttpNoneAuthorizer();
    for (const address of ADDRESSES) {
      const [method = '', path = ''] = address.split(' ');
      const methods = [methodOf(method)];
      for (const route of this.api.addRoutes({ path, methods, integration, authorizer })) {
        acknowledge(route, LOOKS_ITSELF);
        if (SIGN_IN.test(path)) this.#bound(route, SIGN_IN_LIMITS);
      }
    }
  }

  /**
   * Bounds of a route's own, so that a flood at one uses up nothing of another's. What has none shares the
   * bounds of the stage: the pages.
   */
  #bound(route: HttpRoute, { requestsPerSecond, burst }: Bounds): void {
    const stage = this.#stage.node.defaultChild as CfnStage;
    stage.routeSettings = {
      ...(stage.routeSettings as Readonly<Record<string, object>> | undefined),
      [(route.node.defaultChild as CfnRoute).routeKey]: {
        ThrottlingRateLimit: requestsPerSecond,
        ThrottlingBurstLimit: burst,
      },
    };
    // The stage may name no route that is not there yet.
    this.#stage.node.addDependency(route);
  }
}

interface Bounds {
  readonly requestsPerSecond: number;
  readonly burst: number;
}

/** Anybody may come here: what has no token yet is bounded more closely than what has one. */
const SIGN_IN = /^\/sign-/;

/** Who asked for what by its route, never by the words in it. */
const LINE = AccessLogFormat.custom(
  JSON.stringify({
    at: '$context.requestTime',
    request: '$context.requestId',
    route: '$context.routeKey',
    status: '$context.status',
    milliseconds: '$context.responseLatency',
    refused: '$context.authorizer.error',
  }),
);

const methodOf = (name: string): HttpMethod =>
  present(
    Object.values(HttpMethod).find((each) => each === name.toUpperCase()),
    `method ${name}`,
  );
