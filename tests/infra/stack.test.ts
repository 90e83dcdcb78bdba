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

type Properties = Readonly<Record<string, unknown>>;
type Resources = Readonly<Record<string, { readonly Properties: Properties }>>;

let template: Template;
/** Synthesised once, without network, account or keys; a broken rule of either pack throws here. */
beforeAll(() => {
  const folder = mkdtempSync(join(tmpdir(), 'castoff-synth-'));
  const assembly = buildApp('functions', folder).synth();
  template = Template.fromJSON(
    JSON.parse(readFileSync(assembly.getStackByName('Castoff').templateFullPath, 'utf8')) as Record<
      string,
      unknown
    >,
  );
});

const found = (type: string): Properties[] =>
  Object.values(template.findResources(type) as Resources).map(({ Properties: each }) => each);

describe('the buckets', () => {
  it('are private, encrypted, versioned, owned by us, and cleared of what was left half', () => {
    const buckets = found('AWS::S3::Bucket');
    expect(buckets).toHaveLength(4);
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

describe('the state machine', () => {
  it('is the file that the laptop runs, with the functions put in', () => {
    const [machine] = found('AWS::StepFunctions::StateMachine');
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
    const used = [...JSON.stringify(definition).matchAll(/\$\{(\w+)\}/g)].map(([, name]) => name);
    expect(new Set(used)).toEqual(new Set(given));
  });

  it('gives every function less time than its state', () => {
    const seconds = new Map(FUNCTIONS.map((plan) => [plan.name as string, plan.timeoutSeconds]));
    const states = Object.values(definition.States).flatMap((state) =>
      'ItemProcessor' in state ? Object.values(state.ItemProcessor.States) : [state],
    );
    const tasks = states.filter((state) => 'Resource' in state);
    expect(tasks).toHaveLength(STEP_NAMES.length);
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

  it('that is released starts nothing: outputs go to buckets that tell nobody', () => {
    const telling = found('AWS::S3::Bucket').filter((each) => each['NotificationConfiguration']);
    expect(telling).toHaveLength(1);
  });
});

/** `Action resource` of every statement, with logical ids made short. */
function permissionsOf(roleName: string): readonly string[] {
  const policies = Object.values(template.findResources('AWS::IAM::Policy') as Resources);
  const own = policies.filter(({ Properties: each }) =>
    JSON.stringify(each['Roles']).includes(roleName),
  );
  const statements = own.flatMap(
    ({ Properties: each }) =>
      (
        each['PolicyDocument'] as {
          Statement: { Action: string | string[]; Resource: unknown; Effect: string }[];
        }
      ).Statement,
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
  return id.replace(/^(Storage|Steps|Machine)/, '').replace(/[0-9A-F]{8}$/, '');
}

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

  const ordinary = (log: string) => [
    `logs:CreateLogStream ${log}`,
    `logs:PutLogEvents ${log}`,
    'xray:PutTelemetryRecords *',
    'xray:PutTraceSegments *',
  ];

  it.each<[string, readonly string[]]>([
    [
      'Starter',
      [
        's3:GetObject Uploads/*',
        's3:GetObjectVersion Uploads/*',
        'sqs:GetQueueAttributes DeadLetters',
        'sqs:GetQueueUrl DeadLetters',
        'sqs:SendMessage DeadLetters',
        'states:StartExecution Publish',
      ],
    ],
    [
      'Intake',
      [
        's3:GetObject Uploads/*',
        's3:GetObjectVersion Uploads/*',
        's3:PutObject Work/bundles/*',
        's3:PutObject Work/photos/*',
        's3:PutObject Work/runs/*',
      ],
    ],
    [
      'Check',
      [
        's3:GetObject Releases/releases/*',
        's3:GetObject Work/bundles/*',
        's3:GetObject Work/runs/*',
        's3:ListBucket Releases',
        's3:ListBucket Work',
        's3:PutObject Work/runs/*',
      ],
    ],
    [
      'Pictures',
      [
        's3:GetObject Releases/artifacts/*',
        's3:GetObject Releases/recipes/*',
        's3:GetObject Releases/tidy/*',
        's3:GetObject Work/bundles/*',
        's3:GetObject Work/photos/*',
        's3:ListBucket Releases',
        's3:PutObject Releases/artifacts/*',
        's3:PutObject Releases/recipes/*',
        's3:PutObject Releases/tidy/*',
        's3:PutObject Work/runs/*',
      ],
    ],
    [
      'Compose',
      [
        's3:GetObject Releases/artifacts/*',
        's3:GetObject Releases/recipes/*',
        's3:GetObject Releases/tidy/*',
        's3:GetObject Work/bundles/*',
        's3:GetObject Work/runs/*',
        's3:ListBucket Releases',
        's3:PutObject Releases/artifacts/*',
        's3:PutObject Releases/recipes/*',
        's3:PutObject Releases/tidy/*',
      ],
    ],
    [
      'Proof',
      [
        's3:GetObject Releases/artifacts/*',
        's3:GetObject Work/bundles/*',
        's3:GetObject Work/runs/*',
        's3:PutObject Work/runs/*',
      ],
    ],
    [
      'Stage',
      [
        's3:GetObject Releases/artifacts/*',
        's3:GetObject Releases/recipes/*',
        's3:GetObject Releases/tidy/*',
        's3:GetObject Releases/releases/*',
        's3:GetObject Work/bundles/*',
        's3:GetObject Work/runs/*',
        's3:ListBucket Releases',
        's3:ListBucket Work',
        's3:PutObject Releases/artifacts/*',
        's3:PutObject Releases/recipes/*',
        's3:PutObject Releases/tidy/*',
        's3:PutObject Releases/releases/*',
        's3:PutObject Work/runs/*',
      ],
    ],
    ['Failed', ['s3:PutObject Work/runs/*']],
  ])('%s may do this and nothing else', (name, permissions) => {
    expect(permissionsOf(`${name}Role`)).toEqual(
      [...permissions, ...ordinary(`${name}Log`)].sort(),
    );
  });

  it('may delete nothing', () => {
    expect(JSON.stringify(found('AWS::IAM::Policy'))).not.toMatch(/s3:(Delete|\*)/);
  });

  it('is called by the state machine and by nothing else but the starter’s rule', () => {
    const invoking = permissionsOf('MachinePublishRole').filter((each) =>
      each.startsWith('lambda:'),
    );
    const names = FUNCTIONS.filter(({ name }) => name !== 'starter').map(({ name }) => name);
    expect(invoking).toEqual(
      names
        .map((name) => `lambda:InvokeFunction ${name.charAt(0).toUpperCase()}${name.slice(1)}`)
        .sort(),
    );
    template.resourceCountIs('AWS::Lambda::Permission', 1);
    template.hasResourceProperties('AWS::Lambda::Permission', {
      Principal: 'events.amazonaws.com',
    });
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
        'An upload was given up',
        'The compose function is throttled',
      ]),
    );
    expect(alarms).toHaveLength(5 + FUNCTIONS.length);
    for (const alarm of alarms) expect(alarm['AlarmActions']).toHaveLength(1);
  });

  it('because CloudWatch may encrypt for the topic and publish to it', () => {
    const own = { 'aws:SourceAccount': { Ref: 'AWS::AccountId' } };
    const allowed = (action: unknown) =>
      Match.objectLike({
        Effect: 'Allow',
        Principal: { Service: 'cloudwatch.amazonaws.com' },
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
