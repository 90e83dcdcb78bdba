/**
 * Faults on their way through a state machine, which carries a name and one text. The name decides
 * whether a step is tried again; the text holds the fault as JSON. Used alike by functions and laptop.
 */
import { z } from 'zod';
import { Fault } from '../base/fault.ts';

/** Names the state machine's Retry and Catch are written against. */
export const RETRYABLE = 'Castoff.Retryable';
export const REFUSED = 'Castoff.Refused';
export const BROKEN = 'Castoff.Broken';

const told = z.object({
  kind: z.string(),
  message: z.string(),
  place: z.string().optional(),
  remedy: z.string().optional(),
});
export type ToldFault = z.output<typeof told>;

export class StepError extends Error {
  constructor(cause: unknown) {
    super(JSON.stringify(tell(cause)), { cause });
    this.name = cause instanceof Fault ? (cause.retryable ? RETRYABLE : REFUSED) : BROKEN;
  }
}

function tell(cause: unknown): ToldFault {
  if (cause instanceof Fault) {
    const { kind, message, place, remedy } = cause;
    return {
      kind,
      message,
      ...(place !== undefined && { place }),
      ...(remedy !== undefined && { remedy }),
    };
  }
  return { kind: 'broken', message: cause instanceof Error ? cause.message : String(cause) };
}

/** Reads back what the state machine caught: our own text, Lambda's record of it, or neither. */
export function readStepError(name: string, cause: string): ToldFault {
  const outer = parse(cause);
  const lambda = z.object({ errorMessage: z.string() }).safeParse(outer);
  const inner = lambda.success ? parse(lambda.data.errorMessage) : outer;
  const known = told.safeParse(inner);
  if (known.success) return known.data;
  return {
    kind: 'broken',
    message: `the step ended with ${name}`,
    remedy: 'hand the bundle in again; if it happens again, the log has the details',
  };
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
