/**
 * One function per step, each with a role of its own that holds exactly the rights of its entry in the
 * table, and a log that is kept a month. Takes the buckets, gives the functions by name.
 */
import path from 'node:path';
import { Duration, RemovalPolicy } from 'aws-cdk-lib';
import { PolicyStatement, Role, ServicePrincipal } from 'aws-cdk-lib/aws-iam';
import { Architecture, Code, Function as Lambda, Runtime, Tracing } from 'aws-cdk-lib/aws-lambda';
import { SqsDestination } from 'aws-cdk-lib/aws-lambda-destinations';
import { LogGroup, RetentionDays } from 'aws-cdk-lib/aws-logs';
import type { Bucket } from 'aws-cdk-lib/aws-s3';
import { Queue, QueueEncryption } from 'aws-cdk-lib/aws-sqs';
import { Construct } from 'constructs';
import { present } from '../src/base/assert.ts';
import {
  acknowledge,
  acknowledgePrefixes,
  CALLED_AND_WAITED_FOR,
  HAS_DESTINATION,
  IS_THE_LAST_QUEUE,
  TRACING_ANYWHERE,
} from './acknowledge.ts';
import type { BucketName, Caller, FunctionPlan, Right } from './functions.ts';
import { FUNCTIONS } from './functions.ts';
import type { Topics } from './topics.ts';

export interface StepsProps {
  readonly buckets: Readonly<Record<BucketName, Bucket>>;
  readonly topics: Topics;
  /** Holds one folder per function, as `infra/build.ts` packs them. */
  readonly codeFolder: string;
}

export class Steps extends Construct {
  readonly functions: ReadonlyMap<FunctionPlan['name'], Lambda>;
  /** Uploads whose run could not be started, and orders nobody took up, for a person to look at. */
  readonly deadLetters: Queue;

  constructor(scope: Construct, id: string, props: StepsProps) {
    super(scope, id);
    this.deadLetters = new Queue(this, 'DeadLetters', {
      encryption: QueueEncryption.SQS_MANAGED,
      enforceSSL: true,
      retentionPeriod: Duration.days(14),
    });
    acknowledge(this.deadLetters, IS_THE_LAST_QUEUE);
    this.functions = new Map(FUNCTIONS.map((plan) => [plan.name, this.#step(plan, props)]));
  }

  /** The functions of one caller, with their names. */
  calledBy(caller: Caller): readonly (readonly [string, Lambda])[] {
    return FUNCTIONS.filter(({ calledBy }) => calledBy === caller).map(({ name }) => [
      name,
      this.get(name),
    ]);
  }

  get(name: FunctionPlan['name']): Lambda {
    return present(this.functions.get(name), `function ${name}`);
  }

  #step(plan: FunctionPlan, { buckets, topics, codeFolder }: StepsProps): Lambda {
    const id = plan.name.charAt(0).toUpperCase() + plan.name.slice(1);
    const role = new Role(this, `${id}Role`, {
      assumedBy: new ServicePrincipal('lambda.amazonaws.com'),
      description: `What the ${plan.name} function of Castoff may do`,
    });
    const logGroup = new LogGroup(this, `${id}Log`, {
      retention: RetentionDays.ONE_MONTH,
      removalPolicy: RemovalPolicy.DESTROY,
    });
    logGroup.grantWrite(role);
    for (const right of plan.rights) {
      role.addToPolicy(statementOf(right, buckets));
      acknowledgePrefixes(role, right, buckets[right.bucket]);
    }
    acknowledge(role, TRACING_ANYWHERE);
    const isCalledOnArrival = plan.calledBy === 'uploads' || plan.calledBy === 'orders';
    const step = new Lambda(this, id, {
      runtime: Runtime.NODEJS_24_X,
      architecture: Architecture.ARM_64,
      handler: 'handler.handler',
      code: Code.fromAsset(path.join(codeFolder, plan.name)),
      role,
      logGroup,
      tracing: Tracing.ACTIVE,
      memorySize: plan.memoryMegabytes,
      timeout: Duration.seconds(plan.timeoutSeconds),
      environment: {
        UPLOADS_BUCKET: buckets.uploads.bucketName,
        WORK_BUCKET: buckets.work.bucketName,
        RELEASES_BUCKET: buckets.releases.bucketName,
        SHELF_BUCKET: buckets.shelf.bucketName,
        NODE_OPTIONS: '--enable-source-maps',
        // Each thread of the image library else keeps freed memory of its own: 400 MB in place of 200.
        MALLOC_ARENA_MAX: '2',
      },
      ...(isCalledOnArrival && {
        onFailure: new SqsDestination(this.deadLetters),
        retryAttempts: 2,
      }),
    });
    acknowledge(step, isCalledOnArrival ? HAS_DESTINATION : CALLED_AND_WAITED_FOR);
    if (plan.tells) topics.letTell(step);
    return step;
  }
}

const ACTIONS: Readonly<Record<Right['allow'], readonly string[]>> = {
  read: ['s3:GetObject'],
  write: ['s3:PutObject'],
  see: ['s3:ListBucket'],
  delete: ['s3:DeleteObject'],
};

/** In the room of any studio: which one, the run decides, and the code by its name alone. */
export const keysUnder = (prefix: string): string => `*/${prefix}*`;

function statementOf(right: Right, buckets: StepsProps['buckets']): PolicyStatement {
  const bucket = buckets[right.bucket];
  const ofVersions =
    right.bucket === 'uploads' && right.allow === 'read' ? ['s3:GetObjectVersion'] : [];
  const resources =
    right.allow === 'see'
      ? [bucket.bucketArn]
      : present(right.under, 'prefixes').map((prefix) => bucket.arnForObjects(keysUnder(prefix)));
  return new PolicyStatement({ actions: [...ACTIONS[right.allow], ...ofVersions], resources });
}
