/**
 * Faults of the surroundings: input that cannot be read at all, a store that does not answer, a
 * version that is taken. They are thrown, carry a cause, and say whether trying again can help.
 * Faults inside a readable pattern are findings and are never thrown.
 */
export type FaultKind =
  | 'usage' // the command was called wrongly
  | 'input' // the bundle cannot be read: no zip, no JSON, path tricks, over a limit
  | 'conflict' // the version is released already with other content, or somebody else was first
  | 'missing' // something named does not exist
  | 'store' // the folder or the object store failed
  | 'cancelled';

export class Fault extends Error {
  override name = 'Fault';
  readonly kind: FaultKind;
  /** True where the same call may succeed later without a change of input. */
  readonly retryable: boolean;
  /** Where it happened: a path inside the bundle, a key, an option. */
  readonly place: string | undefined;
  /** What the person can do about it. */
  readonly remedy: string | undefined;

  constructor(
    kind: FaultKind,
    message: string,
    more: { place?: string; remedy?: string; retryable?: boolean; cause?: unknown } = {},
  ) {
    super(message, more.cause === undefined ? undefined : { cause: more.cause });
    this.kind = kind;
    this.retryable = more.retryable ?? false;
    this.place = more.place;
    this.remedy = more.remedy;
  }
}
