/**
 * What a route may touch on behalf of one studio: its two rooms, addresses lent for keys inside them, the
 * hour and a fresh name. Made for each call from the studio of its token, so that no route can reach out
 * of that studio.
 */
import { randomUUID } from 'node:crypto';
import type { S3Client } from '@aws-sdk/client-s3';
import type { DownloadTerms, SignedForm, UploadTerms } from '../../src/store/s3-signing.ts';
import { signDownload, signUpload } from '../../src/store/s3-signing.ts';
import { environment } from '../environment.ts';
import type { StudioStores } from '../world.ts';
import { openStudio } from '../world.ts';

export interface Desk extends StudioStores {
  readonly studio: string;
  readonly now: Date;
  newId(): string;
  /** The address of the pages, without a slash at the end. */
  pagesAt(): string;
  /** `key` is the whole key among the uploads. */
  signUpload(key: string, terms: UploadTerms): Promise<SignedForm>;
  /** `key` is one of the studio's releases. */
  signDownload(key: string, terms: DownloadTerms): Promise<string>;
}

export function openDesk(studio: string, client: S3Client, signer: S3Client): Desk {
  return {
    ...openStudio(studio, client),
    studio,
    now: new Date(),
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
