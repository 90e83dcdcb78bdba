/**
 * Many bundles at once, from `src/pipeline/many.asl.json`: a Distributed Map that runs the publishing
 * machine once for each bundle below a prefix of the uploads, so many at a time. Started by hand with
 * `{"prefix": "northfold/batches/spring/"}`.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Stack } from 'aws-cdk-lib';
import { Policy, PolicyStatement } from 'aws-cdk-lib/aws-iam';
import type { Bucket } from 'aws-cdk-lib/aws-s3';
import { StateMachine } from 'aws-cdk-lib/aws-stepfunctions';
import { Construct } from 'constructs';
import { acknowledge, acknowledgeStar, nameOf, TRACING_ANYWHERE } from './acknowledge.ts';
import type { Machine } from './machine.ts';
import { acknowledgeRuns, machineProps, runsOf } from './machine.ts';
import type { Steps } from './steps.ts';
import type { Storage } from './storage.ts';

const DEFINITION = fileURLToPath(new URL('../src/pipeline/many.asl.json', import.meta.url));

export class Batches extends Construct {
  readonly stateMachine: StateMachine;

  constructor(
    scope: Construct,
    id: string,
    { stateMachine: publishing }: Machine,
    steps: Steps,
    { buckets }: Storage,
  ) {
    super(scope, id);
    const plan = steps.get('plan');
    this.stateMachine = new StateMachine(this, 'PublishMany', {
      ...machineProps(this, readFileSync(DEFINITION, 'utf8')),
      definitionSubstitutions: {
        plan: plan.functionArn,
        publish: publishing.stateMachineArn,
        uploads: buckets.uploads.bucketName,
        work: buckets.work.bucketName,
      },
    });
    const rights: readonly Grant[] = [
      [['lambda:InvokeFunction'], plan.functionArn],
      [['states:StartExecution'], publishing.stateMachineArn],
      [['states:DescribeExecution', 'states:StopExecution'], runsOf(publishing, ':*')],
      // How Step Functions learns of the end of a run that it waits for (Developer Guide).
      [['events:PutTargets', 'events:PutRule', 'events:DescribeRule'], this.#ruleOfEnds()],
      [['s3:ListBucket'], buckets.uploads.bucketArn],
      [['s3:PutObject'], buckets.work.arnForObjects('batches/*')],
    ];
    for (const grant of rights) this.stateMachine.addToRolePolicy(statementOf(grant));
    // A policy of its own: it names the machine, and the machine waits for the policy it was made with.
    const mapping = new Policy(this, 'Mapping', {
      statements: [
        statementOf([['states:StartExecution'], this.stateMachine.stateMachineArn]),
        statementOf([
          ['states:DescribeExecution', 'states:StopExecution'],
          runsOf(this.stateMachine, '/*:*'),
        ]),
      ],
    });
    mapping.attachToRole(this.stateMachine.role);
    acknowledge(this.stateMachine, TRACING_ANYWHERE);
    this.#acknowledgeStars(mapping, publishing, buckets.work);
  }

  #acknowledgeStars(mapping: Policy, publishing: StateMachine, work: Bucket): void {
    const reason =
      'A run that is waited for has no name yet; the star stands for runs of one machine.';
    acknowledgeRuns(this.stateMachine, publishing, ':*', { reason });
    acknowledgeRuns(mapping, this.stateMachine, '/*:*', { reason });
    acknowledgeStar(this.stateMachine, `<${nameOf(work)}.Arn>/batches/*`, {
      reason: 'What the runs of a batch gave is written there, under names that AWS chooses.',
    });
  }

  #ruleOfEnds(): string {
    const resourceName = 'StepFunctionsGetEventsForStepFunctionsExecutionRule';
    return Stack.of(this).formatArn({ service: 'events', resource: 'rule', resourceName });
  }
}

type Grant = readonly [actions: readonly string[], resource: string];

const statementOf = ([actions, resource]: Grant): PolicyStatement =>
  new PolicyStatement({ actions: [...actions], resources: [resource] });
