/** `castoff demo`: publishes a starter of the program into ./out, for a first look. */
import path from 'node:path';
import type { Command } from '../command.ts';
import { startersFolder } from '../resources.ts';
import { publishBundle } from './publish.ts';

const DEMO = 'breakwater-hat';

export const demoCommand: Command = {
  name: 'demo',
  words: '',
  about: 'publish the starter Breakwater Hat into ./out and say what to open',
  options: {},
  examples: ['castoff demo'],
  async run(_words, options, terminal) {
    terminal.out('Publishing the starter Breakwater Hat of the studio Northfold into ./out');
    return publishBundle(path.join(startersFolder(), DEMO), 'out', options, terminal);
  },
};
