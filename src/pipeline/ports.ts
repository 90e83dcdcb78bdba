/**
 * What the pipeline needs of the world and of the other rooms. The command line and the functions plug
 * the real ones in, tests plug in theirs. Types only; the steps see nothing but these.
 */
import type { Finding } from '../findings/finding.ts';
import type { BundleFiles } from '../pattern/bundle/unpack.ts';
import type { Bundle, CheckedPattern } from '../pattern/pattern.ts';
import type { Companion, CompanionOrder } from '../release/companions.ts';
import type { ReleasedFile } from '../release/manifest.ts';
import type { MarkedStage } from '../release/stage.ts';
import type { Store } from '../store/store.ts';
import type { RunEnd } from './payloads.ts';

export interface Edition {
  readonly kind: 'standard' | 'large' | 'ink-saving' | 'one-size';
  /** The size of a one-size edition, as the pattern names it. */
  readonly size?: string | undefined;
  /** Where it is not the paper of the language's country. */
  readonly paper?: 'A4' | 'Letter' | undefined;
}

/** One document to compose. */
export interface DocumentOrder {
  readonly language: string;
  readonly edition: Edition;
  /** Set where it is not for sale. */
  readonly stage?: MarkedStage | undefined;
}

/** A photograph made ready, in one of the sizes the press room offers. */
export interface Picture {
  readonly bytes: Uint8Array;
  readonly mediaType: string;
  readonly widthPixels: number;
  readonly heightPixels: number;
}

export interface ComposeResources {
  /** What changed since the version before, where the designer wrote nothing of it. */
  readonly history?: string | undefined;
  /** The print size of every photograph, by its file name in the bundle. */
  readonly pictures: ReadonlyMap<string, Picture & { readonly hash: string }>;
}

/** Where and how large photographs stand, without their bytes. */
export interface ProofResources {
  readonly history?: string | undefined;
  readonly pictures: ReadonlyMap<string, Omit<Picture, 'bytes'> & { readonly hash: string }>;
}

export interface ComposedDocument {
  readonly bytes: Uint8Array;
  readonly pages: number;
}

/** The rooms of the program, as the steps call them. All of them are pure but for fonts read once. */
export interface Rooms {
  /** Names everything but the bundle that decides the bytes: program, templates, catalogues, fonts. */
  readonly fingerprint: string;
  /**
   * The pattern worked in every size, with every finding. The bundle comes without the bytes of its
   * photographs, which were looked at when it was loaded.
   */
  check(bundle: Bundle): Promise<CheckedPattern>;
  /** What a language lacks to say this pattern. */
  checkLanguage(checked: CheckedPattern, language: string): Promise<readonly Finding[]>;
  /** Picture sizes: `print` for the documents, the others for shops. */
  readonly pictureSizes: readonly string[];
  preparePicture(bytes: Uint8Array, size: string): Promise<Picture>;
  compose(
    checked: CheckedPattern,
    order: DocumentOrder,
    resources: ComposeResources,
  ): Promise<ComposedDocument>;
  /** The composed document with its stage on every page; the document itself stays as it is. */
  mark(
    checked: CheckedPattern,
    order: DocumentOrder,
    bytes: Uint8Array,
    stage: MarkedStage,
  ): Promise<Uint8Array>;
  /** Languages whose words no knitter has looked through. */
  readonly unreviewed: readonly string[];
  /** Reads the finished document again and compares it with the pattern. */
  proof(
    checked: CheckedPattern,
    order: DocumentOrder,
    bytes: Uint8Array,
    resources: ProofResources,
  ): Promise<readonly Finding[]>;
  /** Listings, pages, correction sheets: made where their recipe leads nowhere yet. */
  companions(order: CompanionOrder): readonly Companion[];
  /** Parcels for shops, of everything else the release holds. */
  parcels(order: CompanionOrder, files: readonly ReleasedFile[]): readonly Companion[];
  /** What changed since the version before, as a line for the history; undefined where nothing did. */
  sayHistory(
    checked: CheckedPattern,
    earlier: readonly CheckedPattern[],
    language: string,
  ): string | undefined;
}

/** The size that goes into the documents. */
export const PRINT_SIZE = 'print';

/** One line of a log: an event and its facts; no texts of customers. */
export interface Log {
  info(event: string, facts: Readonly<Record<string, string | number | boolean>>): void;
  error(event: string, facts: Readonly<Record<string, string | number | boolean>>): void;
}

export const silentLog: Log = { info: () => undefined, error: () => undefined };

export type StepName =
  'intake' | 'check' | 'pictures' | 'compose' | 'proof' | 'stage' | 'report' | 'failed';

/** Something a person who waits may want to see. */
export interface Progress {
  readonly step: StepName;
  readonly state: 'started' | 'made' | 'reused' | 'done';
  readonly language?: string;
  readonly edition?: string;
  /** File name of a photograph. */
  readonly picture?: string;
}

export interface Ports {
  readonly rooms: Rooms;
  /** Reads an uploaded bundle by the reference in the run's input. */
  readBundle(reference: string): Promise<BundleFiles>;
  /** Claims between steps, findings, failure records; may be cleared after a while. */
  readonly work: Store;
  /** Artifacts, recipes, manifests, pointers; kept. */
  readonly releases: Store;
  /** A folder to hand the release over in, where there is one. */
  readonly handOver?: { readonly folder: string; readonly token: string };
  readonly log: Log;
  /** Tells whoever waits elsewhere how a run ended; at least once. */
  tell(end: RunEnd): Promise<void>;
  progress(event: Progress): void;
}
