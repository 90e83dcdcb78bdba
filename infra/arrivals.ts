/**
 * A function that is called where an object arrives in a bucket: the bucket tells EventBridge, which calls
 * at least once and tries for a day. What nobody took up waits in the queue for a person to look at.
 */
import { Duration } from 'aws-cdk-lib';
import { Rule } from 'aws-cdk-lib/aws-events';
import { LambdaFunction } from 'aws-cdk-lib/aws-events-targets';
import type { Function as Lambda } from 'aws-cdk-lib/aws-lambda';
import type { Bucket } from 'aws-cdk-lib/aws-s3';
import type { Queue } from 'aws-cdk-lib/aws-sqs';
import type { Construct } from 'constructs';

/** Upper bounds of EventBridge: 24 hours and 185 tries. A day's outage loses no arrival. */
const LONGEST_EVENT_AGE = Duration.hours(24);
const MOST_TRIES = 185;

export interface Arrivals {
  readonly description: string;
  readonly bucket: Bucket;
  /** Which keys, in the words of event patterns. */
  readonly key: Readonly<Record<string, unknown>>;
  readonly called: Lambda;
  readonly deadLetters: Queue;
}

export function callOnArrival(
  scope: Construct,
  id: string,
  { description, bucket, key, called, deadLetters }: Arrivals,
): void {
  new Rule(scope, id, {
    description,
    eventPattern: {
      source: ['aws.s3'],
      detailType: ['Object Created'],
      detail: { bucket: { name: [bucket.bucketName] }, object: { key: [key] } },
    },
    targets: [
      new LambdaFunction(called, {
        deadLetterQueue: deadLetters,
        maxEventAge: LONGEST_EVENT_AGE,
        retryAttempts: MOST_TRIES,
      }),
    ],
  });
}
