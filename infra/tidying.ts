/**
 * The daily clearing up, from `src/pipeline/tidy.asl.json`: every studio's room by itself, at an hour when
 * few publish.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Rule, RuleTargetInput, Schedule } from 'aws-cdk-lib/aws-events';
import { SfnStateMachine } from 'aws-cdk-lib/aws-events-targets';
import { PolicyStatement } from 'aws-cdk-lib/aws-iam';
import { StateMachine } from 'aws-cdk-lib/aws-stepfunctions';
import { Construct } from 'constructs';
import { acknowledge, TRACING_ANYWHERE } from './acknowledge.ts';
import { machineProps } from './machine.ts';
import type { Steps } from './steps.ts';

const DEFINITION = fileURLToPath(new URL('../src/pipeline/tidy.asl.json', import.meta.url));
/** UTC. */
const DAILY = { hour: '3', minute: '17' };

export class Tidying extends Construct {
  constructor(scope: Construct, id: string, steps: Steps) {
    super(scope, id);
    const [studios, tidy] = [steps.get('studios').functionArn, steps.get('tidy').functionArn];
    const machine = new StateMachine(this, 'TidyAll', {
      ...machineProps(this, readFileSync(DEFINITION, 'utf8')),
      definitionSubstitutions: { studios, tidy },
    });
    machine.addToRolePolicy(
      new PolicyStatement({ actions: ['lambda:InvokeFunction'], resources: [studios, tidy] }),
    );
    acknowledge(machine, TRACING_ANYWHERE);
    new Rule(this, 'Daily', {
      description: 'What no release names is cleared up once a day',
      schedule: Schedule.cron(DAILY),
      targets: [
        new SfnStateMachine(machine, {
          input: RuleTargetInput.fromObject({}),
          deadLetterQueue: steps.deadLetters,
        }),
      ],
    });
  }
}
