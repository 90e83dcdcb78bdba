/**
 * What wakes a person: a run that failed or ran out of time, an upload that could not be started, a
 * function that was throttled. A pattern with findings is no failure and wakes nobody.
 */
import { Duration, Stack } from 'aws-cdk-lib';
import type { IMetric } from 'aws-cdk-lib/aws-cloudwatch';
import { Alarm, ComparisonOperator, TreatMissingData } from 'aws-cdk-lib/aws-cloudwatch';
import { SnsAction } from 'aws-cdk-lib/aws-cloudwatch-actions';
import { ServicePrincipal } from 'aws-cdk-lib/aws-iam';
import { Key } from 'aws-cdk-lib/aws-kms';
import { Topic } from 'aws-cdk-lib/aws-sns';
import { Construct } from 'constructs';
import type { Machine } from './machine.ts';
import type { Steps } from './steps.ts';

const FIVE_MINUTES = { period: Duration.minutes(5), statistic: 'Sum' };

export class Alarms extends Construct {
  readonly topic: Topic;

  constructor(scope: Construct, id: string, { stateMachine }: Machine, steps: Steps) {
    super(scope, id);
    // A key of our own: CloudWatch may not use the one that SNS brings, and would stay silent.
    const key = new Key(this, 'TopicKey', { enableKeyRotation: true });
    this.topic = new Topic(this, 'Operators', {
      displayName: 'Castoff operators',
      enforceSSL: true,
      masterKey: key,
    });
    const cloudWatch = new ServicePrincipal('cloudwatch.amazonaws.com', {
      conditions: { StringEquals: { 'aws:SourceAccount': Stack.of(this).account } },
    });
    key.grantEncryptDecrypt(cloudWatch);
    this.topic.grantPublish(cloudWatch);
    const starter = steps.get('starter');
    const watched: readonly (readonly [string, string, IMetric])[] = [
      ['RunsFailed', 'A run failed', stateMachine.metricFailed(FIVE_MINUTES)],
      ['RunsTimedOut', 'A run took too long', stateMachine.metricTimedOut(FIVE_MINUTES)],
      ['RunsThrottled', 'Runs are throttled', stateMachine.metricThrottled(FIVE_MINUTES)],
      ['StarterErrors', 'An upload could not be started', starter.metricErrors(FIVE_MINUTES)],
      [
        'DeadLetters',
        'An upload was given up',
        steps.deadLetters.metricApproximateNumberOfMessagesVisible(FIVE_MINUTES),
      ],
      ...[...steps.functions].map(
        ([name, step]) =>
          [
            `Throttled-${name}`,
            `The ${name} function is throttled`,
            step.metricThrottles(FIVE_MINUTES),
          ] as const,
      ),
    ];
    for (const [name, description, metric] of watched) this.#alarm(name, description, metric);
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
    alarm.addAlarmAction(new SnsAction(this.topic));
  }
}
