import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Match, Template } from 'aws-cdk-lib/assertions';
import { beforeAll, describe, expect, it } from 'vitest';
import { buildApp } from '../../infra/app.ts';
import { FUNCTIONS } from '../../infra/functions.ts';
import { readDefinition } from '../../src/pipeline/machine/definition.ts';
import { STEP_NAMES } from '../../src/pipeline/run-step.ts';
import definition from '../../src/pipeline/pipeline.asl.json' with { type: 'json' };
import many from '../../src/pipeline/many.asl.json' with { type: 'json' };
import tidy from '../../src/pipeline/tidy.asl.json' with { type: 'json' };
import openapi from '../../functions/api/openapi.json' with { type: 'json' };
import { ROUTES } from '../../functions/api/handler.ts';
import { ADDRESSES } from '../../functions/pages/addresses.ts';
import { Fault } from '../../src/base/fault.ts';

type Properties = Readonly<Record<string, unknown>>;
type Resources = Readonly<Record<string, { readonly Properties: Properties }>>;

let template: Template;
/** Synthesised without network, account or keys; a broken rule of either pack throws here. */
function synthesise(told: Readonly<Record<string, string>>): Template {
  const folder = mkdtempSync(join(tmpdir(), 'castoff-synth-'));
  const { templateFullPath } = buildApp('functions', folder, told)
    .synth()
    .getStackByName('Castoff');
  return Template.fromJSON(
    JSON.parse(readFileSync(templateFullPath, 'utf8')) as Record<string, unknown>,
  );
}
const ISSUER = 'https://identity.northfold.example/';
beforeAll(() => {
  template = synthesise({
    issuer: ISSUER,
    audience: 'castoff,castoff-desk',
    client: 'castoff-desk',
    operators: 'operators@northfold.example',
    budget: '75',
  });
});

const found = (type: string): Properties[] =>
  Object.values(template.findResources(type) as Resources).map(({ Properties: each }) => each);

describe('the buckets', () => {
  it('of drafts and releases let a page of ours fetch what it holds an address of, and no other', () => {
    const open = found('AWS::S3::Bucket').flatMap((bucket) => {
      const rules = bucket['CorsConfiguration'] as { readonly CorsRules: unknown[] } | undefined;
      return rules?.CorsRules ?? [];
    });
    const rule = {
      AllowedMethods: ['GET'],
      AllowedOrigins: [{ 'Fn::GetAtt': [expect.anything(), 'ApiEndpoint'] }],
      MaxAge: 3600,
    };
    expect(open).toEqual([rule, rule]);
    const bare = synthesise({ issuer: ISSUER, audience: 'castoff' });
    bare.allResourcesProperties('AWS::S3::Bucket', { CorsConfiguration: Match.absent() });
  });

  it('are private, encrypted, versioned, owned by us, and cleared of what was left half', () => {
    const buckets = found('AWS::S3::Bucket');
    expect(buckets).toHaveLength(5);
    for (const bucket of buckets) {
      expect(bucket).toMatchObject({
        BucketEncryption: {
          ServerSideEncryptionConfiguration: [
            { ServerSideEncryptionByDefault: { SSEAlgorithm: 'AES256' } },
          ],
        },
        OwnershipControls: { Rules: [{ ObjectOwnership: 'BucketOwnerEnforced' }] },
        PublicAccessBlockConfiguration: {
          BlockPublicAcls: true,
          BlockPublicPolicy: true,
          IgnorePublicAcls: true,
          RestrictPublicBuckets: true,
        },
        VersioningConfiguration: { Status: 'Enabled' },
      });
      expect(bucket['LifecycleConfiguration']).toBeDefined();
    }
  });

  it('answer over TLS only, of 1.2 at least', () => {
    for (const policy of found('AWS::S3::BucketPolicy')) {
      expect(JSON.stringify(policy)).toContain('"aws:SecureTransport":"false"');
      expect(JSON.stringify(policy)).toContain('"s3:TlsVersion":1.2');
    }
  });

  it('keep releases, whatever is deleted in CloudFormation', () => {
    template.allResources('AWS::S3::Bucket', { DeletionPolicy: 'Retain' });
    const expiring = found('AWS::S3::Bucket').filter((bucket) =>
      JSON.stringify(bucket).includes('"ExpirationInDays"'),
    );
    expect(expiring).toHaveLength(3);
  });
});

const machineThatRuns = (wanted: { readonly Comment: string }): Properties | undefined =>
  found('AWS::StepFunctions::StateMachine').find((each) =>
    JSON.stringify(each['DefinitionString']).includes(wanted.Comment),
  );
/** Names that a definition leaves to the deployment. */
const leftOpen = (text: unknown): ReadonlySet<string | undefined> =>
  new Set([...JSON.stringify(text).matchAll(/\$\{(\w+)\}/g)].map(([, name]) => name));

describe('the state machine', () => {
  it('is the file that the laptop runs, with the functions put in', () => {
    const machine = machineThatRuns(definition);
    expect(machine).toMatchObject({
      StateMachineType: 'STANDARD',
      TracingConfiguration: { Enabled: true },
      LoggingConfiguration: { Level: 'ALL', IncludeExecutionData: false },
    });
    const text = machine?.['DefinitionString'];
    const deployed = readDefinition(JSON.parse(String(text)));
    expect(deployed).toEqual(readDefinition(definition));
    const given = Object.keys(machine?.['DefinitionSubstitutions'] as Properties).sort();
    expect(given).toEqual(STEP_NAMES.toSorted());
    expect(leftOpen(definition)).toEqual(new Set(given));
  });

  it.each([
    ['of batches', many],
    ['of the daily tidying', tidy],
  ])('%s is the file that the tests run, with everything put in', (_title, file) => {
    const machine = machineThatRuns(file);
    expect(readDefinition(JSON.parse(String(machine?.['DefinitionString'])))).toEqual(
      readDefinition(file),
    );
    const given = Object.keys(machine?.['DefinitionSubstitutions'] as Properties);
    expect(new Set(given)).toEqual(leftOpen(file));
  });

  it('gives every function less time than its state', () => {
    const seconds = new Map(FUNCTIONS.map((plan) => [plan.name as string, plan.timeoutSeconds]));
    const tasks = [definition, many, tidy]
      .flatMap((file) => Object.values(readDefinition(file).States))
      .flatMap((state) =>
        state.Type === 'Map' ? Object.values(state.ItemProcessor.States) : [state],
      )
      .flatMap((state) => (state.Type === 'Task' ? [state] : []))
      .filter(({ Resource }) => Resource.startsWith('$'));
    const names = tasks.map(({ Resource }) => Resource.slice(2, -1));
    expect(new Set(names)).toEqual(new Set([...STEP_NAMES, 'plan', 'studios', 'tidy']));
    for (const { Resource, TimeoutSeconds } of tasks) {
      expect(seconds.get(Resource.slice(2, -1))).toBeLessThan(TimeoutSeconds);
    }
  });
});

describe('an upload', () => {
  it('starts the starter, is tried for a day, and is never lost', () => {
    template.hasResourceProperties('AWS::S3::Bucket', {
      NotificationConfiguration: { EventBridgeConfiguration: { EventBridgeEnabled: true } },
    });
    template.hasResourceProperties('AWS::Events::Rule', {
      EventPattern: {
        source: ['aws.s3'],
        'detail-type': ['Object Created'],
        detail: {
          bucket: { name: [{ Ref: Match.stringLikeRegexp('Uploads') }] },
          object: { key: [{ suffix: { 'equals-ignore-case': '.zip' } }] },
        },
      },
      Targets: [
        Match.objectLike({
          Arn: { 'Fn::GetAtt': [Match.stringLikeRegexp('Starter'), 'Arn'] },
          DeadLetterConfig: { Arn: Match.anyValue() },
          RetryPolicy: { MaximumEventAgeInSeconds: 86_400, MaximumRetryAttempts: 185 },
        }),
      ],
    });
    template.hasResourceProperties('AWS::Lambda::EventInvokeConfig', {
      DestinationConfig: { OnFailure: { Destination: Match.anyValue() } },
      MaximumRetryAttempts: 2,
    });
  });

  it('that is released starts nothing: releases and the shelf go to buckets that tell nobody', () => {
    const buckets = Object.entries(template.findResources('AWS::S3::Bucket') as Resources);
    const telling = buckets.filter(([, { Properties: each }]) => each['NotificationConfiguration']);
    expect(telling.map(([id]) => plainId(id)).sort()).toEqual(['Uploads', 'Work']);
  });
});

describe('an order of a zip', () => {
  it('has it made; a zip that was made orders nothing', () => {
    template.hasResourceProperties('AWS::Events::Rule', {
      EventPattern: {
        source: ['aws.s3'],
        'detail-type': ['Object Created'],
        detail: {
          bucket: { name: [{ Ref: Match.stringLikeRegexp('Work') }] },
          object: { key: [{ wildcard: '*/zips/*.json' }] },
        },
      },
      Targets: [
        Match.objectLike({
          Arn: { 'Fn::GetAtt': [Match.stringLikeRegexp('Zip'), 'Arn'] },
          DeadLetterConfig: { Arn: Match.anyValue() },
        }),
      ],
    });
  });
});

interface Statement {
  readonly Action: string | readonly string[];
  readonly Resource: unknown;
  readonly Effect: string;
}

/** `Action resource` of every statement of a role, with logical ids made short. */
function permissionsOf(roleId: string): readonly string[] {
  const policies = found('AWS::IAM::Policy').filter((policy) =>
    JSON.stringify(policy['Roles']).includes(`"${roleId}"`),
  );
  const statements = policies.flatMap(
    (policy) =>
      (policy['PolicyDocument'] as { readonly Statement: readonly Statement[] }).Statement,
  );
  return statements
    .flatMap(({ Action, Resource, Effect }) =>
      [Action].flat().flatMap((action) =>
        (Array.isArray(Resource) ? Resource : [Resource]).map((each) => {
          expect(Effect).toBe('Allow');
          return `${action} ${shortName(each)}`;
        }),
      ),
    )
    .sort();
}

function shortName(resource: unknown): string {
  if (typeof resource === 'string') return resource;
  const record = resource as {
    'Fn::Join'?: [string, unknown[]];
    'Fn::GetAtt'?: string[];
    Ref?: string;
  };
  if (record['Fn::Join']) return record['Fn::Join'][1].map(shortName).join('');
  const id = record['Fn::GetAtt']?.[0] ?? record.Ref ?? '';
  return plainId(id);
}

const plainId = (id: string): string =>
  id
    .replace(/^(Storage|Steps|Machine|Batches|Tidying|Topics)(?=[A-Z])/, '')
    .replace(/[0-9A-F]{8}$/, '');

describe('each function', () => {
  it('runs on the newest Node of Lambda, on ARM, with a log that ends', () => {
    const functions = found('AWS::Lambda::Function');
    expect(functions).toHaveLength(FUNCTIONS.length);
    for (const each of functions) {
      expect(each).toMatchObject({
        Runtime: 'nodejs24.x',
        Architectures: ['arm64'],
        TracingConfig: { Mode: 'Active' },
      });
      expect(each['LoggingConfig']).toBeDefined();
    }
    template.allResourcesProperties('AWS::Logs::LogGroup', { RetentionInDays: 30 });
  });

  it('has a role of its own with no managed policy', () => {
    const roles = found('AWS::IAM::Role');
    expect(roles.filter((role) => role['ManagedPolicyArns'])).toEqual([]);
    const used = found('AWS::Lambda::Function').map((each) => JSON.stringify(each['Role']));
    expect(new Set(used).size).toBe(FUNCTIONS.length);
  });

  it('may do what is written down for it and nothing else', async () => {
    const roles = Object.keys(template.findResources('AWS::IAM::Role')).sort();
    const written = roles.map((role) => {
      const rights = permissionsOf(role).map((each) => `  ${each}\n`);
      return `${plainId(role).replace(/Role$/, '')}\n${rights.join('')}`;
    });
    await expect(written.join('\n')).toMatchFileSnapshot('../golden/infra/permissions.txt');
  });

  it('writes nothing outside the rooms of studios', () => {
    for (const policy of found('AWS::IAM::Policy')) {
      const text = JSON.stringify(policy['PolicyDocument']);
      for (const [, prefix] of text.matchAll(/"\]\},"(\/[^"]*)"/g)) {
        if (/^\/(\*\/|batches\/\*|\*:\*)/.test(prefix ?? '')) continue;
        expect(prefix, text).toBe('/*/*');
      }
    }
  });

  it('may delete nothing, but for the tidying, and that no manifest, and marks of what was put away', () => {
    const roles = Object.keys(template.findResources('AWS::IAM::Role'));
    const deleting = roles.flatMap((role) =>
      permissionsOf(role)
        .filter((each) => /s3:(Delete|\*)/.test(each))
        .map((each) => `${plainId(role)} ${each}`),
    );
    expect(deleting).toEqual([
      'TidyRole s3:DeleteObject Releases/*/artifacts/*',
      'TidyRole s3:DeleteObject Releases/*/recipes/*',
      'TidyRole s3:DeleteObject Releases/*/tidy/*',
      'ApiRole s3:DeleteObject Shelf/*/away/*',
    ]);
  });

  it('is called by what its entry says and by nothing else', () => {
    const called = (machine: string) => {
      const role = Object.keys(template.findResources('AWS::IAM::Role')).find((id) =>
        plainId(id).startsWith(machine),
      );
      return permissionsOf(role ?? '').filter((each) => each.startsWith('lambda:'));
    };
    const planned = (caller: string) =>
      FUNCTIONS.filter(({ calledBy }) => calledBy === caller)
        .map(({ name }) => `lambda:InvokeFunction ${name.charAt(0).toUpperCase()}${name.slice(1)}`)
        .sort();
    expect(called('PublishRole')).toEqual(planned('publishing'));
    expect(called('PublishManyRole')).toEqual(planned('batches'));
    expect(called('TidyAllRole')).toEqual(planned('tidying'));
    const permissions = found('AWS::Lambda::Permission');
    const callers = permissions.map(({ Principal }) => Principal);
    expect(new Set(callers)).toEqual(new Set(['apigateway.amazonaws.com', 'events.amazonaws.com']));
    // An upload calls the starter, an order the maker of zips.
    expect(callers.filter((each) => each === 'events.amazonaws.com')).toHaveLength(2);
    for (const permission of permissions) expect(permission['SourceArn']).toBeDefined();
  });
});

describe('the API', () => {
  const routes = Object.entries(openapi.paths).flatMap(([path, operations]) =>
    Object.keys(operations).map((method) => `${method.toUpperCase()} ${path}`),
  );

  it('has the routes of its document, each behind the authoriser', () => {
    const deployed = found('AWS::ApiGatewayV2::Route');
    const keysOf = (type: string) =>
      deployed
        .filter(({ AuthorizationType }) => AuthorizationType === type)
        .map(({ RouteKey }) => String(RouteKey))
        .sort();
    expect(keysOf('JWT')).toEqual(routes.toSorted());
    for (const route of deployed.filter(({ AuthorizationType }) => AuthorizationType === 'JWT'))
      expect(route).toMatchObject({ AuthorizerId: expect.anything() });
    expect(keysOf('NONE')).toEqual([...ADDRESSES].sort());
    expect(deployed).toHaveLength(routes.length + ADDRESSES.length);
    expect(Object.keys(ROUTES).sort()).toEqual(routes.toSorted());
  });

  it('asks for tokens of the issuer, for the audience, and for nothing else', () => {
    template.hasResourceProperties('AWS::ApiGatewayV2::Authorizer', {
      AuthorizerType: 'JWT',
      IdentitySource: ['$request.header.Authorization'],
      JwtConfiguration: { Issuer: ISSUER, Audience: ['castoff', 'castoff-desk'] },
    });
    template.resourceCountIs('AWS::ApiGatewayV2::Authorizer', 1);
  });

  it('is slowed before it is overrun, and writes down who was refused but not what was asked', () => {
    const [stage] = found('AWS::ApiGatewayV2::Stage');
    expect(stage).toMatchObject({
      DefaultRouteSettings: { ThrottlingRateLimit: 50, ThrottlingBurstLimit: 100 },
    });
    expect(JSON.stringify(stage?.['AccessLogSettings'])).not.toMatch(/path|sourceIp|identity/);
  });

  it('cannot be starved by a flood at the sign-in: every route has bounds of its own', () => {
    const [stage] = Object.values(
      template.findResources('AWS::ApiGatewayV2::Stage') as Readonly<
        Record<string, { readonly Properties: Properties; readonly DependsOn: readonly string[] }>
      >,
    );
    const bounds = stage?.Properties['RouteSettings'] as Readonly<Record<string, object>>;
    const signIn = ADDRESSES.filter((each) => each.includes('/sign-'));
    expect(signIn).toEqual(['GET /sign-in', 'GET /sign-in/back']);
    expect(Object.keys(bounds).sort()).toEqual([...routes, ...signIn].sort());
    for (const route of routes)
      expect(bounds[route]).toEqual({ ThrottlingRateLimit: 50, ThrottlingBurstLimit: 100 });
    for (const route of signIn)
      expect(bounds[route]).toEqual({ ThrottlingRateLimit: 5, ThrottlingBurstLimit: 20 });
    // CloudFormation refuses a stage that names a route which is not there yet.
    const bounded = Object.entries(template.findResources('AWS::ApiGatewayV2::Route') as Resources)
      .filter(([, { Properties: route }]) => Object.hasOwn(bounds, String(route['RouteKey'])))
      .map(([id]) => id);
    expect(bounded).toHaveLength(routes.length + signIn.length);
    expect(stage?.DependsOn).toEqual(expect.arrayContaining(bounded));
  });

  it('is not there where nobody issues tokens', () => {
    const bare = synthesise({});
    bare.resourceCountIs('AWS::ApiGatewayV2::Api', 0);
    bare.resourceCountIs('AWS::StepFunctions::StateMachine', 3);
  });

  it('has pages only where people can sign in, and they know where they are', () => {
    const pages = found('AWS::Lambda::Function').find((each) =>
      JSON.stringify(each['Environment']).includes('DESK_CLIENT'),
    );
    expect(pages).toMatchObject({
      Environment: {
        Variables: {
          TOKEN_ISSUER: ISSUER,
          DESK_CLIENT: 'castoff-desk',
          STORE_ORIGINS: {
            'Fn::Join': [
              '',
              ['Uploads', 'Work', 'Releases'].flatMap((bucket, at) => [
                at === 0 ? 'https://' : ' https://',
                {
                  'Fn::GetAtt': [
                    expect.stringMatching(`^Storage${bucket}`) as string,
                    'RegionalDomainName',
                  ],
                },
              ]),
            ],
          },
          DESK_ADDRESS: { 'Fn::GetAtt': [expect.anything(), 'ApiEndpoint'] },
        },
      },
    });
    const bare = synthesise({ issuer: ISSUER, audience: 'castoff' });
    const routesOf = Object.values(bare.findResources('AWS::ApiGatewayV2::Route') as Resources);
    expect(routesOf).toHaveLength(routes.length);
  });

  it('gives its pages no right to anything that is kept', () => {
    const [role = ''] = Object.keys(template.findResources('AWS::IAM::Role')).filter(
      (each) => plainId(each) === 'PagesRole',
    );
    expect(permissionsOf(role).map((each) => each.replace(/ .*/, ''))).toEqual([
      'logs:CreateLogStream',
      'logs:PutLogEvents',
      'xray:PutTelemetryRecords',
      'xray:PutTraceSegments',
    ]);
  });

  it.each([
    { issuer: ISSUER },
    { audience: 'castoff' },
    { budget: 'much' },
    { issuer: 'http://identity.northfold.example/', audience: 'castoff' },
    { issuer: ISSUER, audience: 'castoff', client: 'castoff-desk' },
    { client: 'castoff-desk' },
  ])('is refused half described: %j', (told) => {
    expect(() => synthesise(told)).toThrow(Fault);
  });
});

describe('what is due', () => {
  it('is tidied every day', () => {
    template.hasResourceProperties('AWS::Events::Rule', {
      ScheduleExpression: 'cron(17 3 * * ? *)',
      Targets: [Match.objectLike({ Input: '{}', DeadLetterConfig: Match.anyValue() })],
    });
  });

  it('is watched by a budget that tells the operators', () => {
    template.hasResourceProperties('AWS::Budgets::Budget', {
      Budget: { BudgetLimit: { Amount: 75, Unit: 'USD' }, TimeUnit: 'MONTHLY' },
    });
  });

  it('stands on one page', () => {
    const [board] = found('AWS::CloudWatch::Dashboard');
    const text = JSON.stringify(board?.['DashboardBody']);
    for (const name of ['RunsReleased', 'DocumentsMade', 'ExecutionsTimedOut', '5xx', 'Duration'])
      expect(text).toContain(name);
  });
});

describe('a person is woken', () => {
  it('by failed, late and throttled runs, lost uploads and throttled functions', () => {
    const alarms = found('AWS::CloudWatch::Alarm');
    const described = alarms.map((alarm) => alarm['AlarmDescription']);
    expect(described).toEqual(
      expect.arrayContaining([
        'A run failed',
        'A run took too long',
        'Runs are throttled',
        'An upload could not be started',
        'An upload or an order was given up',
        'The compose function is throttled',
        'A studio could not be tidied',
        'The API answers with errors',
      ]),
    );
    expect(alarms).toHaveLength(8 + FUNCTIONS.length);
    for (const alarm of alarms) expect(alarm['AlarmActions']).toHaveLength(1);
  });

  it('because CloudWatch and the budget may encrypt for the topic and publish to it', () => {
    const own = { 'aws:SourceAccount': { Ref: 'AWS::AccountId' } };
    const allowed = (action: unknown) =>
      Match.objectLike({
        Effect: 'Allow',
        Principal: { Service: ['budgets.amazonaws.com', 'cloudwatch.amazonaws.com'] },
        Action: action,
        Condition: { StringEquals: own },
      });
    template.hasResourceProperties('AWS::SNS::TopicPolicy', {
      PolicyDocument: { Statement: Match.arrayWith([allowed('sns:Publish')]) },
    });
    const keyActions = ['kms:Decrypt', 'kms:Encrypt', 'kms:GenerateDataKey*', 'kms:ReEncrypt*'];
    template.hasResourceProperties('AWS::KMS::Key', {
      EnableKeyRotation: true,
      KeyPolicy: { Statement: Match.arrayWith([allowed(keyActions)]) },
    });
  });
});
