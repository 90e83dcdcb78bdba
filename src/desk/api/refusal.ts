/**
 * What the API answers where it cannot serve a request, here and in the cloud: problem details (RFC 9457).
 * Takes faults of any room; tells those that the caller can do something about, and keeps the others.
 */
import { Fault, type FaultKind } from '../../base/fault.ts';

/** An answer that is thrown: the request cannot be served. */
export class Refusal extends Error {
  readonly status: number;
  readonly detail: string | undefined;
  /** Where it is wrong. */
  readonly place: string | undefined;
  constructor(status: number, title: string, detail?: string, place?: string) {
    super(title);
    this.status = status;
    this.detail = detail;
    this.place = place;
  }
}

const STATUS: Readonly<Partial<Record<FaultKind, number>>> = {
  missing: 404,
  conflict: 409,
  input: 422,
};

/** A fault that the caller can do something about; nothing where it is our own affair. */
export function refusalOf({ kind, message, remedy, place, cause }: Fault): Refusal | undefined {
  // What is missing because the store says so is no name that a caller gave.
  if (kind === 'missing' && cause !== undefined) return undefined;
  const status = STATUS[kind];
  // The caller knows nothing of our buckets.
  const told = place?.startsWith('s3://') ? undefined : place;
  return status === undefined ? undefined : new Refusal(status, message, remedy, told);
}

/** Our own affair: whether trying again helps, and no word of what it was. */
export const ownTrouble = (error: unknown): Refusal =>
  error instanceof Fault && error.retryable
    ? new Refusal(503, 'The storage does not answer just now')
    : new Refusal(500, 'Something is broken here; it has been written down');

export const PROBLEM_TYPE = 'application/problem+json';

export const problemText = ({ status, message: title, detail, place }: Refusal): string =>
  JSON.stringify({ title, status, detail, place });
