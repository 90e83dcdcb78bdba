/** First step of a run: unpacks and validates an upload, keeps it by its content hash. */
import { NO_ROOMS, openPorts } from '../ports.ts';
import { stepHandler } from '../step-handler.ts';

export const handler = stepHandler('intake', async () => openPorts(NO_ROOMS));
