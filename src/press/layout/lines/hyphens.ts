/**
 * Hyphenation by language: positions inside a word where a hyphen may be put (Liang's patterns, package
 * `hyphen`), kept away from the ends of the word by our own least numbers of letters. Patterns of a
 * language are read when its first long word is met, and each word is looked up once.
 */
import { createRequire } from 'node:module';
import { BoundedCache } from '../../fonts/bounded-cache.ts';

interface Patterns {
  hyphenateSync(text: string): string;
}

interface Rules {
  /** Folder of the package. */
  readonly patterns: string;
  /** Least letters before and after the hyphen. */
  readonly left: number;
  readonly right: number;
}

/** Least numbers as the styles of the languages ask (from memory of their composition rules). */
const RULES: Readonly<Record<string, Rules>> = {
  'en-gb': { patterns: 'en-gb', left: 3, right: 3 },
  en: { patterns: 'en-us', left: 2, right: 3 },
  bg: { patterns: 'bg', left: 2, right: 2 },
  ca: { patterns: 'ca', left: 2, right: 2 },
  cs: { patterns: 'cs', left: 2, right: 3 },
  da: { patterns: 'da', left: 2, right: 3 },
  de: { patterns: 'de', left: 3, right: 3 },
  el: { patterns: 'el-monoton', left: 2, right: 2 },
  es: { patterns: 'es', left: 2, right: 3 },
  et: { patterns: 'et', left: 2, right: 3 },
  fi: { patterns: 'fi', left: 2, right: 3 },
  fr: { patterns: 'fr', left: 3, right: 3 },
  hr: { patterns: 'hr', left: 2, right: 3 },
  hu: { patterns: 'hu', left: 2, right: 3 },
  is: { patterns: 'is', left: 3, right: 3 },
  it: { patterns: 'it', left: 2, right: 3 },
  lt: { patterns: 'lt', left: 2, right: 3 },
  lv: { patterns: 'lv', left: 2, right: 3 },
  nb: { patterns: 'nb', left: 2, right: 3 },
  nl: { patterns: 'nl', left: 2, right: 3 },
  nn: { patterns: 'nn', left: 2, right: 3 },
  no: { patterns: 'nb', left: 2, right: 3 },
  pl: { patterns: 'pl', left: 2, right: 3 },
  pt: { patterns: 'pt', left: 2, right: 3 },
  ro: { patterns: 'ro', left: 2, right: 3 },
  ru: { patterns: 'ru', left: 2, right: 3 },
  sk: { patterns: 'sk', left: 2, right: 3 },
  sl: { patterns: 'sl', left: 2, right: 3 },
  sv: { patterns: 'sv', left: 2, right: 3 },
  tr: { patterns: 'tr', left: 2, right: 3 },
  uk: { patterns: 'uk', left: 3, right: 3 },
};

/** Shorter words are not worth a hyphen. */
const SHORTEST_WORD = 6;
const WORDS_KEPT = 8000;
const SOFT_HYPHEN = '\u00ad';
const LETTERS = /\p{L}[\p{L}\p{M}]*/gu;

const load = createRequire(import.meta.url);
const loaded = new Map<string, Patterns>();
const words = new BoundedCache<string, readonly number[]>(WORDS_KEPT);

function rulesFor(language: string): Rules | undefined {
  const tag = language.toLowerCase();
  return RULES[tag] ?? RULES[tag.split('-')[0] ?? ''];
}

function patternsOf(folder: string): Patterns {
  const known = loaded.get(folder);
  if (known !== undefined) return known;
  const patterns = load(`hyphen/${folder}`) as Patterns;
  loaded.set(folder, patterns);
  return patterns;
}

/** Offsets in one word of letters, each before the letter that would begin the next line. */
function positionsInWord(word: string, rules: Rules): readonly number[] {
  const key = `${rules.patterns} ${word}`;
  const known = words.get(key);
  if (known !== undefined) return known;
  const positions: number[] = [];
  const parts = patternsOf(rules.patterns).hyphenateSync(word).split(SOFT_HYPHEN);
  let offset = 0;
  for (const part of parts.slice(0, -1)) {
    offset += part.length;
    if (offset >= rules.left && word.length - offset >= rules.right) positions.push(offset);
  }
  words.set(key, positions);
  return positions;
}

/** Offsets in a text without spaces where a hyphen may be put; none in words that hold figures. */
export function hyphenPositions(text: string, language: string): readonly number[] {
  if (text.length < SHORTEST_WORD || /\p{N}/u.test(text)) return [];
  const rules = rulesFor(language);
  if (rules === undefined) return [];
  const positions: number[] = [];
  for (const match of text.matchAll(LETTERS)) {
    const [word] = match;
    if (word.length < SHORTEST_WORD || word === word.toUpperCase()) continue;
    positions.push(...positionsInWord(word, rules).map((offset) => match.index + offset));
  }
  return positions;
}
