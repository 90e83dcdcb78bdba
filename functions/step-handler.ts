/**
 * A step of the state machine as a function: opens its world once, then runs one step per call. What
 * it throws carries the name that Retry and Catch of the definition are written against.
 */
import type { Ports, StepName } from '../src/pipeline/ports.ts';
import { runStep } from '../src/pipeline/run-step.ts';

export type StepHandler = (event: unknown) => Promise<unknown>;

/** The world is opened at the first call and kept; where opening fails, the next call tries again. */
export function stepHandler(name: StepName, open: () => Promise<Ports>): StepHandler {
  let opening: Promise<Ports> | undefined;
  const opened = (): Promise<Ports> => {
    opening ??= open().catch((error: unknown) => {
      opening = undefined;
      throw error;
    });
    return opening;
  };
  return async (event) => runStep(name, event, await opened());
}
