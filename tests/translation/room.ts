/**
 * What the tests of translations start from: the languages, a starter with texts put in place of its
 * own, and a translator who fills a file in as a tool would.
 */
import { loadLanguages } from '../../src/language/index.ts';
import { assembleBundle, loadBundle } from '../../src/pattern/bundle/load.ts';
import type { ProseData, SourceRecord } from '../../src/pattern/bundle/schema.ts';
import { unpackBundle } from '../../src/pattern/bundle/unpack.ts';
import type { Bundle } from '../../src/pattern/pattern.ts';
import { recordFor, sendOut, takeBack, type TakenBack } from '../../src/translation/index.ts';

export const languages = await loadLanguages('locales');
export const english = languages.get('en-US')!;
export const german = languages.get('de')!;

export const hat: Bundle = loadBundle(await unpackBundle('templates/starters/breakwater-hat'), {
  withoutPhotos: true,
  translations: ['de', 'fr', 'ja'],
}).bundle!;

/** The hat with other texts: English, one translation, and what that is tied to. */
export function bundleOf(
  source: ProseData,
  translation: ProseData = {},
  record?: SourceRecord,
  language = 'de',
): Bundle {
  const prose = new Map([
    ['en-US', source],
    [language, translation],
  ]);
  return assembleBundle(hat.data, prose, hat.photos, new Map(record && [[language, record]]));
}

/** Tied to the source as it is. */
export const tied = (source: ProseData, translation: ProseData, language = 'de'): Bundle =>
  bundleOf(source, translation, recordFor(source, translation), language);

export const bytesOf = (text: string): Uint8Array => new TextEncoder().encode(text);

export const send = (bundle: Bundle, all = false, tag = 'de') =>
  sendOut({ bundle, source: english, target: languages.get(tag)!, all });

export const take = (bundle: Bundle, xliff: string | Uint8Array): TakenBack =>
  takeBack({
    bundle,
    languages,
    bytes: typeof xliff === 'string' ? bytesOf(xliff) : xliff,
    file: 'sent.xlf',
  });

/** Gives every open segment a target: what `translate` makes of the inside of its source. */
export const fill = (xliff: string, translate: (source: string, unit: string) => string): string =>
  xliff.replaceAll(/<unit id="([^"]+)"(?:(?!<\/unit>)[^])*<\/unit>/g, (unit: string, id: string) =>
    unit.includes('<target>')
      ? unit
      : unit.replace(
          /<source>([^]*)<\/source>/,
          (_, text: string) =>
            `<source>${text}</source>\n        <target>${translate(text, id)}</target>`,
        ),
  );

export const codes = ({ findings }: TakenBack): readonly string[] =>
  findings.map(({ code }) => code);
