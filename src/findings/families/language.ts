/** Findings of the family `language`: each code with its severity, its facts and how they are said. */
import { entry } from '../finding.ts';

export const languageFamily = {
  'language/missing-message': entry<{ language: string; file: string; key: string }>({
    severity: 'error',
    about: 'A language lacks a message or a glossary entry that the documents need.',
    word: ({ language, file, key }) => ({
      headline: `${language} has no words for ${key}`,
      action: `add ${key} to locales/${language}/${file}`,
    }),
  }),
  'language/unused-message': entry<{ language: string; file: string; key: string }>({
    severity: 'error',
    about: 'A language has a message that nothing asks for: most often a misspelt key.',
    word: ({ language, file, key }) => ({
      headline: `${language}: nothing asks for the message ${key}`,
      action: `correct or remove ${key} in locales/${language}/${file}`,
    }),
  }),
  'language/placeholder': entry<{
    language: string;
    file: string;
    key: string;
    slot: string;
    problem: 'missing' | 'unknown';
  }>({
    severity: 'error',
    about: 'A message leaves out a number or name, or has a placeholder that is never filled.',
    word: ({ language, file, key, slot, problem }) => ({
      headline:
        problem === 'missing'
          ? `${language}: the message ${key} leaves out {{${slot}}}`
          : `${language}: the message ${key} has {{${slot}}}, which is never filled`,
      action: `correct ${key} in locales/${language}/${file}`,
    }),
  }),
  'language/clashing-abbreviations': entry<{
    language: string;
    abbreviation: string;
    first: string;
    second: string;
  }>({
    severity: 'error',
    about: 'Two terms of one language share an abbreviation, so that a row can be misread.',
    word: ({ language, abbreviation, first, second }) => ({
      headline: `${language}: “${abbreviation}” stands for ${first} and for ${second}`,
      action: 'change one of them, or list the abbreviation under "shared" with the reason',
    }),
  }),
  'language/separator-in-term': entry<{ language: string; term: string; text: string }>({
    severity: 'error',
    about: 'A stitch holds the separator between actions, so that one stitch reads as two.',
    word: ({ language, term, text }) => ({
      headline: `${language}: “${text}” reads as more than one action`,
      action: `put what follows the separator in brackets: ${term} in locales/${language}/glossary.json`,
    }),
  }),
  'language/missing-term': entry<{ language: string; stitch: string }>({
    severity: 'error',
    about: 'A stitch of the pattern has no abbreviation and explanation in a language.',
    word: ({ language, stitch }) => ({
      headline: `${language} has no abbreviation and explanation for ${stitch}`,
      action: `add stitches/${stitch} to locales/${language}/glossary.json`,
    }),
  }),
  'language/missing-prose': entry<{ language: string; key: string }>({
    severity: 'error',
    about: 'A text of the bundle is not there in a language the pattern is published in.',
    word: ({ language, key }) => ({
      headline: `the text “${key}” is missing in ${language}`,
      action: `add ${key} to prose/${language}.json, or leave ${language} out of languages`,
    }),
  }),
  'language/unknown-name': entry<{ language: string; name: string }>({
    severity: 'error',
    about: 'A name in the pattern is no known word and has no text in a language.',
    word: ({ language, name }) => ({
      headline: `${language} has no words for the name “${name}”`,
      action: `use a known word, or give ${name} a text in prose/${language}.json`,
    }),
  }),
  'language/row-numbers': entry<{
    language: string;
    sentence: string;
    source: string;
    numbers: readonly number[];
    wanted: readonly number[];
  }>({
    severity: 'error',
    about: 'A said line does not hold the numbers of the source language.',
    word: ({ language, sentence, source }) => ({
      headline: `${language} does not say the numbers of the source`,
      notes: [`source: ${source}`, `${language}: ${sentence}`],
      action: `correct the message in locales/${language}/rows.json`,
    }),
  }),
  'language/prose-numbers': entry<{
    language: string;
    key: string;
    sentence: string;
    source: string;
  }>({
    severity: 'warning',
    about: 'A translated text does not hold the numbers of the text it was translated from.',
    word: ({ language, key, sentence, source }) => ({
      headline: `the numbers of “${key}” in ${language} are not those of the source`,
      notes: [`source: ${source}`, `${language}: ${sentence}`],
      action: `correct ${key} in prose/${language}.json, or accept it with the reason`,
    }),
  }),
} as const;
