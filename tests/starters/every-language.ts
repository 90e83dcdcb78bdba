/**
 * A starter read in every language that has words for it: the published languages of its pattern.json
 * and those whose prose waits beside it. Gives the checked pattern with all of them, so that a
 * translation can be tried before it is published.
 */
import { existsSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { loadBundle } from '../../src/pattern/bundle/load.ts';
import { unpackBundle, type BundleFiles } from '../../src/pattern/bundle/unpack.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import type { CheckedPattern } from '../../src/pattern/pattern.ts';

const STARTERS = fileURLToPath(new URL('../../templates/starters', import.meta.url));

/** The names of all starters, which are their folders. */
export const STARTER_NAMES: readonly string[] = readdirSync(STARTERS).filter((name) =>
  existsSync(`${STARTERS}/${name}/pattern.json`),
);

/** Tags of the languages a starter has prose in, published or not. */
export const proseOf = (starter: string): readonly string[] =>
  readdirSync(`${STARTERS}/${starter}/prose`)
    .filter((name) => name.endsWith('.json'))
    .map((name) => name.slice(0, -'.json'.length));

/** The files of a starter, its pattern.json naming the given languages beside those it publishes. */
export async function filesIn(starter: string, tags: readonly string[]): Promise<BundleFiles> {
  const files = await unpackBundle(`${STARTERS}/${starter}`);
  const pattern = JSON.parse(new TextDecoder().decode(files.get('pattern.json'))) as {
    languages: readonly string[];
  };
  const languages = [...new Set([...pattern.languages, ...tags])];
  const text = JSON.stringify({ ...pattern, languages });
  return new Map(files).set('pattern.json', new TextEncoder().encode(text));
}

export async function starterIn(starter: string, tags: readonly string[]): Promise<CheckedPattern> {
  const { bundle, findings } = loadBundle(await filesIn(starter, tags));
  if (!bundle) throw new Error(`${starter}: ${JSON.stringify(findings)}`);
  return checkPattern(bundle);
}

/**
 * How each language says that a picture was rendered. Translators' words, not a standard: a language
 * that is not listed has not said it, and its pictures fail.
 */
export const RENDERED: Readonly<Record<string, RegExp>> = {
  'en-US': /rendered/i,
  'en-GB': /rendered/i,
  de: /gerender/i,
  fr: /synthèse/i,
  ja: /レンダリング/,
  es: /generad[oa] por ordenador/i,
  it: /generat[oa] al computer/i,
  'pt-PT': /gerad[oa] por computador/i,
  'pt-BR': /gerad[oa] por computador/i,
  nl: /gerenderd/i,
  da: /render|computer/i,
  nb: /render|data(?:maskin|gener|tegn)/i,
  sv: /render|dator/i,
  is: /tölvu|myndgerð/i,
  fi: /render|mallinne|tietokone/i,
  pl: /render|komputer/i,
  cs: /render|vykreslen|počítač/i,
  he: /רנדר|מחשב|הדמי/,
  ko: /렌더/,
  'zh-Hans': /渲染/,
};
