/** Last step of a run: the manifest is written once, then the pointer moves. */
import { openWorld } from '../world.ts';
import { openOwnRooms } from '../rooms.ts';
import { stepHandler } from '../step-handler.ts';

export const handler = stepHandler('stage', async () => openWorld(await openOwnRooms()));
