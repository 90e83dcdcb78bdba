/**
 * All starter bundles as someone meets them who begins from one: they load, nothing is found in them,
 * every language has the same texts and all the words it needs, and the pictures say that they are
 * rendered.
 */
import { fileURLToPath } from 'node:url';
import { beforeAll, describe, expect, it } from 'vitest';
import { printFindings } from '../../src/findings/text.ts';
import { loadLanguages, type Language } from '../../src/language/index.ts';
import { checkNames } from '../../src/language/needs.ts';
import { loadBundle } from '../../src/pattern/bundle/load.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import type { Bundle, CheckedPattern } from '../../src/pattern/pattern.ts';
import { roleProblems } from '../../src/press/drawing/schematic/roles.ts';
import { filesIn, proseOf, RENDERED, STARTER_NAMES } from './every-language.ts';

const folder = (path: string): string => fileURLToPath(new URL(`../../${path}`, import.meta.url));

/** Keys that the edition knows by themselves; see the starters' README. */
const WELL_KNOWN =
  /^(title|subtitle|summary|story|notes|finishing|care|special\..+|history\..+|name\..+|listing\.(title|description|tags))$/;

let languages: ReadonlyMap<string, Language>;
beforeAll(async () => {
  languages = await loadLanguages(folder('locales'));
});

describe.each(STARTER_NAMES)('%s', (name) => {
  let bundle: Bundle;
  let checked: CheckedPattern;
  beforeAll(async () => {
    const loaded = loadBundle(await filesIn(name, proseOf(name)));
    expect(printFindings(loaded.findings).trim()).toBe('');
    if (!loaded.bundle) throw new Error(`${name} does not load`);
    bundle = loaded.bundle;
    checked = checkPattern(bundle);
  });

  it('is called what its folder is called', () => {
    expect(bundle.data.id).toBe(name);
  });

  it('has no finding', () => {
    expect(printFindings(checked.findings).trim()).toBe('');
    expect(bundle.data.accepted).toEqual([]);
  });

  it('has all words in all its languages', () => {
    for (const tag of bundle.data.languages) {
      const language = languages.get(tag);
      if (!language) throw new Error(`no language ${tag}`);
      expect(printFindings(checkNames(checked, language)).trim()).toBe('');
    }
  });

  it('has the same texts in every language, each of them shown somewhere', () => {
    const keys = Object.keys(bundle.prose.get('en-US') ?? {});
    for (const prose of bundle.prose.values()) expect(Object.keys(prose)).toEqual(keys);
    const named = JSON.stringify(bundle.data);
    for (const key of keys) {
      if (!WELL_KNOWN.test(key)) expect(named).toContain(`"${key}"`);
    }
  });

  it('says of every picture that it is rendered', () => {
    for (const [tag, prose] of bundle.prose)
      for (const photo of bundle.data.photos) {
        expect(String(prose[photo.alt])).toMatch(RENDERED[tag] ?? /^$/);
        expect(String(prose[photo.caption ?? ''])).toMatch(RENDERED[tag] ?? /^$/);
      }
  });

  it('has a schematic that can be drawn', () => {
    for (const piece of bundle.data.schematic) {
      const problems = roleProblems(piece.outline, Object.keys(piece.measurements));
      expect(problems).toEqual({ missing: [], unknown: [] });
    }
  });
});
