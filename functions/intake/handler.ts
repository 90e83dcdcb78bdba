/** First step of a run: unpacks and validates an upload, keeps it by its content hash. */
import { NO_ROOMS, openWorld } from '../world.ts';
import { stepHandler } from '../step-handler.ts';

export const handler = stepHandler('intake', async () => openWorld(NO_ROOMS));
