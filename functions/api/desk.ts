/**
 * What a route may touch on behalf of one studio: its rooms, addresses lent for keys inside them, the
 * machine that publishes, the hour and a fresh name. Made for each call from the studio of its token, so
 * that no route can reach out of that studio.
 */
import { randomUUID } from 'node:crypto';
import type { S3Client } from '@aws-sdk/client-s3';
import type { SFNClient } from '@aws-sdk/client-sfn';
import type { DownloadTerms, SignedForm, UploadTerms } from '../../src/store/s3-signing.ts';
import { signDownload, signUpload } from '../../src/store/s3-signing.ts';
import { environment } from '../environment.ts';
import { type Machines, openMachines } from '../machines.ts';
import type { StudioStores } from '../world.ts';
import { openStudio } from '../world.ts';

export interface Desk extends StudioStores {
  readonly studio: string;
  readonly now: Date;
  readonly machines: Machines;
  newId(): string;
  /** The address of the pages, without a slash at the end. */
  pagesAt(): string;
  /** `key` is the whole key among the uploads. */
  signUpload(key: string, terms: UploadTerms): Promise<SignedForm>;
  /** `key` is one of the studio's releases. */
  signDownload(key: string, terms: DownloadTerms): Promise<string>;
}

export interface Clients {
  readonly storage: S3Client;
  /** Signing asks nobody, so there is nothing to trace; and what is signed must hold nothing of a trace. */
  readonly signer: S3Client;
  readonly machines: SFNClient;
}

export function openDesk(studio: string, { storage, signer, machines }: Clients): Desk {
  return {
    ...openStudio(studio, storage),
    studio,
    now: new Date(),
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
  };
}
