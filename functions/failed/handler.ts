/** Where a run ends that could not go on: keeps what went wrong in words a person can act on. */
import { NO_ROOMS, openWorld } from '../world.ts';
import { stepHandler } from '../step-handler.ts';

export const handler = stepHandler('failed', async () => openWorld(NO_ROOMS));
