/** Third step of a run: every photograph in its print and shop sizes. */
import { openWorld } from '../world.ts';
import { openOwnRooms } from '../rooms.ts';
import { stepHandler } from '../step-handler.ts';

export const handler = stepHandler('pictures', async () => openWorld(await openOwnRooms()));
