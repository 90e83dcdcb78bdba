/**
 * Where bundles lie, as little as a shelf needs of it: a folder of this machine and an object store
 * fulfil the same contract (`tests/shelf/room.ts`). A change of one file and its line in the history
 * are written together or not at all, one after the other for each bundle.
 */
import type { BundleFiles } from '../pattern/bundle/unpack.ts';
import type { Change, PutAway } from './shelf.ts';

/** A bundle at the moment of a change. */
export interface Now {
  /** At least its JSON files. */
  readonly files: BundleFiles;
  readonly history: readonly Change[];
  /** The file as it was before a change of the history; undefined where there was none. */
  readonly before: (change: Change) => Promise<Uint8Array | undefined>;
}

/** One file as it is to be. */
export interface Made extends Pick<Change, 'file' | 'pointer' | 'before' | 'after' | 'undoes'> {
  /** Undefined takes the file away. */
  readonly bytes: Uint8Array | undefined;
}

export interface BundleRoom {
  names(): Promise<readonly string[]>;
  state(name: string): Promise<string>;
  files(name: string): Promise<BundleFiles>;
  /** Undefined where the bundle has none of that path. */
  file(name: string, path: string): Promise<Uint8Array | undefined>;
  history(name: string): Promise<readonly Change[]>;
  /** Keeps a new bundle under the wanted name, or the first free one after it; gives the name. */
  keep(wanted: string, files: BundleFiles): Promise<string>;
  /**
   * `make` sees the bundle as it is and throws where it will not change it. It may be asked again where
   * somebody else was faster, and must not write anything itself.
   */
  change(name: string, at: Date, make: (now: Now) => Promise<Made>): Promise<Change>;
  /** A change that is made at the same time stands, before or after; nothing of either is lost. */
  putAway(name: string, at: Date): Promise<PutAway>;
  /** The latest first. */
  away(): Promise<readonly PutAway[]>;
  /** Gives the name it got: its own, or the first free one after it. */
  takeBack(name: string): Promise<string>;
}
