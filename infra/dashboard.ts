/**
 * One page for whoever keeps the deployment: what is published, what waits, what fails, how long steps
 * take. Numbers of the Castoff namespace come from the functions, the others from AWS.
 */
import { Duration } from 'aws-cdk-lib';
import type { IMetric } from 'aws-cdk-lib/aws-cloudwatch';
import { Dashboard, GraphWidget, Metric, PeriodOverride } from 'aws-cdk-lib/aws-cloudwatch';
import { Construct } from 'constructs';
import type { Watched } from './alarms.ts';

const WIDTH = 12;
const HOUR = { period: Duration.hours(1), statistic: 'Sum' };

/** Numbers that the functions count, under the service name of their metrics. */
const counted = (name: string): IMetric =>
  new Metric({
    namespace: 'Castoff',
    metricName: name,
    dimensionsMap: { service: 'castoff' },
    ...HOUR,
  });

export class Board extends Construct {
  constructor(scope: Construct, id: string, { machine, steps, gateway }: Watched) {
    super(scope, id);
    const { stateMachine } = machine;
    const graph = (title: string, left: IMetric[]): GraphWidget =>
      new GraphWidget({ title, left, width: WIDTH });
    const steady = [...steps.functions.values()];
    const widgets = [
      graph(
        'Runs',
        ['RunsStarted', 'RunsReleased', 'RunsBlocked', 'RunsFailed', 'RunsStopped'].map(counted),
      ),
      graph(
        'Documents and pictures',
        ['DocumentsMade', 'DocumentsReused', 'PicturesMade', 'PicturesReused'].map(counted),
      ),
      graph('Runs as Step Functions sees them', [
        stateMachine.metricStarted(HOUR),
        stateMachine.metricSucceeded(HOUR),
        stateMachine.metricFailed(HOUR),
        stateMachine.metricTimedOut(HOUR),
        stateMachine.metricThrottled(HOUR),
      ]),
      graph('Duration of runs', [
        stateMachine.metricTime({ statistic: 'p50' }),
        stateMachine.metricTime({ statistic: 'p95' }),
      ]),
      graph(
        'Duration of steps, 95 of 100',
        steady.map((step) => step.metricDuration({ statistic: 'p95' })),
      ),
      graph(
        'Errors of functions',
        steady.map((step) => step.metricErrors(HOUR)),
      ),
      graph('Uploads given up', [
        steps.deadLetters.metricApproximateNumberOfMessagesVisible({ statistic: 'Maximum' }),
      ]),
      ...(gateway
        ? [
            graph('API', [
              gateway.api.metricCount(HOUR),
              gateway.api.metricClientError(HOUR),
              gateway.api.metricServerError(HOUR),
            ]),
          ]
        : []),
    ];
    const board = new Dashboard(this, 'Board', { periodOverride: PeriodOverride.AUTO });
    for (let at = 0; at < widgets.length; at += 2) board.addWidgets(...widgets.slice(at, at + 2));
  }
}
