/**
 * Two topics: what operators must know (alarms, the budget) and news for studios (how runs ended). Both
 * are encrypted with a key of our own, because AWS services may not use the one that SNS brings.
 */
import { Stack } from 'aws-cdk-lib';
import { PolicyStatement, ServicePrincipal } from 'aws-cdk-lib/aws-iam';
import { Key } from 'aws-cdk-lib/aws-kms';
import type { Function as Lambda } from 'aws-cdk-lib/aws-lambda';
import { Topic } from 'aws-cdk-lib/aws-sns';
import { EmailSubscription } from 'aws-cdk-lib/aws-sns-subscriptions';
import { Construct } from 'constructs';
import { acknowledge, MAIL_IS_THE_END } from './acknowledge.ts';

/** Services that tell the operators. */
const WATCHERS = ['cloudwatch.amazonaws.com', 'budgets.amazonaws.com'];

export class Topics extends Construct {
  readonly operators: Topic;
  readonly news: Topic;
  readonly #key: Key;

  constructor(scope: Construct, id: string, mailTo?: string) {
    super(scope, id);
    this.#key = new Key(this, 'Key', { enableKeyRotation: true });
    const options = { enforceSSL: true, masterKey: this.#key };
    this.operators = new Topic(this, 'Operators', { displayName: 'Castoff operators', ...options });
    this.news = new Topic(this, 'News', { displayName: 'Castoff news', ...options });
    if (mailTo !== undefined) {
      acknowledge(this.operators, MAIL_IS_THE_END);
      this.operators.addSubscription(new EmailSubscription(mailTo));
    }
    for (const service of WATCHERS) {
      const watcher = new ServicePrincipal(service, {
        conditions: { StringEquals: { 'aws:SourceAccount': Stack.of(this).account } },
      });
      this.#key.grantEncryptDecrypt(watcher);
      this.operators.grantPublish(watcher);
    }
  }

  /** Lets a function tell studios, and tells it where. */
  letTell(teller: Lambda): void {
    teller.addEnvironment('NEWS_TOPIC_ARN', this.news.topicArn);
    const keyActions = ['kms:Decrypt', 'kms:GenerateDataKey'];
    const statements = [
      { actions: ['sns:Publish'], resources: [this.news.topicArn] },
      { actions: keyActions, resources: [this.#key.keyArn] },
    ];
    for (const each of statements) teller.addToRolePolicy(new PolicyStatement(each));
  }
}
