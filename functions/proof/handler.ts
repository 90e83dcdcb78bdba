/** Fifth step of a run, once per document: reads it again and compares it with the pattern. */
import { openWorld } from '../world.ts';
import { openOwnRooms } from '../rooms.ts';
import { stepHandler } from '../step-handler.ts';

export const handler = stepHandler('proof', async () => openWorld(await openOwnRooms()));
