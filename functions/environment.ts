/**
 * What a deployed function is told by its surroundings: the names of the buckets, of the state machine
 * and of the topic. Read once; a missing name is a fault of the deployment and stops the function at once.
 */
import { assert } from '../src/base/assert.ts';

export type Told =
  | 'UPLOADS_BUCKET'
  | 'WORK_BUCKET'
  | 'RELEASES_BUCKET'
  | 'SHELF_BUCKET'
  | 'STATE_MACHINE_ARN'
  | 'NEWS_TOPIC_ARN'
  | 'STUDIO_CLAIM'
  /** Where the API and the pages answer. */
  | 'DESK_ADDRESS'
  /** Origins at which a browser hands files in and fetches them, with spaces between. */
  | 'STORE_ORIGINS'
  | 'TOKEN_ISSUER'
  | 'DESK_CLIENT';

export function environment(name: Told): string {
  const value = process.env[name];
  assert(value !== undefined && value !== '', `the function is deployed without ${name}`);
  return value;
}
