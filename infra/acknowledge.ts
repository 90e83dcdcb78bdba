/**
 * Rules that are wrong about us, each with its reason. Everything that is acknowledged anywhere in the
 * deployment is acknowledged through here, so that one file shows what was waived and why.
 */
import { type CfnElement, Stack, Validations } from 'aws-cdk-lib';
import type { Bucket } from 'aws-cdk-lib/aws-s3';
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
  reason: 'Its caller, a state machine or the gateway, waits for it and is told of a failure.',
};
export const MAIL_IS_THE_END: Waiver = {
  rules: ['Serverless::Serverless-SNSRedrivePolicy'],
  reason: 'Mail that cannot be delivered is an alarm that stands in CloudWatch all the same.',
};
export const LOOKS_ITSELF: Waiver = {
  rules: ['AwsSolutions::AwsSolutions-APIG4'],
  reason:
    'A page is where people sign in. It checks the token in its cookie itself, has no rights, and asks the API, which is behind the authoriser.',
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
  for (const prefix of right.under ?? []) {
    acknowledgeStar(role, `<${nameOf(bucket)}.Arn>/*/${prefix}*`, {
      reason: `The function may ${right.allow} what lies under “${prefix}” in any studio’s room.`,
    });
  }
}

/** `resource` as cdk-nag writes it: `<LogicalId.Attribute>` stands for what is known at deployment. */
export const acknowledgeStar = (
  construct: Construct,
  resource: string,
  { reason }: { readonly reason: string },
): void =>
  acknowledge(construct, {
    rules: [`AwsSolutions::AwsSolutions-IAM5[Resource::${resource}]`],
    reason,
  });

/** The logical id of what a construct deploys. */
export const nameOf = (construct: Construct): string =>
  Stack.of(construct).getLogicalId(construct.node.defaultChild as CfnElement);
