/**
 * `castoff packet`: papers for the people who look after the designer: the technical editor's packet, the
 * test knitters' copies, and what the knitters send back.
 */
import type { Command, ExitCode, Options, Terminal, Words } from '../command.ts';
import { usageFault } from '../command.ts';

type Run = (words: Words, options: Options, terminal: Terminal) => Promise<ExitCode>;

/** Each kind is loaded when it is asked for. */
const KINDS: Readonly<Record<string, () => Promise<Run>>> = {
  editor: async () => (await import('./packet-editor.ts')).runEditorPacket,
  test: async () => (await import('./packet-test.ts')).runTestPacket,
  results: async () => (await import('./packet-results.ts')).runPacketResults,
};

export const packetCommand: Command = {
  name: 'packet',
  words: 'editor BUNDLE | test BUNDLE | results FILES…',
  about: 'papers for the technical editor and the test knitters, and their results',
  options: {
    to: { kind: 'text', value: 'FOLDER', about: 'where the papers go' },
    since: {
      kind: 'text',
      value: 'FILE',
      about: 'editor: the .json of the last packet, to say what changed since',
    },
    sizes: { kind: 'text', value: 'LIST', about: 'test: copies for these sizes only: S,M' },
    languages: { kind: 'text', value: 'TAGS', about: 'test: in these languages only: en-US,de' },
    json: { kind: 'flag', about: 'results: print them as JSON' },
  },
  examples: [
    'castoff packet editor my-hat --to papers',
    'castoff packet editor my-hat --since papers/my-hat-1.0.0-editor.json --to papers/second',
    'castoff packet test my-hat --sizes S,M --languages en-US,de --to testers',
    'castoff packet results returned/*.xlsx',
  ],
  async run(words, options, terminal) {
    const [kind = '', ...rest] = words;
    const open = KINDS[kind];
    if (!open)
      throw usageFault(packetCommand, `packet needs one of: ${Object.keys(KINDS).join(', ')}`);
    return (await open())(rest, options, terminal);
  },
};
