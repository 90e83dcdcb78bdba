/**
 * A monthly budget of the whole account: the operators are told when four fifths are spent, and when more
 * than all of it is forecast. It tells; it stops nothing.
 */
import { CfnBudget } from 'aws-cdk-lib/aws-budgets';
import type { Topic } from 'aws-cdk-lib/aws-sns';
import type { Construct } from 'constructs';

export function addBudget(scope: Construct, topic: Topic, dollars: number): CfnBudget {
  const tell = (notificationType: 'ACTUAL' | 'FORECASTED', threshold: number) => ({
    notification: {
      notificationType,
      comparisonOperator: 'GREATER_THAN',
      threshold,
      thresholdType: 'PERCENTAGE',
    },
    subscribers: [{ subscriptionType: 'SNS', address: topic.topicArn }],
  });
  return new CfnBudget(scope, 'Budget', {
    budget: {
      budgetType: 'COST',
      timeUnit: 'MONTHLY',
      budgetLimit: { amount: dollars, unit: 'USD' },
    },
    notificationsWithSubscribers: [tell('ACTUAL', 80), tell('FORECASTED', 100)],
  });
}
