/**
 * Handing a bundle in: the address of one upload in the studio's folder, with what is ordered sealed into
 * it, and the run that was started for it once it has arrived.
 */
import { z } from 'zod';
import { API_LIMITS, BUNDLE_LIMITS } from '../../src/base/limits.ts';
import { settings } from '../../src/pipeline/payloads.ts';
import { recallRunOf } from '../../src/pipeline/starts.ts';
import { SETTINGS_NAME, writeSettings } from '../starter/start.ts';
import { arrivalKey } from './arrivals.ts';
import { readOrder } from '../../src/desk/api/asked.ts';
import { Refusal } from '../../src/desk/api/refusal.ts';
import { type Answer, answer, type Call } from './call.ts';
import type { Desk } from './desk.ts';

/** `leadTo` names a place, never an address: nobody can have a browser led elsewhere. */
const opening = settings.extend({
  leadTo: z.literal('desk').optional(),
  /** It waits to be laid on the shelf, and starts no run. */
  into: z.literal('shelf').optional(),
});

export async function openUpload({ body }: Call, desk: Desk): Promise<Answer> {
  const { leadTo, into, ...order } = readOrder(opening, body);
  if (into !== undefined && Object.keys(order).length > 0)
    throw new Refusal(400, 'The order cannot be read', 'into: a run is ordered later');
  const upload = desk.newId();
  const key = (into === 'shelf' ? arrivalKey : keyOf)(desk.studio, upload);
  const { url, fields } = await desk.signUpload(key, {
    contentType: 'application/zip',
    mostBytes: BUNDLE_LIMITS.zipBytes,
    seconds: API_LIMITS.uploadSeconds,
    metadata: { [SETTINGS_NAME]: writeSettings(order) },
    ...(leadTo !== undefined && { leadTo: `${desk.pagesAt()}/handed-in/${upload}` }),
  });
  const expires = new Date(desk.now.getTime() + API_LIMITS.uploadSeconds * 1000).toISOString();
  return answer({ upload, url, fields, expires }, 201);
}

export async function findUpload({ path }: Call, desk: Desk): Promise<Answer> {
  const upload = z.uuid().safeParse(path['upload']);
  if (!upload.success) throw new Refusal(400, 'An upload is named by a UUID');
  const run = await recallRunOf(desk.work, keyOf(desk.studio, upload.data));
  return answer({ upload: upload.data, ...(run !== undefined && { run }) });
}

const keyOf = (studio: string, upload: string): string => `${studio}/${upload}.zip`;
