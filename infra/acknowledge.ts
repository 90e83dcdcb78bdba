/**
 * Rules that are wrong about us, each with its reason. Everything that is acknowledged anywhere in the
 * deployment is acknowledged through here, so that one file shows what was waived and why.
 */
import { Stack, Validations } from 'aws-cdk-lib';
import type { Bucket, CfnBucket } from 'aws-cdk-lib/aws-s3';
import type { Construct } from 'constructs';
import type { Right } from './functions.ts';

interface Waiver {
  readonly rules: readonly string[];
  readonly reason: string;
}

export const IS_THE_LAST_QUEUE: Waiver = {
  rules: ['AwsSolutions::AwsSolutions-SQS3', 'Serverless::Serverless-SQSRedrivePolicy'],
  reason: 'This queue is itself where letters end that nobody could deliver; an alarm watches it.',
};
export const HAS_DESTINATION: Waiver = {
  rules: ['Serverless::Serverless-LambdaDLQ'],
  reason: 'Failed asynchronous calls go to a failure destination, which also tells their cause.',
};
export const CALLED_AND_WAITED_FOR: Waiver = {
  rules: ['Serverless::Serverless-LambdaDLQ'],
  reason: 'Only the state machine calls this function, and waits; its failures are caught there.',
};
export const TRACING_ANYWHERE: Waiver = {
  rules: ['AwsSolutions::AwsSolutions-IAM5[Resource::*]'],
  reason: 'Tracing and the delivery of logs know no resources: their actions take only a star.',
};

export function acknowledge(construct: Construct, { rules, reason }: Waiver): void {
  for (const id of rules) Validations.of(construct).acknowledge({ id, reason });
}

/** A right to keys that begin alike ends in a star; that is what a prefix is. */
export function acknowledgePrefixes(role: Construct, right: Right, bucket: Bucket): void {
  const name = Stack.of(bucket).getLogicalId(bucket.node.defaultChild as CfnBucket);
  for (const prefix of right.under ?? []) {
    acknowledge(role, {
      rules: [`AwsSolutions::AwsSolutions-IAM5[Resource::<${name}.Arn>/${prefix}*]`],
      reason: `The function may ${right.allow} every object of ${right.bucket} under “${prefix}”.`,
    });
  }
}
