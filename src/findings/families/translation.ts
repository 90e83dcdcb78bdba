/** Findings of the family `translation`: each code with its severity, its facts and how they are said. */
import { entry } from '../finding.ts';

const AGAIN = 'send it out again: castoff translate BUNDLE --to';

/** A text long enough to be known again. */
const brief = (text: string): string => (text.length > 240 ? `${text.slice(0, 237)}…` : text);

export const translationFamily = {
  'translation/outdated': entry<{
    language: string;
    segment: string;
    source: string;
    translation: string;
  }>({
    severity: 'error',
    about: 'The source of a text was changed after it was translated.',
    word: ({ language, segment, source, translation }) => ({
      headline: `${language}: the source of “${segment}” was changed after it was translated`,
      notes: [
        `source now: ${brief(source)}`,
        ...(translation === '' ? [] : [`${language}: ${brief(translation)}`]),
      ],
      action: `castoff translate BUNDLE --to ${language} sends it out; or hold ${language} over: "heldOver" in pattern.json`,
    }),
  }),
  'translation/missing': entry<{ language: string; segment: string; source: string }>({
    severity: 'error',
    about: 'The source has a text that a language tied to it has not.',
    word: ({ language, segment, source }) => ({
      headline: `${language} lacks the text “${segment}”`,
      notes: [`source: ${brief(source)}`],
      action: `castoff translate BUNDLE --to ${language} sends it out; or hold ${language} over: "heldOver" in pattern.json`,
    }),
  }),
  'translation/moved': entry<{ language: string; key: string }>({
    severity: 'error',
    about:
      'Paragraphs of the source were moved or taken out, and those of the translation were not.',
    word: ({ language, key }) => ({
      headline: `${language}: the paragraphs of “${key}” are not in the order of the source`,
      action: `put them in order in prose/${language}.json, then castoff translate BUNDLE --record ${language}`,
    }),
  }),
  'translation/untied': entry<{ language: string; texts: number }>({
    severity: 'note',
    about: 'Texts of a language are not tied to the source they were translated from.',
    word: ({ language, texts }) => ({
      headline: `${language}: ${texts} ${texts === 1 ? 'text is' : 'texts are'} not tied to a source, so that a change of it is not seen`,
      action: `where they say what the source says, record it: castoff translate BUNDLE --record ${language}`,
    }),
  }),
  'translation/held-over': entry<{ language: string; reason: string }>({
    severity: 'note',
    about: 'The designer holds a language over for a later version.',
    word: ({ language, reason }) => ({ headline: `${language} is held over: ${reason}` }),
  }),
  'translation/held-over-unknown': entry<{ language: string; languages: readonly string[] }>({
    severity: 'error',
    about: 'A language is held over that the pattern is not published in.',
    word: ({ language, languages }) => ({
      headline: `${language} is held over and is no language of the pattern`,
      action: `one of ${languages.join(', ')}; or take it out of heldOver`,
    }),
  }),

  // ------------------------------------------------------------ what comes back from a translator
  'translation/other-pattern': entry<{ problem: string; remedy: string }>({
    severity: 'error',
    about: 'A file from a translator belongs to another pattern or another pair of languages.',
    word: ({ problem, remedy }) => ({ headline: problem, action: remedy }),
  }),
  'translation/unknown-segment': entry<{ segment: string }>({
    severity: 'error',
    about: 'A file from a translator has a segment that the source has not.',
    word: ({ segment }) => ({
      headline: `the source has no text “${segment}”`,
      action: `it was taken out since: ${AGAIN}, or take the segment out of the file`,
    }),
  }),
  'translation/twice': entry<{ segment: string }>({
    severity: 'error',
    about: 'A file from a translator has one segment twice.',
    word: ({ segment }) => ({
      headline: `“${segment}” is in the file twice`,
      action: 'keep one of the two',
    }),
  }),
  'translation/source-changed': entry<{ segment: string; sent: string; now: string }>({
    severity: 'error',
    about: 'The source of a segment was changed while it was being translated.',
    word: ({ segment, sent, now }) => ({
      headline: `the source of “${segment}” was changed after the file went out`,
      notes: [`sent: ${brief(sent)}`, `now: ${brief(now)}`],
      action: AGAIN,
    }),
  }),
  'translation/placeholder': entry<{
    segment: string;
    shown: string;
    problem: 'dropped' | 'doubled' | 'unknown';
    source: string;
    target: string;
  }>({
    severity: 'error',
    about: 'A protected number or term of the source is dropped, doubled or not of this segment.',
    word: ({ segment, shown, problem, source, target }) => ({
      headline: `“${segment}”: ${
        problem === 'dropped'
          ? `${shown} is missing`
          : problem === 'doubled'
            ? `${shown} stands there more than once`
            : `the placeholder ${shown} is none of this segment`
      }`,
      notes: [`source: ${brief(source)}`, `target: ${brief(target)}`],
      action:
        problem === 'dropped'
          ? 'put its placeholder back where it belongs in the sentence'
          : 'take it out of the target',
    }),
  }),
  'translation/number': entry<{
    segment: string;
    numbers: readonly string[];
    source: string;
    target: string;
  }>({
    severity: 'error',
    about: 'A translated segment has numbers that its source has not.',
    word: ({ segment, numbers, source, target }) => ({
      headline: `“${segment}” has ${numbers.join(', ')}, which the source has not`,
      notes: [`source: ${brief(source)}`, `target: ${brief(target)}`],
      action: 'put the placeholder of the source in the place of the typed number',
    }),
  }),
  'translation/too-long': entry<{ segment: string; letters: number; limit: number }>({
    severity: 'error',
    about: 'A translated text is longer than the place it stands in.',
    word: ({ segment, letters, limit }) => ({
      headline: `“${segment}” has ${letters} characters; its place has room for ${limit}`,
      action: 'say it more briefly',
    }),
  }),
  'translation/character': entry<{ segment: string; character: string; name: string }>({
    severity: 'error',
    about: 'A translated text holds a character that may not stand in a bundle.',
    word: ({ segment, character, name }) => ({
      headline: `“${segment}” holds ${character}, ${name}`,
      action: 'take it out; direction marks alone may stand in texts from right to left',
    }),
  }),
  'translation/open': entry<{ language: string; segments: readonly string[] }>({
    severity: 'note',
    about: 'Segments of a file from a translator have no translation yet.',
    word: ({ language, segments }) => ({
      headline: `${language}: ${segments.length} ${segments.length === 1 ? 'segment is' : 'segments are'} still open: ${segments.slice(0, 12).join(', ')}${segments.length > 12 ? ', …' : ''}`,
      action: `castoff translate BUNDLE --to ${language} sends them out again`,
    }),
  }),
  'translation/nothing': entry<{ language: string }>({
    severity: 'error',
    about: 'A file from a translator has no translation at all.',
    word: ({ language }) => ({
      headline: `no segment of the file is translated into ${language}`,
      action: 'is this the file the translator sent back?',
    }),
  }),
} as const;
