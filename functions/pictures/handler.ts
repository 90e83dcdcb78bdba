/** Third step of a run: every photograph in its print and shop sizes. */
import { openPorts } from '../ports.ts';
import { openOwnRooms } from '../rooms.ts';
import { stepHandler } from '../step-handler.ts';

export const handler = stepHandler('pictures', async () => openPorts(await openOwnRooms()));
