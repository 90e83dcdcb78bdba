/**
 * The state machine in the cloud, from the very file that a laptop runs; and what starts it: an upload,
 * told to EventBridge by the bucket, taken by the starter function; or a person, through the API. Nothing of
 * the flow is written here.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Duration, RemovalPolicy, Stack } from 'aws-cdk-lib';
import { PolicyStatement } from 'aws-cdk-lib/aws-iam';
import type { Function as Lambda } from 'aws-cdk-lib/aws-lambda';
import { LogGroup, RetentionDays } from 'aws-cdk-lib/aws-logs';
import type { Bucket } from 'aws-cdk-lib/aws-s3';
import {
  DefinitionBody,
  LogLevel,
  StateMachine,
  type StateMachineProps,
  StateMachineType,
} from 'aws-cdk-lib/aws-stepfunctions';
import { Construct } from 'constructs';
import { present } from '../src/base/assert.ts';
import { readDefinition } from '../src/pipeline/machine/definition.ts';
import { acknowledge, acknowledgeStar, nameOf, TRACING_ANYWHERE } from './acknowledge.ts';
import { callOnArrival } from './arrivals.ts';
import type { Steps } from './steps.ts';

const DEFINITION = fileURLToPath(new URL('../src/pipeline/pipeline.asl.json', import.meta.url));

/** What every machine here has: its definition from a file, its traces, a log of its own for a month. */
export function machineProps(scope: Construct, text: string): StateMachineProps {
  const log = new LogGroup(scope, 'Log', {
    retention: RetentionDays.ONE_MONTH,
    removalPolicy: RemovalPolicy.DESTROY,
  });
  return {
    stateMachineType: StateMachineType.STANDARD,
    definitionBody: DefinitionBody.fromString(text),
    timeout: Duration.seconds(readDefinition(JSON.parse(text)).TimeoutSeconds),
    tracingEnabled: true,
    // What a customer hands in stays out of the log.
    logs: { destination: log, level: LogLevel.ALL, includeExecutionData: false },
  };
}

export class Machine extends Construct {
  readonly stateMachine: StateMachine;

  constructor(scope: Construct, id: string, steps: Steps, uploads: Bucket) {
    super(scope, id);
    const called = steps.calledBy('publishing');
    this.stateMachine = new StateMachine(this, 'Publish', {
      ...machineProps(this, readFileSync(DEFINITION, 'utf8')),
      definitionSubstitutions: Object.fromEntries(
        called.map(([name, step]) => [name, step.functionArn]),
      ),
    });
    // Not `grantInvoke`, which allows every version of a function beside the function itself.
    const resources = called.map(([, step]) => step.functionArn);
    const invoking = new PolicyStatement({ actions: ['lambda:InvokeFunction'], resources });
    this.stateMachine.addToRolePolicy(invoking);
    acknowledge(this.stateMachine, TRACING_ANYWHERE);
    this.#startOnUpload(steps, uploads);
  }

  /** Lets a function start runs and stop them: not the machine, and no run of another machine. */
  letOrder(ordering: Lambda): void {
    this.#letStart(ordering);
    const resources = [runsOf(this.stateMachine, ':*')];
    ordering.addToRolePolicy(new PolicyStatement({ actions: ['states:StopExecution'], resources }));
    acknowledgeRuns(present(ordering.role, 'its role'), this.stateMachine, ':*', {
      reason: 'A run to be stopped is named by a person; the star stands for runs of one machine.',
    });
  }

  #letStart(starting: Lambda): void {
    starting.addEnvironment('STATE_MACHINE_ARN', this.stateMachine.stateMachineArn);
    this.stateMachine.grantStartExecution(starting);
  }

  #startOnUpload(steps: Steps, uploads: Bucket): void {
    const starter = steps.get('starter');
    this.#letStart(starter);
    callOnArrival(this, 'Uploaded', {
      description: 'A bundle was uploaded',
      bucket: uploads,
      key: { suffix: { 'equals-ignore-case': '.zip' } },
      called: starter,
      deadLetters: steps.deadLetters,
    });
  }
}

/** Runs of a machine, which have their names later; `/*:*` stands for those of a Distributed Map. */
export function runsOf(machine: StateMachine, ending: ':*' | '/*:*'): string {
  const { partition, region, account } = Stack.of(machine);
  return `arn:${partition}:states:${region}:${account}:execution:${machine.stateMachineName}${ending}`;
}

export function acknowledgeRuns(
  construct: Construct,
  machine: StateMachine,
  ending: ':*' | '/*:*',
  why: { readonly reason: string },
): void {
  const runs = 'arn:<AWS::Partition>:states:<AWS::Region>:<AWS::AccountId>:execution:';
  acknowledgeStar(construct, `${runs}<${nameOf(machine)}.Name>${ending}`, why);
}
