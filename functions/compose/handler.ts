/** Fourth step of a run, once per language and edition: the print document. */
import { openWorld } from '../world.ts';
import { openOwnRooms } from '../rooms.ts';
import { stepHandler } from '../step-handler.ts';

export const handler = stepHandler('compose', async () => openWorld(await openOwnRooms()));
