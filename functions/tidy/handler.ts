/**
 * Clears up the room of one studio: what no release names is listed on one day and deleted on a later
 * one. The only function that may delete, and not what a reader of releases reads.
 */
import type { Context } from 'aws-lambda';
import { z } from 'zod';
import { studioName } from '../../src/pipeline/payloads.ts';
import { StepError } from '../../src/pipeline/step-error.ts';
import { type Tidied, tidyStore } from '../../src/release/tidy.ts';
import { openStudio } from '../world.ts';
import { count, log, watched } from '../telemetry.ts';

const order = z.object({ studio: studioName, owner: z.string().min(1) });

export const handler = (event: unknown, context: Partial<Context> = {}): Promise<Tidied> =>
  watched('tidy', context, async () => {
    try {
      const { studio, owner } = order.parse(event);
      const { releases } = openStudio(studio);
      const tidied = await tidyStore(releases, { now: new Date(), owner });
      log.info('room tidied', { studio, deleted: tidied.deleted, condemned: tidied.condemned });
      count('ArtifactsDeleted', tidied.deleted);
      return tidied;
    } catch (cause) {
      throw new StepError(cause);
    }
  });
