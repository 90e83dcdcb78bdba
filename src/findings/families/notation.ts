/** Findings of the family `notation`: each code with its severity, its facts and how they are said. */
import { entry } from '../finding.ts';

const quoted = (words: readonly string[]): string =>
  words.map((each) => `“${each}”`).join(', ').replace(/, ([^,]*)$/, ' or $1'); // prettier-ignore

/** Closes “did you mean” for the nearest known words; nothing where none is near. */
const meant = (nearest: readonly string[]) =>
  nearest.length === 0 ? {} : { action: `did you mean ${quoted(nearest)}?` };

export const notationFamily = {
  'notation/unknown-word': entry<{ word: string; nearest: readonly string[] }>({
    severity: 'error',
    about: 'A word that is no stitch, no abbreviation and no term of the notation.',
    word: ({ word, nearest }) => ({
      headline: `“${word}” is not a known stitch or term`,
      ...(nearest.length > 0
        ? meant(nearest)
        : { action: 'write it with known stitches, or define it under stitches in the bundle' }),
    }),
  }),
  'notation/unknown-name': entry<{ what: string; name: string; nearest: readonly string[] }>({
    severity: 'error',
    about: 'A chart, stitch pattern or size that the bundle does not have.',
    word: ({ what, name, nearest }) => ({
      headline: `there is no ${what} “${name}” in this pattern`,
      ...meant(nearest),
    }),
  }),
  'notation/size-list': entry<{ values: number; sizes: number; names: readonly string[] }>({
    severity: 'error',
    about: 'A list of numbers that has not one number for each size.',
    word: ({ values, sizes, names }) => ({
      headline:
        values < sizes
          ? `the list has ${values} numbers for ${sizes} sizes: ${sizes - values} missing`
          : `the list has ${values} numbers for ${sizes} sizes: ${values - sizes} too many`,
      notes: [`the sizes are ${names.join(', ')}`],
      action: 'give one number for all sizes, or one for each; write – where a size has none',
    }),
  }),
  'notation/open-bracket': entry<{ bracket: string; closing: string }>({
    severity: 'error',
    about: 'A bracket that is opened and not closed.',
    word: ({ bracket, closing }) => ({
      headline: `“${bracket}” is never closed`,
      action: `close it with “${closing}”`,
    }),
  }),
  'notation/stray-bracket': entry<{ bracket: string }>({
    severity: 'error',
    about: 'A closing bracket that nothing opens.',
    word: ({ bracket }) => ({
      headline: `“${bracket}” closes nothing`,
      action: 'open the group it ends, or take it out',
    }),
  }),
  'notation/open-repeat': entry<{ star: string }>({
    severity: 'error',
    about: 'A * without its “rep from *”.',
    word: ({ star }) => ({
      headline: `“${star}” is never repeated`,
      action: `say how often: “; rep from ${star} to end”, “to last 3 sts”, “5 more times”`,
    }),
  }),
  'notation/stray-repeat': entry<{ star: string }>({
    severity: 'error',
    about: 'A “rep from *” without a * before it.',
    word: ({ star }) => ({
      headline: `“rep from ${star}” has no ${star} to go back to`,
      action: `put ${star} where the repeat begins`,
    }),
  }),
  'notation/empty-repeat': entry<{ found: string }>({
    severity: 'error',
    about: 'A repeat or a group with nothing in it.',
    word: ({ found }) => ({
      headline: `there is nothing to work in “${found}”`,
      action: 'put stitches into it, or take it out',
    }),
  }),
  'notation/times-missing': entry<{ group: string }>({
    severity: 'error',
    about: 'A group in brackets that does not say how often or into what it is worked.',
    word: ({ group }) => ({
      headline: `“${group}” does not say how often it is worked`,
      action: 'add “4 times”, “twice”, “to end” or “in next st”',
    }),
  }),
  'notation/number-expected': entry<{ what: string; found: string }>({
    severity: 'error',
    about: 'A place where a number belongs.',
    word: ({ what, found }) => ({
      headline: `${what} needs a number${found === '' ? '' : `, not “${found}”`}`,
      action: 'write the number, or one for each size: 8 (9, 10)',
    }),
  }),
  'notation/number-too-large': entry<{ number: number; most: number }>({
    severity: 'error',
    about: 'A number beyond what anybody knits.',
    word: ({ number, most }) => ({
      headline: `${number} is more than the ${most} that can be counted here`,
      action: 'correct the number',
    }),
  }),
  'notation/expected': entry<{ what: string; found: string }>({
    severity: 'error',
    about: 'A phrase that breaks off or goes on in a way that cannot be read.',
    word: ({ what, found }) => ({
      headline: found === '' ? `${what} is missing here` : `${what} is missing before “${found}”`,
      action: `add ${what}`,
    }),
  }),
  'notation/trailing': entry<{ found: string; after: string }>({
    severity: 'error',
    about: 'Words after an instruction that is already complete.',
    word: ({ found, after }) => ({
      headline: `“${found}” cannot follow “${after}”`,
      action: 'put a comma or a full stop between two instructions, or take it out',
    }),
  }),
  'notation/unreadable': entry<{ words: string }>({
    severity: 'error',
    about: 'Known words in an order that makes no instruction.',
    word: ({ words }) => ({
      headline: `“${words}” cannot be read as an instruction`,
      action:
        'say it as a row, or put it into the prose of the bundle and refer to it: See "finishing"',
    }),
  }),
  'notation/too-deep': entry<{ most: number }>({
    severity: 'error',
    about: 'Brackets within brackets beyond what can be knitted from.',
    word: ({ most }) => ({
      headline: `brackets stand more than ${most} deep`,
      action: 'break the row into smaller groups',
    }),
  }),
  'notation/too-long': entry<{ length: number; most: number }>({
    severity: 'error',
    about: 'A line longer than any row.',
    word: ({ length, most }) => ({
      headline: `the line has ${length} characters; at most ${most} can be read`,
      action: 'break it into several lines',
    }),
  }),
  'notation/too-many-lines': entry<{ lines: number; most: number }>({
    severity: 'error',
    about: 'A text of more lines than any pattern.',
    word: ({ lines, most }) => ({
      headline: `the text has ${lines} lines; at most ${most} can be read`,
      action: 'break it into several texts',
    }),
  }),
  'notation/empty': entry<{ what: string }>({
    severity: 'error',
    about: 'A line without an instruction.',
    word: ({ what }) => ({
      headline: `${what} says nothing to work`,
      action: 'write the instruction, or take the line out',
    }),
  }),
} as const;
