/**
 * What a route may touch on behalf of one studio: its rooms, addresses lent for keys inside them, the
 * machine that publishes, the hour and a fresh name. Made for each call from the studio of its token, so
 * that no route can reach out of that studio.
 */
import { randomUUID } from 'node:crypto';
import path from 'node:path';
import type { S3Client } from '@aws-sdk/client-s3';
import type { SFNClient } from '@aws-sdk/client-sfn';
import { API_LIMITS, BUNDLE_LIMITS } from '../../src/base/limits.ts';
import { openShelf } from '../../src/shelf/open-shelf.ts';
import type { Shelf } from '../../src/shelf/shelf.ts';
import { storeRoom } from '../../src/shelf/store-room.ts';
import {
  type DownloadTerms,
  type PutTerms,
  signDownload,
  type SignedForm,
  type SignedPut,
  signFetch,
  signPut,
  signUpload,
  type UploadTerms,
} from '../../src/store/s3-signing.ts';
import { fetchIfThere } from '../../src/store/s3-uploads.ts';
import { environment } from '../environment.ts';
import { type Machines, openMachines } from '../machines.ts';
import type { StudioStores } from '../world.ts';
import { openStudio } from '../world.ts';

export interface Desk extends StudioStores {
  readonly studio: string;
  readonly now: Date;
  readonly machines: Machines;
  /** What lies on the studio's shelf. */
  readonly bundles: Shelf;
  newId(): string;
  /** The address of the pages, without a slash at the end. */
  pagesAt(): string;
  /** `key` is the whole key among the uploads. */
  signUpload(key: string, terms: UploadTerms): Promise<SignedForm>;
  /** `key` is one of the studio's releases. */
  signDownload(key: string, terms: DownloadTerms): Promise<string>;
  /** `key` is one of the studio's in that bucket; good as long as a download. */
  signFetch(bucket: 'shelf' | 'work', key: string): Promise<string>;
  /** `key` is one of the studio's work room. */
  signPut(key: string, terms: PutTerms): Promise<SignedPut>;
  /** `key` is the whole key among the uploads. A zip that is too large is a `Fault`. */
  fetchUpload(key: string): Promise<Uint8Array | undefined>;
}

export interface Clients {
  readonly storage: S3Client;
  /** Signing asks nobody, so there is nothing to trace; and what is signed must hold nothing of a trace. */
  readonly signer: S3Client;
  readonly machines: SFNClient;
}

export function openDesk(studio: string, { storage, signer, machines }: Clients): Desk {
  const stores = openStudio(studio, storage);
  const now = new Date();
  const starters = path.join(ownFolder(), 'templates', 'starters');
  return {
    ...stores,
    studio,
    now,
    bundles: openShelf({ room: storeRoom(stores.shelf), starters, now: () => now }),
    machines: openMachines(machines),
    newId: randomUUID,
    pagesAt: () => environment('DESK_ADDRESS'),
    signUpload: (key, terms) =>
      signUpload(signer, { bucket: environment('UPLOADS_BUCKET'), key }, terms),
    signDownload: (key, terms) =>
      signDownload(
        signer,
        { bucket: environment('RELEASES_BUCKET'), key: `${studio}/${key}` },
        terms,
      ),
    signFetch: (bucket, key) =>
      signFetch(
        signer,
        { bucket: environment(BUCKETS[bucket]), key: `${studio}/${key}` },
        API_LIMITS.downloadSeconds,
      ),
    signPut: (key, terms) =>
      signPut(signer, { bucket: environment('WORK_BUCKET'), key: `${studio}/${key}` }, terms),
    fetchUpload: (key) =>
      fetchIfThere(storage, { bucket: environment('UPLOADS_BUCKET'), key }, BUNDLE_LIMITS.zipBytes),
  };
}

const BUCKETS = { shelf: 'SHELF_BUCKET', work: 'WORK_BUCKET' } as const;

/** The folder that Lambda unpacks a function into; the project anywhere else. */
const ownFolder = (): string => process.env['LAMBDA_TASK_ROOT'] ?? process.cwd();
