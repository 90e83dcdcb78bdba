/** Second step of a run: works every row in every size and asks every language. */
import { openWorld } from '../world.ts';
import { openOwnRooms } from '../rooms.ts';
import { stepHandler } from '../step-handler.ts';

export const handler = stepHandler('check', async () => openWorld(await openOwnRooms()));
