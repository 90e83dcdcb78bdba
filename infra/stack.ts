/**
 * The whole deployment: buckets, functions, state machines, API, what watches them. Wiring only; each part
 * is a file of its own, and every number of a function stands in `functions.ts`.
 */
import type { App, StackProps } from 'aws-cdk-lib';
import { CfnOutput, Stack } from 'aws-cdk-lib';
import { Alarms } from './alarms.ts';
import { callOnArrival } from './arrivals.ts';
import { Batches } from './batches.ts';
import { addBudget } from './budget.ts';
import { Board } from './dashboard.ts';
import { Gateway } from './gateway.ts';
import { Machine } from './machine.ts';
import { readOptions } from './options.ts';
import { Steps } from './steps.ts';
import { Storage } from './storage.ts';
import { Tidying } from './tidying.ts';
import { Topics } from './topics.ts';

export interface CastoffStackProps extends StackProps {
  readonly codeFolder: string;
}

export class CastoffStack extends Stack {
  constructor(app: App, id: string, { codeFolder, ...props }: CastoffStackProps) {
    super(app, id, props);
    const options = readOptions(app);
    const storage = new Storage(this, 'Storage');
    const { buckets } = storage;
    const topics = new Topics(this, 'Topics', options.operators);
    const steps = new Steps(this, 'Steps', { buckets, topics, codeFolder });
    const machine = new Machine(this, 'Machine', steps, buckets.uploads);
    const batches = new Batches(this, 'Batches', machine, steps, storage);
    new Tidying(this, 'Tidying', steps);
    callOnArrival(this, 'ZipOrdered', {
      description: 'All files of a release are wanted as one zip',
      bucket: buckets.work,
      key: { wildcard: '*/zips/*.json' },
      called: steps.get('zip'),
      deadLetters: steps.deadLetters,
    });
    const gateway = this.#gateway(steps, machine, storage, options);
    const watched = { machine, steps, gateway };
    new Alarms(this, 'Alarms', topics.operators, watched);
    new Board(this, 'Dashboard', watched);
    addBudget(this, topics.operators, options.budgetDollars);
    new CfnOutput(this, 'UploadHere', { value: `s3://${buckets.uploads.bucketName}/` });
    new CfnOutput(this, 'ReleasesAreIn', { value: `s3://${buckets.releases.bucketName}/` });
    new CfnOutput(this, 'NewsIsToldBy', { value: topics.news.topicArn });
    new CfnOutput(this, 'BatchesAreStartedBy', { value: batches.stateMachine.stateMachineArn });
  }

  #gateway(
    steps: Steps,
    machine: Machine,
    storage: Storage,
    { tokens, client, studioClaim }: ReturnType<typeof readOptions>,
  ) {
    if (tokens === undefined) return undefined;
    const served = steps.get('api');
    served.addEnvironment('STUDIO_CLAIM', studioClaim);
    machine.letOrder(served);
    const gateway = new Gateway(this, 'Gateway', served, tokens);
    served.addEnvironment('DESK_ADDRESS', gateway.api.apiEndpoint);
    new CfnOutput(this, 'ApiIsAt', { value: gateway.api.apiEndpoint });
    if (client !== undefined) {
      const pages = steps.get('pages');
      pages.addEnvironment('TOKEN_ISSUER', tokens.issuer);
      pages.addEnvironment('DESK_CLIENT', client);
      pages.addEnvironment('DESK_ADDRESS', gateway.api.apiEndpoint);
      gateway.addPages(pages);
      pages.addEnvironment('STORE_ORIGINS', storage.origins.join(' '));
      storage.letFetch(gateway.api.apiEndpoint);
      new CfnOutput(this, 'SignInLeadsBackTo', {
        value: `${gateway.api.apiEndpoint}/sign-in/back`,
      });
    }
    return gateway;
  }
}
