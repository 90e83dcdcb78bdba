/**
 * What a stretch is worked in: a stitch pattern of the bundle, a chart, one of the fabrics every
 * knitter knows, or the designer's own words. Gives the id that a bundle or this table uses; with a
 * table of the bundle's names, words that stand for nothing are a problem.
 */
import type { Fabric } from '../ast.ts';
import type { NameTable, Reader } from './reader.ts';
import { nearestWords } from '../../../base/nearest.ts';

/**
 * Known fabrics and their written forms, British ones included (common practice; `moss` is left as it
 * stands, being seed stitch in Britain and another fabric in the US). The first form is printed.
 */
const FORMS: Readonly<Record<string, readonly string[]>> = {
  stockinette: ['st st', 'stockinette', 'stocking st', 'stockinet', 'ss', 'stst'],
  'reverse-stockinette': ['rev st st', 'reverse stockinette', 'reverse stocking st', 'rev stockinette', 'reverse st st', 'rss'],
  garter: ['garter st', 'garter', 'g st', 'gst', 'gtr st'],
  rib: ['rib', 'ribbing'],
  'rib-1x1': ['k1, p1 rib', 'k1 p1 rib', '1x1 rib', 'single rib', 'k1/p1 rib', 'k1, p1 ribbing', '1x1 ribbing'],
  'rib-2x2': ['k2, p2 rib', 'k2 p2 rib', '2x2 rib', 'double rib', 'k2/p2 rib', 'k2, p2 ribbing', '2x2 ribbing'],
  'twisted-rib': ['twisted rib', 'k1 tbl, p1 rib', 'twisted ribbing'],
  seed: ['seed st', 'seed'],
  'double-seed': ['double seed st', 'double seed'],
  moss: ['moss st', 'moss'],
  'double-moss': ['double moss st', 'double moss'],
  'as-they-face': ['as they face', 'sts as they face', 'sts as they appear', 'as they appear', 'sts as they present', 'knits and purls as they face'],
}; // prettier-ignore

/** `k the knits and p the purls`: a phrase that needs no `in`. */
const AS_THEY_FACE: readonly string[] = [
  'k knits and p purls',
  'knit knits and purl purls',
  'k k sts and p p sts',
  'k all k sts and p all p sts',
  'k all knit sts and p all purl sts',
  'knit knit sts and purl purl sts',
  'k knit sts and p purl sts',
];

const KNOWN: ReadonlyMap<string, Fabric> = new Map(
  Object.entries(FORMS).flatMap(([id, forms]) => forms.map((form) => [spelled(form), id] as const)),
);

/** First words of the known forms: most words of a row begin none of them. */
const firstOf = (forms: Iterable<string>): ReadonlySet<string> =>
  new Set([...forms].map((form) => /^[^\s,/]+/.exec(form)?.[0] ?? form));
const KNOWN_FIRST = firstOf(KNOWN.keys());
const FIRST_OF_TABLE = new WeakMap<NameTable, ReadonlySet<string>>();
const NO_WORDS: ReadonlySet<string> = new Set();

function firstWords(names: NameTable | undefined): ReadonlySet<string> {
  if (!names) return NO_WORDS;
  const known = FIRST_OF_TABLE.get(names) ?? firstOf(names.keys());
  FIRST_OF_TABLE.set(names, known);
  return known;
}

/** Ids of the fabrics every knitter knows. */
export const KNOWN_FABRICS: readonly string[] = Object.keys(FORMS);

const LONGEST = 8;
const PATTERN_AS_SET = [
  'patt as established', 'patt as set', 'est patt', 'established patt', 'patt as before', 'patt',
  'as established', 'as set', 'as before', 'as est', 'established patts',
]; // prettier-ignore
const ESTABLISHED = [...PATTERN_AS_SET.map((words) => `in ${words}`), ...PATTERN_AS_SET];

function spelled(words: string): string {
  const text = words
    .toLowerCase()
    .replace(/\bstitch(es)?\b/g, 'st')
    .replace(/\bsts\b/g, 'st');
  return text
    .replace(/ (?:st|pattern|patt)$/, '')
    .replace(/\s*,\s*/g, ', ')
    .trim();
}

/** Nothing where the words mean "as established". */
export interface FabricRead {
  readonly fabric?: Fabric;
}

/**
 * `k the knits and p the purls`.
 * @rule as they face = "k the knits and p the purls";
 */
export const readAsTheyFace = (reader: Reader): FabricRead | undefined =>
  reader.take(...AS_THEY_FACE) ? { fabric: 'as-they-face' } : undefined;

/**
 * `in patt`, `as established`: the words that name no fabric.
 * @rule as established = [ "in" ], "patt", [ "as established" ];
 */
export const takeEstablished = (reader: Reader): boolean => reader.take(...ESTABLISHED);

/**
 * A fabric known to everybody or to the bundle; nothing where the words are no such name.
 * @rule known fabric = "st st" | "garter st" | "rib" | "seed st" | stitch pattern name | chart
 *   name;
 */
export function readKnownFabric(reader: Reader): FabricRead | undefined {
  const chart = readChartName(reader);
  if (chart !== undefined) return { fabric: `chart ${chart}` };
  const names = reader.options.names?.fabrics;
  const first = reader.peek().text.toLowerCase();
  if (!KNOWN_FIRST.has(first) && !firstWords(names).has(first)) return undefined;
  let words = '';
  let found: { fabric: Fabric; width: number } | undefined;
  for (let ahead = 0; ahead < LONGEST; ahead += 1) {
    const { text, kind } = reader.peek(ahead);
    if (text === '' || (kind === 'mark' && ![',', '/', '-'].includes(text))) break;
    words += text === ',' ? ',' : ` ${text}`;
    const written = words.trim().toLowerCase();
    const fabric =
      names?.get(written) ?? names?.get(spelled(written)) ?? KNOWN.get(spelled(written));
    if (fabric !== undefined) found = { fabric, width: ahead + 1 };
  }
  if (!found) return undefined;
  for (let width = 0; width < found.width; width += 1) reader.next();
  reader.skip('patt');
  reader.take('as set', 'as established', 'as est', 'as before');
  return { fabric: found.fabric };
}

/**
 * Without a name, the only chart there is.
 * @rule chart name = "Chart", word;
 */
export function readChartName(reader: Reader): string | undefined {
  return reader.attempt(() => {
    if (!reader.take('chart', 'charts')) return undefined;
    const { kind, text, span } = reader.peek();
    const ids = new Set(reader.options.names?.charts?.values());
    const [only] = ids;
    if (ids.size === 1 && only !== undefined && !isChartName(reader)) return only;
    if (kind === 'mark' || kind === 'star' || text === '') return undefined;
    reader.next();
    return chartId(reader, text, span);
  });
}

const isChartName = (reader: Reader): boolean => {
  const name = reader.peek().text.toLowerCase();
  const charts = reader.options.names?.charts;
  return (
    charts?.has(name) === true || charts?.has(`chart ${name}`) === true || /^[A-Z0-9]$/i.test(name)
  );
};

function chartId(reader: Reader, written: string, span: { start: number; end: number }): string {
  const names = reader.options.names?.charts;
  if (names === undefined) return written;
  const id = names.get(`chart ${written.toLowerCase()}`) ?? names.get(written.toLowerCase());
  if (id !== undefined) return id;
  const nearest = nearestWords(written, [...names.keys()]);
  reader.problem('notation/unknown-name', span, { what: 'chart', name: written, nearest });
  return written;
}

/**
 * Own words run up to `stops`, which says where the sentence goes on.
 * @rule fabric = known fabric | name;
 */
export function readFabric(
  reader: Reader,
  stops: (reader: Reader) => boolean,
): FabricRead | undefined {
  if (takeEstablished(reader)) return {};
  const position = reader.position;
  const known = reader.attempt(() => {
    const fabric = readKnownFabric(reader);
    return fabric && (reader.done || stops(reader)) ? fabric : undefined;
  });
  if (known) return known;
  while (!reader.done && !stops(reader)) reader.next();
  if (reader.position === position) return reader.missing('a stitch pattern');
  const words = reader.textFrom(position);
  const names = reader.options.names?.fabrics;
  if (names !== undefined) {
    const nearest = nearestWords(words, [...names.keys(), ...KNOWN.keys()]);
    const span = reader.spanFrom(position);
    reader.problem('notation/unknown-name', span, { what: 'stitch pattern', name: words, nearest });
  }
  return { fabric: words };
}

/** The written form of a fabric, as `readFabric` reads it back. */
export function printFabric(fabric: Fabric): string {
  if (fabric.startsWith('chart ')) return `Chart ${fabric.slice('chart '.length)}`;
  return FORMS[fabric]?.[0] ?? fabric;
}
