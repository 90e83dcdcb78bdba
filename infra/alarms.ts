/**
 * What wakes a person: a run that failed or ran out of time, an upload that could not be started, a
 * studio that could not be tidied, a function that was throttled, an API that answers with errors of ours.
 * A pattern with findings is no failure and wakes nobody.
 */
import { Duration } from 'aws-cdk-lib';
import type { IMetric } from 'aws-cdk-lib/aws-cloudwatch';
import { Alarm, ComparisonOperator, TreatMissingData } from 'aws-cdk-lib/aws-cloudwatch';
import { SnsAction } from 'aws-cdk-lib/aws-cloudwatch-actions';
import type { Topic } from 'aws-cdk-lib/aws-sns';
import { Construct } from 'constructs';
import type { Gateway } from './gateway.ts';
import type { Machine } from './machine.ts';
import type { Steps } from './steps.ts';

const FIVE_MINUTES = { period: Duration.minutes(5), statistic: 'Sum' };

export interface Watched {
  readonly machine: Machine;
  readonly steps: Steps;
  readonly gateway?: Gateway | undefined;
}

export class Alarms extends Construct {
  readonly #topic: Topic;

  constructor(scope: Construct, id: string, topic: Topic, { machine, steps, gateway }: Watched) {
    super(scope, id);
    this.#topic = topic;
    const { stateMachine } = machine;
    const waiting = steps.deadLetters.metricApproximateNumberOfMessagesVisible(FIVE_MINUTES);
    const errors = (name: 'starter' | 'tidy' | 'studios') =>
      steps.get(name).metricErrors(FIVE_MINUTES);
    this.#alarm('RunsFailed', 'A run failed', stateMachine.metricFailed(FIVE_MINUTES));
    this.#alarm('RunsTimedOut', 'A run took too long', stateMachine.metricTimedOut(FIVE_MINUTES));
    this.#alarm('RunsThrottled', 'Runs are throttled', stateMachine.metricThrottled(FIVE_MINUTES));
    this.#alarm('StarterErrors', 'An upload could not be started', errors('starter'));
    this.#alarm('DeadLetters', 'An upload or an order was given up', waiting);
    this.#alarm('TidyErrors', 'A studio could not be tidied', errors('tidy'));
    this.#alarm('StudiosErrors', 'The studios could not be listed', errors('studios'));
    if (gateway) {
      const { api } = gateway;
      this.#alarm('ApiErrors', 'The API answers with errors', api.metricServerError(FIVE_MINUTES));
    }
    for (const [name, step] of steps.functions) {
      const throttled = step.metricThrottles(FIVE_MINUTES);
      this.#alarm(`Throttled-${name}`, `The ${name} function is throttled`, throttled);
    }
  }

  #alarm(name: string, alarmDescription: string, metric: IMetric): void {
    const alarm = new Alarm(this, name, {
      alarmDescription,
      metric,
      threshold: 1,
      evaluationPeriods: 1,
      comparisonOperator: ComparisonOperator.GREATER_THAN_OR_EQUAL_TO_THRESHOLD,
      treatMissingData: TreatMissingData.NOT_BREACHING,
    });
    alarm.addAlarmAction(new SnsAction(this.#topic));
  }
}
