/**
 * Names of a pattern's measurements, pieces and fabrics as its reader says them. Takes the words of the
 * languages and a checked pattern; a name that no language knows is said as the pattern writes it.
 */
import { present } from '../base/assert.ts';
import { type Language, namesFor, sayName } from '../language/index.ts';
import type { CheckedPattern } from '../pattern/pattern.ts';

export interface Spoken {
  readonly language: Language;
  measurement(name: string): string;
  piece(title: string): string;
  fabric(name: string): string;
}

const FALLBACK = 'en-US';

/** The reader's language, or the one of the pattern's that is nearest to it: `en` may be `en-GB`. */
export function languageFor(
  tag: string,
  languages: ReadonlyMap<string, Language>,
  offered: readonly string[] = [],
): Language {
  const [base = tag] = tag.split('-');
  const near = [...offered, FALLBACK, ...languages.keys()].find((each) => each.split('-')[0] === base); // prettier-ignore
  const found = languages.get(tag) ?? languages.get(near ?? FALLBACK);
  return present(found ?? languages.get(FALLBACK), `the language ${tag}`);
}

export function openSpoken(checked: CheckedPattern, language: Language): Spoken {
  const names = namesFor(checked, language);
  const plain = (name: string) => name.replaceAll('-', ' ');
  const say = (group: Parameters<typeof sayName>[2]) => (name: string) => {
    const said = sayName(language, names, group, name);
    return said === name ? plain(name) : said;
  };
  return { language, measurement: say('measurement'), piece: say('word'), fabric: say('fabric') };
}
