/**
 * Names in a pattern: pieces, sections, edges, fabrics, measurements, fibres. A name is a known word of
 * the trade, which every language has, or the key of a text in the bundle's prose; anything else is the
 * designer's own (a yarn, a chart letter) and stays as it is. Takes names, gives words.
 */
import type { BundleData, ProseData } from '../pattern/bundle/schema.ts';
import { sayForm, hasText, sayText, text, type Language, type Spoken } from './language.ts';
import { spoken } from './message.ts';

/** Groups of known words, as they stand in `messages.json`. */
export type WordGroup =
  | 'word' // pieces, sections, edges: what instructions name
  | 'withNeedle'
  | 'toNeedle'
  | 'measurement'
  | 'body'
  | 'fabric'
  | 'fibre'
  | 'method'
  | 'manner'
  | 'notion';

/** `Left front` → `left-front`; `upperArm` → `upper-arm`. */
export const slugOf = (name: string): string =>
  name
    .trim()
    .replace(/([a-z])([A-Z])/g, '$1-$2')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .replace(/^-|-$/g, '');

/** Key of a known word in `messages.json`, or undefined where the language does not know it. */
export function wordKey(language: Language, group: WordGroup, name: string): string | undefined {
  const key = `${group}.${slugOf(name)}`;
  return hasText(language, key) ? key : undefined;
}

/** What the texts of one bundle are in one language. */
export interface Names {
  /** The bundle's prose in the language; undefined where it has none. */
  readonly prose: ProseData | undefined;
  readonly data: BundleData;
}

/** One prose text as a single line, or undefined. */
export function proseLine(names: Names, key: string): string | undefined {
  const value = names.prose?.[key];
  return value === undefined ? undefined : Array.isArray(value) ? value.join(' ') : String(value);
}

/** The bundle's words for a name: under the name itself, or under `name.` and its slug. */
const ownWords = (names: Names, name: string): string | undefined =>
  proseLine(names, name) ?? proseLine(names, `name.${slugOf(name)}`);

/** A name as a heading or table cell shows it: with a capital where the language has them. */
export const capitalised = ({ tag, settings }: Language, name: string): string =>
  settings.capitals ? name.slice(0, 1).toLocaleUpperCase(tag) + name.slice(1) : name;

/** Says a name: known word, then the bundle's own words, then as it stands. */
export function sayName(language: Language, names: Names, group: WordGroup, name: string): string {
  const key = wordKey(language, group, name);
  return key === undefined ? (ownWords(names, name) ?? name) : text(language, key);
}

/** True where a name is neither a known word nor a text of the bundle in this language. */
export const isUnknownName = (
  language: Language,
  names: Names,
  group: WordGroup,
  name: string,
): boolean => wordKey(language, group, name) === undefined && ownWords(names, name) === undefined;

/** True where a fabric has words: known to the language, or a stitch pattern with a text. */
export function isKnownFabric(language: Language, names: Names, fabric: string): boolean {
  if (fabric === AS_THEY_FACE || hasText(language, `inFabric.${slugOf(fabric)}`)) return true;
  if (Object.hasOwn(language.glossary.stitches, fabric)) return true;
  const own = names.data.stitchPatterns.find((pattern) => pattern.id === fabric);
  const name = own?.name ?? fabric;
  return (
    hasText(language, `inFabric.${slugOf(name)}`) || !isUnknownName(language, names, 'fabric', name)
  );
}

const AS_THEY_FACE = 'as-they-face';
const CHART = 'chart ';

/**
 * `Chart A`: the letter is the bundle's own. Takes a chart's id, with or without `chart ` before it;
 * `title` is the name by itself, `name` as it stands in a sentence.
 */
export function sayChartName(
  language: Language,
  names: Names,
  chart: string,
  form: 'title' | 'name' = 'name',
): string {
  const id = chart.startsWith(CHART) ? chart.slice(CHART.length) : chart;
  const own = names.data.charts.find((each) => each.id === id || each.name === id);
  const name = own?.name ?? id;
  const letter = /^chart (.+)$/i.exec(name)?.[1] ?? name;
  return text(language, `chart.${form}`, { name: letter });
}

/** The name of a chart inside a sentence, telling which chart it is. */
export function spokenChart(language: Language, names: Names, chart: string): Spoken {
  const id = chart.startsWith(CHART) ? chart.slice(CHART.length) : chart;
  const own = names.data.charts.find((each) => each.id === id || each.name === id);
  const said = spoken(sayChartName(language, names, chart));
  return own === undefined ? said : said.map((part) => ({ ...part, chart: own.id }));
}

/** True where a fabric is a chart of the bundle. */
export const isChart = (names: Names, fabric: string): boolean =>
  fabric.startsWith(CHART) || names.data.charts.some((each) => each.id === fabric);

/** `in stockinette`: a fabric as it stands after "work". */
export function sayInFabric(language: Language, names: Names, fabric: string): Spoken {
  if (fabric === AS_THEY_FACE) return sayForm(language, 'fabric.asTheyFace', {});
  if (fabric.startsWith(CHART)) {
    return sayForm(language, 'fabric.chart', {
      chart: spokenChart(language, names, fabric),
    });
  }
  const known = `inFabric.${slugOf(fabric)}`;
  if (hasText(language, known)) return sayText(language, known);
  const own = names.data.stitchPatterns.find((pattern) => pattern.id === fabric);
  const name = own?.name ?? fabric;
  const inKnown = `inFabric.${slugOf(name)}`;
  if (hasText(language, inKnown)) return sayText(language, inKnown);
  return sayForm(language, 'fabric.named', {
    name: spoken(sayName(language, names, 'fabric', name)),
  });
}

/** Name of a fabric by itself: `Stockinette`. */
export function sayFabric(language: Language, names: Names, fabric: string): string {
  const own = names.data.stitchPatterns.find((pattern) => pattern.id === fabric);
  return sayName(language, names, 'fabric', own?.name ?? fabric);
}

/** True where a yarn of a row is a role (`MC`, `A`), or a yarn or colour of the bundle. */
export const isOwnYarn = ({ data }: Names, yarn: string): boolean =>
  /^(mc|cc)\d?$|^[a-z]$/i.test(yarn) ||
  data.yarns.some((each) => each.id === yarn || each.colours.some((colour) => colour.id === yarn));

/** A yarn in a row: `MC`, a colour's own name where a colour id is given, else the name itself. */
export function sayYarn(language: Language, names: Names, yarn: string): Spoken {
  const role = /^(mc|cc)(\d?)$/i.exec(yarn);
  if (role) {
    const term = (role[1] ?? '').toLowerCase();
    const entry = language.glossary.terms[term];
    if (entry) {
      return [{ text: entry.abbr + (role[2] ?? ''), role: 'abbreviation', term }];
    }
  }
  const own = names.data.yarns.find((each) => each.id === yarn);
  const colour = names.data.yarns.flatMap((each) => each.colours).find((each) => each.id === yarn);
  return spoken(own?.name ?? colour?.name ?? sayName(language, names, 'word', yarn));
}

/** Paragraphs of a text in one language; `{{` stays as written. */
export function proseFor(
  prose: ReadonlyMap<string, ProseData>,
  tag: string,
): ReadonlyMap<string, readonly string[]> {
  const own = prose.get(tag) ?? {};
  return new Map(
    Object.entries(own).map(([key, value]) => [
      key,
      (Array.isArray(value) ? value : value.split(/\n\s*\n/)).map((each) => each.trim()),
    ]),
  );
}
