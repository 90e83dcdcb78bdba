/**
 * A whole garment in every language: each line of the drop-shoulder pullover and the abbreviations it
 * uses, as text to be read by someone who knits in that language. A change of wording shows here;
 * `npx vitest run tests/language/garment -u` takes it over after reading.
 */
import { describe, expect, test } from 'vitest';
import { loadLanguages, sayPattern, type Language } from '../../src/language/index.ts';
import type { CheckedPattern } from '../../src/pattern/pattern.ts';
import { proseOf, starterIn } from '../starters/every-language.ts';
import { shown } from './say.ts';

const GARMENT = 'sea-fret-pullover';

const languages = await loadLanguages('locales');
const checked = await starterIn(GARMENT, proseOf(GARMENT));

/** Pieces, sections, lines and abbreviations, in the order of the printed pattern. */
function instructions(pattern: CheckedPattern, language: Language): string {
  const { pieces, terms } = sayPattern(pattern, language);
  const lines: string[] = [];
  for (const { title, make, sections } of pieces) {
    lines.push(`== ${title} (${make}) ==`);
    for (const section of sections) {
      if (section.title !== undefined) lines.push('', `-- ${section.title} --`);
      for (const { said } of section.lines) lines.push(shown(said));
    }
    lines.push('');
  }
  for (const { abbreviation, name, how = '' } of terms) {
    lines.push(`${abbreviation}: ${name}. ${how}`.trim());
  }
  return `${lines.join('\n')}\n`.replaceAll('\u00a0', ' ');
}

describe.each([...languages])('%s', (tag, language) => {
  test('the pullover', async () => {
    const text = instructions(checked, language);
    await expect(text).toMatchFileSnapshot(`../golden/language/${tag}.garment.txt`);
  });

  test('nothing is left in the source language', () => {
    if (tag.startsWith('en')) return;
    const english = instructions(checked, languages.get('en-US')!).split('\n');
    const own = instructions(checked, language).split('\n');
    const wordy = /[a-z]{4,}.*[a-z]{4,}/;
    expect(own.filter((line) => wordy.test(line) && english.includes(line))).toEqual([]);
  });
});
