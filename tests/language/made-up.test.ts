/**
 * Adding a language touches one folder: a folder is laid beside another on a disk, and from then on its
 * rows are said, its gaps are found, its numbers compared, and its texts go to a translator and back.
 */
import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { wordingOf } from '../../src/findings/register.ts';
import {
  checkLanguage,
  checkProseParity,
  type Language,
  loadLanguages,
  plainText,
  sayPattern,
} from '../../src/language/index.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import { sendOut, takeBack, writeTbx } from '../../src/translation/index.ts';
import { bytesOf, fill, hat } from '../translation/room.ts';

let folder = '';
let languages: ReadonlyMap<string, Language>;
beforeAll(async () => {
  folder = await mkdtemp(path.join(tmpdir(), 'castoff-locales-'));
  for (const name of ['en-US', 'qaa'])
    await cp('locales/en-US', path.join(folder, name), { recursive: true });
  const edit = async (file: string, change: (text: string) => string) => {
    const place = path.join(folder, 'qaa', file);
    await writeFile(place, change(await readFile(place, 'utf8')));
  };
  await edit('language.json', (text) =>
    text.replace('"tag": "en-US"', '"tag": "qaa"').replace('"decimal": "."', '"decimal": ","'),
  );
  await edit('rows.json', (text) => text.replaceAll('to end', 'tilende'));
  languages = await loadLanguages(folder);
});
afterAll(() => rm(folder, { recursive: true }));

const checked = checkPattern(hat);
/** The hat with its English texts as those of the new language. */
const withTexts = (change: (text: string) => string) => {
  const english = JSON.stringify(hat.prose.get('en-US'));
  const prose = new Map(hat.prose).set(
    'qaa',
    JSON.parse(change(english)) as Record<string, string>,
  );
  return { ...checked, pattern: { ...checked.pattern, bundle: { ...hat, prose } } };
};

test('its rows are said, and nothing is lacking', () => {
  const qaa = languages.get('qaa')!;
  expect(
    checkLanguage(
      withTexts((text) => text),
      qaa,
      languages.get('en-US'),
    ),
  ).toEqual([]);
  const lines = sayPattern(
    withTexts((text) => text),
    qaa,
  ).pieces.flatMap((piece) =>
    piece.sections.flatMap(({ lines: said }) => said.map((line) => plainText(line.said.body))),
  );
  expect(lines.some((line) => line.includes('tilende'))).toBe(true);
});

test('a number changed in its texts is a finding with both sentences', () => {
  const { prose } = withTexts((text) => text.replace('One repeat is 8', 'One repeat is 9')).pattern
    .bundle;
  const [found, ...rest] = checkProseParity(prose, 'qaa', 'en-US');
  expect(rest).toEqual([]);
  expect([found?.code, found?.where]).toEqual([
    'language/prose-numbers',
    { file: 'prose/qaa.json', pointer: '/note.chart' },
  ]);
  expect(wordingOf(found!).notes).toEqual([
    'source: Every round of the chart is read from right to left. One repeat is 8 stitches; work it around to the marker.',
    'qaa: Every round of the chart is read from right to left. One repeat is 9 stitches; work it around to the marker.',
  ]);
});

test('its texts go to a translator and back', () => {
  const [source, target] = [languages.get('en-US')!, languages.get('qaa')!];
  const { xliff } = sendOut({ bundle: hat, source, target });
  expect(xliff).toContain('trgLang="qaa"');
  expect(writeTbx(source, target)).toContain('<langSec xml:lang="qaa">');
  const bytes = bytesOf(fill(xliff!, (text) => `Q ${text}`));
  const taken = takeBack({ bundle: hat, languages, bytes, file: 'qaa.xlf' });
  expect(taken.findings).toEqual([]);
  expect(taken.prose?.['title']).toBe('Q Breakwater Hat');
}); // prettier-ignore
