/**
 * What a deployed function is told by its surroundings: the names of the buckets and of the state
 * machine. Read once; a missing name is a fault of the deployment and stops the function at once.
 */
import { assert } from '../src/base/assert.ts';

export function environment(name: 'WORK_BUCKET' | 'RELEASES_BUCKET' | 'STATE_MACHINE_ARN'): string {
  const value = process.env[name];
  assert(value !== undefined && value !== '', `the function is deployed without ${name}`);
  return value;
}
