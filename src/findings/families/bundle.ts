/** Findings of the family `bundle`: each code with its severity, its facts and how they are said. */
import { entry } from '../finding.ts';

const list = (words: readonly string[]): string =>
  words.length < 2
    ? words.join('')
    : `${words.slice(0, -1).join(', ')} or ${words[words.length - 1]}`;
const quoted = (words: readonly string[]): string => list(words.map((word) => `“${word}”`));

export const bundleFamily = {
  'bundle/shape': entry<{ problem: string; remedy?: string }>({
    severity: 'error',
    about: 'A value is not what the bundle format allows at this place.',
    word: ({ problem, remedy }) => ({
      headline: problem,
      ...(remedy !== undefined && { action: remedy }),
    }),
  }),
  'bundle/syntax': entry<{ line: number; column: number; found: string; expected: string }>({
    severity: 'error',
    about: 'A file of the bundle is not JSON.',
    word: ({ line, column, found, expected }) => ({
      headline: `not JSON: line ${line}, column ${column} has ${found} where ${expected} is needed`,
      action: `correct line ${line}; an editor that knows JSON marks the place`,
    }),
  }),
  'bundle/encoding': entry<{ line: number }>({
    severity: 'error',
    about: 'A JSON file of the bundle is not saved as UTF-8.',
    word: ({ line }) => ({
      headline: `line ${line} is not UTF-8 text`,
      action: 'save the file with the encoding UTF-8',
    }),
  }),
  'bundle/too-deep': entry<{ limit: number; line: number; column: number }>({
    severity: 'error',
    about: 'Lists and records are nested deeper than any pattern needs.',
    word: ({ limit, line, column }) => ({
      headline: `line ${line}, column ${column} opens level ${limit + 1}; at most ${limit} are read`,
      action: 'take out the extra brackets',
    }),
  }),
  'bundle/duplicate-key': entry<{ key: string; line: number; firstLine: number }>({
    severity: 'error',
    about: 'A record has the same key twice; one of the two values would be lost.',
    word: ({ key, line, firstLine }) => ({
      headline: `“${key}” stands on line ${firstLine} and again on line ${line}`,
      action: 'keep one of the two',
    }),
  }),
  'bundle/forbidden-key': entry<{ key: string }>({
    severity: 'error',
    about: 'A key that is reserved by the language the program is written in.',
    word: ({ key }) => ({
      headline: `“${key}” cannot be a key`,
      action: 'give it another name',
    }),
  }),
  'bundle/character': entry<{ character: string; name: string; position: number }>({
    severity: 'error',
    about: 'A text holds a character that cannot be seen: control, direction or broken.',
    word: ({ character, name, position }) => ({
      headline: `character ${position} of the text is ${character}, ${name}`,
      action: 'delete it and type the place again',
    }),
  }),
  'bundle/unknown-key': entry<{
    key: string;
    nearest: readonly string[];
    known: readonly string[];
  }>({
    severity: 'error',
    about: 'A key the bundle format does not know: most often a slip of the pen.',
    word: ({ key, nearest, known }) => ({
      headline: `“${key}” is not a key of this record`,
      ...(known.length > 0 && { notes: [`known here: ${known.join(', ')}`] }),
      action: nearest.length > 0 ? `did you mean ${quoted(nearest)}?` : `take “${key}” out`,
    }),
  }),
  'bundle/missing-key': entry<{ key: string; expected: string }>({
    severity: 'error',
    about: 'A key that must be there is missing.',
    word: ({ key, expected }) => ({
      headline: `“${key}” is missing`,
      action: `add “${key}”: ${expected}`,
    }),
  }),
  'bundle/wrong-type': entry<{ expected: string; found: string }>({
    severity: 'error',
    about: 'A value is of another type than its place needs.',
    word: ({ expected, found }) => ({
      headline: `${found} stands where ${expected} is needed`,
      action: `write ${expected}`,
    }),
  }),
  'bundle/wrong-value': entry<{
    found: string;
    allowed: readonly string[];
    nearest: readonly string[];
  }>({
    severity: 'error',
    about: 'A value is not one of the words allowed at its place.',
    word: ({ found, allowed, nearest }) => ({
      headline: `${found} is not one of the values known here`,
      notes: [`known: ${allowed.join(', ')}`],
      action: nearest.length > 0 ? `did you mean ${quoted(nearest)}?` : 'choose one of them',
    }),
  }),
  'bundle/missing-file': entry<{ file: string; purpose: string }>({
    severity: 'error',
    about: 'A file that the pattern names is not in the bundle.',
    word: ({ file, purpose }) => ({
      headline: `${file} is not in the bundle; it is ${purpose}`,
      action: `add ${file}, or take out what names it`,
    }),
  }),
  'bundle/similar-file': entry<{ file: string; similar: string }>({
    severity: 'error',
    about: 'A file is named with other small and capital letters, or look-alike letters.',
    word: ({ file, similar }) => ({
      headline: `${file} is not in the bundle, but ${similar} is`,
      action: 'write the name alike in both places, letter for letter',
    }),
  }),
  'bundle/unused-file': entry<{ file: string }>({
    severity: 'note',
    about: 'A file lies in the bundle and nothing names it.',
    word: ({ file }) => ({
      headline: `${file} is used by nothing and will not be published`,
      action: 'name it in pattern.json, or take it out',
    }),
  }),
  'bundle/no-picture': entry<{ file: string; problem: string }>({
    severity: 'error',
    about: 'A photograph is no JPEG, PNG or WebP, is cut off, or is larger than can be handled.',
    word: ({ file, problem }) => ({
      headline: `${file} ${problem}`,
      action: 'export the photograph again as JPEG, PNG or WebP',
    }),
  }),
} as const;
