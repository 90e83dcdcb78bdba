/** Where a run ends that came through: keeps how it ended and tells the studio. */
import { NO_ROOMS, openWorld } from '../world.ts';
import { stepHandler } from '../step-handler.ts';

export const handler = stepHandler('report', async () => openWorld(NO_ROOMS));
