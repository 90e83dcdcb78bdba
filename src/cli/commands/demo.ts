/** `castoff demo`: publishes a starter of the program into ./out, for a first look. */
import path from 'node:path';
import type { Command } from '../command.ts';
import { startersFolder } from '../resources.ts';
import { publishBundle } from './publish.ts';

const DEMO = 'breakwater-hat';
/** A starter is ready in twenty languages; four show two alphabets, two papers and hyphenation. */
const LANGUAGES = 'en-US,de,fr,ja';

export const demoCommand: Command = {
  name: 'demo',
  words: '',
  about: 'publish the starter Breakwater Hat into ./out, in four languages, and say what to open',
  options: {},
  examples: ['castoff demo'],
  async run(_words, options, terminal) {
    terminal.out('Publishing the starter Breakwater Hat of the studio Northfold into ./out');
    return publishBundle(
      path.join(startersFolder(), DEMO),
      'out',
      { ...options, languages: LANGUAGES },
      terminal,
    );
  },
};
