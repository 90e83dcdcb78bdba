/**
 * A step of the state machine as a function: opens its world once, then runs one step per call in the
 * room of the studio that the run belongs to. What it throws carries the name that Retry and Catch of the
 * definition are written against.
 */
import type { Context } from 'aws-lambda';
import { z } from 'zod';
import { studioName } from '../src/pipeline/payloads.ts';
import type { Ports, StepName } from '../src/pipeline/ports.ts';
import { runStep } from '../src/pipeline/run-step.ts';
import { StepError } from '../src/pipeline/step-error.ts';
import { watched } from './telemetry.ts';

export type StepHandler = (event: unknown, context?: Partial<Context>) => Promise<unknown>;
export type World = (studio: string) => Ports;

/** Studios whose world a warm function keeps. */
const REMEMBERED = 8;
const whose = z.object({ studio: studioName });

/** The world is opened at the first call and kept; where opening fails, the next call tries again. */
export function stepHandler(name: StepName, open: () => Promise<World>): StepHandler {
  let opening: Promise<World> | undefined;
  const rooms = new Map<string, Ports>();
  const portsOf = async (studio: string): Promise<Ports> => {
    opening ??= open().catch((error: unknown) => {
      opening = undefined;
      throw error;
    });
    const ports = rooms.get(studio) ?? (await opening)(studio);
    rooms.set(studio, ports);
    for (const known of [...rooms.keys()].slice(0, -REMEMBERED)) rooms.delete(known);
    return ports;
  };
  return (event, context = {}) =>
    watched(name, context, async () => {
      const told = whose.safeParse(event);
      if (!told.success) throw new StepError(told.error);
      return runStep(name, event, await portsOf(told.data.studio));
    });
}
