/** What the desk and its workers say to each other, and how a fault travels between them. */
import { Fault, type FaultKind } from '../../base/fault.ts';
import type { Progress } from '../../pipeline/ports.ts';
import type { CrewJobName } from './crew-jobs.ts';

/** To a worker. */
export type Asked =
  | { readonly kind: 'do'; readonly id: number; readonly job: CrewJobName; readonly ask: unknown }
  | { readonly kind: 'stop'; readonly id: number };

/** From a worker. */
export type Said =
  | { readonly kind: 'told'; readonly id: number; readonly event: Progress }
  | { readonly kind: 'done'; readonly id: number; readonly answer: unknown }
  | { readonly kind: 'fault'; readonly id: number; readonly fault: CarriedFault };

export interface CarriedFault {
  readonly kind: FaultKind;
  readonly message: string;
  readonly place: string | undefined;
  readonly remedy: string | undefined;
  readonly retryable: boolean;
}

/** A mistake of the program itself is printed where it happened, and travels without its inside. */
export function carryFault(error: unknown): CarriedFault {
  if (!(error instanceof Fault)) {
    console.error(error);
    return {
      kind: 'store',
      message: 'the program made a mistake of its own; nothing was released',
      place: undefined,
      remedy: 'what it was stands where the desk was started',
      retryable: false,
    };
  }
  const { kind, message, place, remedy, retryable } = error;
  return { kind, message, place, remedy, retryable };
}

export const faultFrom = ({ kind, message, place, remedy, retryable }: CarriedFault): Fault =>
  new Fault(kind, message, {
    retryable,
    ...(place !== undefined && { place }),
    ...(remedy !== undefined && { remedy }),
  });
