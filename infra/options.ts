/**
 * What a deployment may be told on the command line, as context: `-c issuer=https://…`. Nothing is needed:
 * without an issuer of tokens there is no API, and bundles are handed in by whoever may write to the bucket.
 */
import type { App } from 'aws-cdk-lib';
import { Fault } from '../src/base/fault.ts';

export interface Options {
  /** Who issues the tokens of the API, and for whom; no API where it is left out. */
  readonly tokens?: { readonly issuer: string; readonly audience: readonly string[] };
  /** Our name at the issuer, by which people sign in at the pages; no pages where it is left out. */
  readonly client?: string;
  /** The claim of a token that names the caller's studio. */
  readonly studioClaim: string;
  /** Where alarms and the budget are mailed to. */
  readonly operators?: string;
  /** US dollars a month of the whole account, from which on the operators are told. */
  readonly budgetDollars: number;
}

const DEFAULT_BUDGET_DOLLARS = 50;

export function readOptions(app: App): Options {
  const told = (name: string): string | undefined => {
    const value = app.node.tryGetContext(name) as unknown;
    return typeof value === 'string' ? value : undefined;
  };
  const [issuer, audience, client, operators] = [
    'issuer', 'audience', 'client', 'operators',
  ].map(told); // prettier-ignore
  if ((issuer === undefined) !== (audience === undefined)) {
    throw new Fault('usage', 'the API needs both an issuer and an audience', {
      remedy: '-c issuer=https://… -c audience=…',
    });
  }
  if (issuer !== undefined && !issuer.startsWith('https://')) {
    throw new Fault('usage', 'the issuer is named by an https address');
  }
  if (client !== undefined && audience?.split(',').includes(client) !== true) {
    throw new Fault('usage', 'the pages speak to the API with tokens for their client', {
      remedy: 'name the client among the audiences as well: -c audience=castoff,… -c client=…',
    });
  }
  const budgetDollars = Number(told('budget') ?? DEFAULT_BUDGET_DOLLARS);
  if (!(budgetDollars > 0)) throw new Fault('usage', 'the budget is a number of US dollars');
  return {
    ...(issuer !== undefined &&
      audience !== undefined && { tokens: { issuer, audience: audience.split(',') } }),
    ...(client !== undefined && { client }),
    studioClaim: told('studioClaim') ?? 'studio',
    ...(operators !== undefined && { operators }),
    budgetDollars,
  };
}
