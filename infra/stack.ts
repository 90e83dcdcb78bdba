/**
 * The whole deployment: buckets, functions, state machine, alarms. Wiring only; each part is a file of
 * its own, and every number of a function stands in `functions.ts`.
 */
import type { StackProps } from 'aws-cdk-lib';
import { CfnOutput, Stack } from 'aws-cdk-lib';
import type { Construct } from 'constructs';
import { Alarms } from './alarms.ts';
import { Machine } from './machine.ts';
import { Steps } from './steps.ts';
import { Storage } from './storage.ts';

export interface CastoffStackProps extends StackProps {
  readonly codeFolder: string;
}

export class CastoffStack extends Stack {
  constructor(scope: Construct, id: string, props: CastoffStackProps) {
    super(scope, id, props);
    const { buckets } = new Storage(this, 'Storage');
    const steps = new Steps(this, 'Steps', { buckets, codeFolder: props.codeFolder });
    const machine = new Machine(this, 'Machine', steps, buckets.uploads);
    new Alarms(this, 'Alarms', machine, steps);
    new CfnOutput(this, 'UploadHere', { value: `s3://${buckets.uploads.bucketName}/` });
    new CfnOutput(this, 'ReleasesAreIn', { value: `s3://${buckets.releases.bucketName}/` });
  }
}
