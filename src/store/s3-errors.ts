/**
 * What S3 and the network answer, as faults a person can act on. Takes whatever the SDK threw; says
 * whether trying again can help and what to do otherwise.
 */
import { Fault, type FaultKind } from '../base/fault.ts';

interface Answer {
  readonly name?: string;
  readonly code?: string;
  readonly message?: string;
  readonly $metadata?: { readonly httpStatusCode?: number; readonly attempts?: number };
  readonly $retryable?: unknown;
}

const answer = (error: unknown): Answer =>
  typeof error === 'object' && error !== null ? (error as Answer) : {};

export const statusOf = (error: unknown): number | undefined =>
  answer(error).$metadata?.httpStatusCode;
export const nameOf = (error: unknown): string => answer(error).name ?? '';
/** How often the SDK sent the request. */
export const attemptsOf = (error: unknown): number => answer(error).$metadata?.attempts ?? 1;

const KNOWN: Readonly<Record<string, { readonly kind: FaultKind; readonly remedy: string }>> = {
  NoSuchBucket: { kind: 'missing', remedy: 'create the bucket, or correct its name' },
  NoSuchKey: { kind: 'missing', remedy: 'it was deleted; upload it again' },
  NoSuchVersion: { kind: 'missing', remedy: 'that version was deleted; upload it again' },
  AccessDenied: { kind: 'store', remedy: 'ask for the right to read and write there' },
  InvalidAccessKeyId: { kind: 'store', remedy: 'check the access key' },
  SignatureDoesNotMatch: { kind: 'store', remedy: 'check the secret key and the clock' },
  RequestTimeTooSkewed: { kind: 'store', remedy: 'set the clock of this computer' },
  ExpiredToken: { kind: 'store', remedy: 'sign in again' },
  CredentialsProviderError: { kind: 'store', remedy: 'sign in, or set the access keys' },
  PermanentRedirect: { kind: 'store', remedy: 'set the region of the bucket' },
};

const PASSING_NETWORK = new Set([
  'ECONNRESET', 'ECONNREFUSED', 'EPIPE', 'ETIMEDOUT', 'ENOTFOUND', 'EAI_AGAIN', 'TimeoutError',
  'RequestTimeout', 'SlowDown', 'InternalError', 'ServiceUnavailable', 'ConditionalRequestConflict',
]); // prettier-ignore

export function toFault(error: unknown, place: string): Fault {
  if (error instanceof Fault) return error;
  const { name = '', code = '', message = '' } = answer(error);
  const status = statusOf(error);
  const known = KNOWN[name];
  const retryable =
    (status !== undefined && status >= 500) ||
    status === 429 ||
    status === 409 ||
    answer(error).$retryable !== undefined ||
    PASSING_NETWORK.has(name) ||
    PASSING_NETWORK.has(code);
  const reason = [name || code, status === undefined ? '' : `status ${status}`, message]
    .filter(Boolean)
    .join(', ');
  return new Fault(known?.kind ?? 'store', `the bucket failed at ${place}: ${reason}`, {
    place,
    retryable: known === undefined && retryable,
    remedy: known?.remedy ?? (retryable ? 'try again in a minute' : 'see the cause'),
    cause: error,
  });
}
