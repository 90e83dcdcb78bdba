/** A bundle opened for work on its translations: finished or not, without its photographs. */
import path from 'node:path';
import { type Language, loadLanguages } from '../../language/index.ts';
import { loadBundle, type LoadedBundle } from '../../pattern/bundle/load.ts';
import { type BundleFiles, unpackBundle } from '../../pattern/bundle/unpack.ts';
import { Fault } from '../../base/fault.ts';
import { rootFolder } from '../resources.ts';

export interface Workplace {
  readonly files: BundleFiles;
  readonly languages: ReadonlyMap<string, Language>;
}

export const openWorkplace = async (bundle: string): Promise<Workplace> => ({
  files: await unpackBundle(bundle),
  languages: await loadLanguages(path.join(rootFolder, 'locales')),
});

/** With the texts of some languages; what is wrong with the others does not matter here. */
export const bundleWith = (files: BundleFiles, tags: readonly string[]): LoadedBundle =>
  loadBundle(files, { withoutPhotos: true, translations: tags });

/** Throws a `Fault` of use where a tag is unknown, or is the language the designer writes in. */
export function languageNamed(
  { languages }: Workplace,
  tag: string,
  source: string | undefined,
): Language {
  const language = languages.get(tag);
  if (language && tag !== source) return language;
  throw new Fault('usage', language ? `the pattern is written in ${tag}` : `there is no language ${tag}`, {
    remedy: `one of: ${[...languages.keys()].filter((each) => each !== source).join(', ')}`,
  }); // prettier-ignore
}
