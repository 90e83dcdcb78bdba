/** `castoff schema`: prints the bundle format as JSON Schema, for editors that complete and check. */
import { jsonSchema } from '../../pattern/bundle/json-schema.ts';
import type { Command } from '../command.ts';

export const schemaCommand: Command = {
  name: 'schema',
  words: '',
  about:
    'print the JSON Schema of pattern.json, so that an editor completes and checks while typing',
  options: {},
  examples: ['castoff schema > castoff-1.schema.json'],
  run(_words, _options, terminal) {
    terminal.out(JSON.stringify(jsonSchema(), null, 2));
    return Promise.resolve(0);
  },
};
