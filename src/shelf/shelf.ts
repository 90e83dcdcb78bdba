/**
 * The shelf: bundles that somebody is at work on, each under a name, and the changes made to them. The
 * desk, the API and its client speak through these types and do not know whether a folder of this
 * machine, a store or a wire lies behind. Types only, and the one way to name the state of a file.
 */
import { hashBytes } from '../base/hash.ts';
import type { BundleFiles } from '../pattern/bundle/unpack.ts';

/** A change that was made, as the history tells it. */
export interface Change {
  /** From 1, without gaps. */
  readonly number: number;
  readonly at: string;
  readonly file: string;
  /** Empty where a whole file was put in its place. */
  readonly pointer: string;
  readonly before: string;
  readonly after: string;
  /** Of the whole file after the change: it is taken back only from that very state. */
  readonly tag: string;
  /** The number of the change that this one takes back. */
  readonly undoes?: number | undefined;
}

/** One value, as it was typed. */
export interface Correction {
  readonly file: string;
  readonly pointer: string;
  readonly value: string;
  /** The file as it was when the page was made. */
  readonly tag: string;
}

/** A warning that was looked at and stands. */
export interface Acceptance {
  readonly code: string;
  readonly where: string;
  readonly reason: string;
  readonly tag: string;
}

/** A whole file: numbers from a spreadsheet, texts from a translator. */
export interface Replacement {
  readonly file: string;
  /** The file it was made from; undefined for one that is not there yet. */
  readonly tag: string | undefined;
  readonly bytes: Uint8Array;
  /** What it brings, in a few words. */
  readonly said: string;
}

/** A bundle that was put away: nothing of it is lost, and its name is given to no other. */
export interface PutAway {
  readonly name: string;
  readonly at: string;
}

/**
 * Every method that takes a name throws a `Fault` of kind `missing` where no such bundle lies here; a
 * change throws `conflict` where the file is not as the caller saw it, and then nothing was written.
 */
export interface Shelf {
  /** In order. */
  names(): Promise<readonly string[]>;
  /** A short text that differs after every change of any file. */
  state(name: string): Promise<string>;
  files(name: string): Promise<BundleFiles>;
  /** One file alone; undefined where the bundle has none of that path. */
  file(name: string, path: string): Promise<Uint8Array | undefined>;
  /** Oldest first. */
  history(name: string): Promise<readonly Change[]>;
  starters(): Promise<readonly string[]>;
  /** A copy of a starter under a free name; gives the name. */
  begin(starter: string): Promise<string>;
  correct(name: string, correction: Correction): Promise<Change>;
  accept(name: string, acceptance: Acceptance): Promise<Change>;
  replace(name: string, replacement: Replacement): Promise<Change>;
  /** Takes the last change back. */
  undo(name: string): Promise<Change>;
  /** Takes it off the shelf, whole, until it is taken back. */
  putAway(name: string): Promise<PutAway>;
  /** What was put away, the latest first. */
  away(): Promise<readonly PutAway[]>;
  /** Gives the name under which it lies on the shelf again: its own, or the next that is free. */
  takeBack(name: string): Promise<string>;
}

export const tagOf = (bytes: Uint8Array): string => hashBytes(bytes).slice(0, 32);
