/** One file of a packet: papers are made as bytes, and whoever asked for them decides where they go. */
export interface PacketFile {
  /** Inside the packet; may name folders of its own. */
  readonly name: string;
  readonly bytes: Uint8Array;
}
