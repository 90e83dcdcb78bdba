/**
 * What is done for an upload before its run starts, whether it came alone or in a batch: its content is
 * hashed, its order read, and the run written down in the studio's room, so that whoever uploaded it can
 * ask for it.
 */
import type { S3Client } from '@aws-sdk/client-s3';
import { BUNDLE_LIMITS } from '../../src/base/limits.ts';
import { keepStart } from '../../src/pipeline/starts.ts';
import { lookAtVersion } from '../../src/store/s3-uploads.ts';
import { openStudio } from '../world.ts';
import type { Arrival, Start } from './start.ts';
import { planStart, readSettings } from './start.ts';

export async function prepareRun(arrival: Arrival, client: S3Client): Promise<Start> {
  const { hash, metadata } = await lookAtVersion(client, arrival.upload, BUNDLE_LIMITS.zipBytes);
  const start = planStart(arrival, hash, readSettings(metadata));
  const { work } = openStudio(arrival.studio, client);
  const { source, settings } = start.input;
  const started = { run: start.name, at: new Date().toISOString(), source, settings };
  await keepStart(work, started, arrival.upload.key);
  return start;
}
