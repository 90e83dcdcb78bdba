/**
 * The publishing machine as the functions that start and stop its runs see it. A run is named before it
 * starts, and the name makes a repeated start harmless. Takes a client; knows no bundle and no order.
 */
import {
  ExecutionAlreadyExists,
  ExecutionDoesNotExist,
  type SFNClient,
  StartExecutionCommand,
  StopExecutionCommand,
} from '@aws-sdk/client-sfn';
import { Fault } from '../src/base/fault.ts';
import type { Settings } from '../src/pipeline/payloads.ts';
import { environment } from './environment.ts';

/** What the machine is told at its start. */
export interface RunInput {
  readonly studio: string;
  readonly source: string;
  readonly settings: Settings;
}

export interface Machines {
  /** False where a run of that name was started before, with this input or another. */
  start(run: string, input: RunInput): Promise<boolean>;
  /** Nothing further of the run is begun; a step that is at work goes on to its end. */
  stop(run: string): Promise<void>;
}

export const openMachines = (client: SFNClient): Machines => ({
  async start(name, input) {
    const stateMachineArn = environment('STATE_MACHINE_ARN');
    const request = { stateMachineArn, name, input: JSON.stringify(input) };
    try {
      await client.send(new StartExecutionCommand(request));
      return true;
    } catch (error) {
      if (error instanceof ExecutionAlreadyExists) return false;
      throw unanswered(error);
    }
  },
  async stop(name) {
    try {
      await client.send(new StopExecutionCommand({ executionArn: executionArn(name) }));
    } catch (error) {
      // It was never started, or so long ago that it is forgotten.
      if (!(error instanceof ExecutionDoesNotExist)) throw unanswered(error);
    }
  },
});

/** `arn:aws:states:…:execution:<machine>:<run>`. */
const executionArn = (run: string): string =>
  `${environment('STATE_MACHINE_ARN').replace(':stateMachine:', ':execution:')}:${run}`;

const unanswered = (cause: unknown): Fault =>
  new Fault('store', 'the machine that publishes does not answer', { retryable: true, cause });
