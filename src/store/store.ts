/**
 * The one port to storage: named objects, written once or with a condition. A folder and S3 fulfil
 * the same contract (`tests/store`). Keys are relative, with `/`; the store knows no releases.
 */
export interface StoredObject {
  readonly bytes: Uint8Array;
  /** Opaque version tag for conditional writes. */
  readonly tag: string;
}

export interface Listed {
  readonly key: string;
  readonly sizeBytes: number;
  readonly modified: Date;
}

/** `absent`: only where no object is (If-None-Match: *); `{ tag }`: only where it is unchanged. */
export type WriteCondition = 'absent' | { readonly tag: string };

export interface PutOptions {
  readonly contentType?: string;
  readonly condition?: WriteCondition;
}

export type PutResult = { readonly ok: true; readonly tag: string } | { readonly ok: false };

/** All methods throw `Fault` of kind `store` on operating faults, with `retryable` set. */
export interface Store {
  /** A short human name: the folder's path or `s3://bucket/prefix`. */
  readonly name: string;
  get(key: string): Promise<StoredObject | undefined>;
  has(key: string): Promise<boolean>;
  /** `ok: false` means the condition did not hold; nothing was written. Otherwise all or nothing. */
  put(key: string, bytes: Uint8Array, options?: PutOptions): Promise<PutResult>;
  /** In order of key; with `after`, only what comes behind that key. */
  list(prefix: string, after?: string): AsyncIterable<Listed>;
  delete(key: string): Promise<void>;
}
