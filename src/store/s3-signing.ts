/**
 * Addresses that let somebody without keys do one thing for a while: upload one object of bounded size
 * under a key we choose, by a form or a request, or download one object. Takes a client whose rights the address lends.
 */
import { GetObjectCommand, PutObjectCommand, type S3Client } from '@aws-sdk/client-s3';
import { createPresignedPost } from '@aws-sdk/s3-presigned-post';
import { getSignedUrl } from '@aws-sdk/s3-request-presigner';

export interface Place {
  readonly bucket: string;
  readonly key: string;
}

export interface UploadTerms {
  readonly contentType: string;
  readonly mostBytes: number;
  readonly seconds: number;
  /** Kept with the object; the uploader can neither change it nor leave it out. */
  readonly metadata: Readonly<Record<string, string>>;
  /** Where the store leads the browser once the file is there. */
  readonly leadTo?: string;
}

/** A form to be posted as multipart/form-data: the fields, then the file under `file`. */
export interface SignedForm {
  readonly url: string;
  readonly fields: Readonly<Record<string, string>>;
}

export async function signUpload(
  client: S3Client,
  { bucket, key }: Place,
  { contentType, mostBytes, seconds, metadata, leadTo }: UploadTerms,
): Promise<SignedForm> {
  const said = Object.entries(metadata).map(([name, value]) => [`x-amz-meta-${name}`, value]);
  return createPresignedPost(client, {
    Bucket: bucket,
    Key: key,
    Fields: {
      'Content-Type': contentType,
      ...(leadTo !== undefined && { success_action_redirect: leadTo }),
      ...Object.fromEntries(said),
    },
    Conditions: [['content-length-range', 1, mostBytes]],
    Expires: seconds,
  });
}

export interface DownloadTerms {
  readonly fileName: string;
  readonly mediaType: string;
  readonly seconds: number;
  /** A browser shows it by itself; otherwise it is kept as a file. */
  readonly shown?: boolean;
}

/** `fileName` must be plain: letters, digits, full stops and hyphens. */
export const signDownload = (
  client: S3Client,
  { bucket, key }: Place,
  { fileName, mediaType, seconds, shown = false }: DownloadTerms,
): Promise<string> =>
  getSignedUrl(
    client,
    new GetObjectCommand({
      Bucket: bucket,
      Key: key,
      ResponseContentType: mediaType,
      ResponseContentDisposition: `${shown ? 'inline' : 'attachment'}; filename="${fileName}"`,
    }),
    { expiresIn: seconds },
  );

/** The object as it was put, under the name and the kind it was put with. */
export const signFetch = (
  client: S3Client,
  { bucket, key }: Place,
  seconds: number,
): Promise<string> =>
  getSignedUrl(client, new GetObjectCommand({ Bucket: bucket, Key: key }), { expiresIn: seconds });

export interface PutTerms {
  readonly contentType: string;
  readonly sizeBytes: number;
  readonly seconds: number;
  /** Under which a browser keeps it; it shows the object where left out. Plain, as for a download. */
  readonly fileName?: string;
}

/** One PUT of exactly that size and kind; the headers are sealed and must be sent along. */
export interface SignedPut {
  readonly url: string;
  readonly headers: Readonly<Record<string, string>>;
}

export async function signPut(
  client: S3Client,
  { bucket, key }: Place,
  { contentType, sizeBytes, seconds, fileName }: PutTerms,
): Promise<SignedPut> {
  const disposition = fileName === undefined ? 'inline' : `attachment; filename="${fileName}"`;
  const url = await getSignedUrl(
    client,
    new PutObjectCommand({
      Bucket: bucket,
      Key: key,
      ContentType: contentType,
      ContentLength: sizeBytes,
      ContentDisposition: disposition,
    }),
    {
      expiresIn: seconds,
      signableHeaders: new Set(['host', 'content-type', 'content-length', 'content-disposition']),
    },
  );
  return { url, headers: { 'content-type': contentType, 'content-disposition': disposition } };
}
