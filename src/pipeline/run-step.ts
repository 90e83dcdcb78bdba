/**
 * Runs one step by its name, on a laptop as in a function: guards what comes in, turns every fault into
 * one that a state machine can carry, and keeps the hand-over small.
 */
import { z } from 'zod';
import { assert } from '../base/assert.ts';
import { RUN_LIMITS } from '../base/limits.ts';
import * as payloads from './payloads.ts';
import type { Ports, StepName } from './ports.ts';
import { StepError } from './step-error.ts';
import { check } from './steps/check.ts';
import { compose } from './steps/compose.ts';
import { failed } from './steps/failed.ts';
import { intake } from './steps/intake.ts';
import { pictures } from './steps/pictures.ts';
import { proof } from './steps/proof.ts';
import { report } from './steps/report.ts';
import { stage } from './steps/stage.ts';

type Step = (input: unknown, ports: Ports) => Promise<unknown>;

const guarded =
  <Schema extends z.ZodType>(
    schema: Schema,
    step: (input: z.output<Schema>, ports: Ports) => Promise<unknown>,
  ): Step =>
  (input, ports) =>
    step(schema.parse(input), ports);

const STEPS: Readonly<Record<StepName, Step>> = {
  intake: guarded(payloads.intakeInput, intake),
  check: guarded(payloads.checkInput, check),
  pictures: guarded(payloads.picturesInput, pictures),
  compose: guarded(payloads.composeInput, compose),
  proof: guarded(payloads.proofInput, proof),
  stage: guarded(payloads.stageInput, stage),
  report: guarded(payloads.reportInput, report),
  failed: guarded(payloads.failedInput, failed),
};

/** Steps that tell of themselves, or that nobody waits for. */
const QUIET: ReadonlySet<StepName> = new Set(['compose', 'proof', 'report']);

export const STEP_NAMES = Object.keys(STEPS) as readonly StepName[];

export async function runStep(name: StepName, input: unknown, ports: Ports): Promise<unknown> {
  try {
    if (!QUIET.has(name)) ports.progress({ step: name, state: 'started' });
    const output = await STEPS[name](input, ports);
    const sizeBytes = Buffer.byteLength(JSON.stringify(output));
    assert(sizeBytes <= RUN_LIMITS.payloadBytes, `${name} hands over ${sizeBytes} bytes`);
    return output;
  } catch (cause) {
    ports.log.error('step failed', {
      step: name,
      error: cause instanceof Error ? cause.name : 'unknown',
    });
    throw new StepError(cause);
  }
}
