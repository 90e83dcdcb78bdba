/**
 * What representative lines look like in every language, as text to be read by eye. A change of wording
 * shows here; `npx vitest run tests/language/golden -u` takes it over after reading.
 */
import { describe, expect, test } from 'vitest';
import { loadLanguages } from '../../src/language/index.ts';
import { LINES } from './lines.ts';
import { say, shown } from './say.ts';

const languages = await loadLanguages('locales');

describe.each([...languages])('%s', (tag, language) => {
  test('lines of instructions', async () => {
    const text = LINES.map((line) => `${line}\n    ${shown(say(language, line))}\n`).join('');
    await expect(text).toMatchFileSnapshot(`../golden/language/${tag}.txt`);
  });
});
