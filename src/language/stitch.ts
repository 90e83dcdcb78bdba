/**
 * Stitches in words: as they stand in a row (`8 M re`), before "to end" (`re str`), for whole rows and
 * read aloud. Takes canonical names and counts, gives parts tied to the glossary's terms. Cables and
 * stitches of any width are said by rule; a stitch the bundle defines keeps its own name.
 */
import { BrokenInvariant } from '../base/assert.ts';
import { sizedOf, type Sized } from '../pattern/bundle/size-list.ts';
import type { StitchName } from '../pattern/notation/ast.ts';
import type { CrossingKind, StitchEntry } from './glossary.ts';
import { sayForm, type Language, type Spoken } from './language.ts';
import { fill, joinParts, slotsOf, spoken, type Slots, type Template } from './message.ts';
import { agreement, exactly, sayNumber } from './numbers.ts';

/** Which text of a stitch is wanted. */
export type StitchText = 'abbr' | 'name' | 'how' | 'row' | 'run' | 'verb' | 'aloud';

/** Where a missing text is taken from instead. */
const FALLBACK: Readonly<Partial<Record<StitchText, StitchText>>> = {
  row: 'abbr',
  run: 'abbr',
  verb: 'run',
  aloud: 'name',
};

/** An entry of the glossary that says a stitch, with the widths to fill in. */
export interface Found {
  /** Key below `stitches` or `crossings`. */
  readonly key: string;
  readonly group: 'stitches' | 'crossings';
  readonly widths: Readonly<Record<string, number>>;
}

const CROSSING = /^(\d+)\/(?:(\d+)\/)?(\d+) ([LR])(P?)C( tbl)?$/;

/** `2/1 LPC` → leftPurl, 2 in front of 1. The first number is the group that lies in front. */
function crossingOf(name: StitchName): Found | undefined {
  const match = CROSSING.exec(name);
  if (!match) return undefined;
  const [, front, middle, back, lean, purl, twisted] = match;
  const side = lean === 'L' ? 'left' : 'right';
  const manner = middle ? 'Middle' : twisted ? 'Twisted' : '';
  const key: CrossingKind = `${side}${manner}${purl ? 'Purl' : ''}`;
  const groups = [front, ...(middle ? [middle] : []), back].map(Number);
  return { key, group: 'crossings', widths: widthsOf(groups) };
}

/** Front, middle where there is one, back; and all together. */
function widthsOf(groups: readonly number[]): Readonly<Record<string, number>> {
  const [front = 0, second = 0, third] = groups;
  const total = groups.reduce((sum, each) => sum + each, 0);
  return third === undefined
    ? { front, back: second, total }
    : { front, middle: second, back: third, total };
}

/** The entry for a stitch: by its name, by its name with any width, or as a crossing. */
export function findStitch(language: Language, name: StitchName): Found | undefined {
  const { stitches, crossings } = language.glossary;
  if (Object.hasOwn(stitches, name)) return { key: name, group: 'stitches', widths: {} };
  const open = name.replace(/\d+/, '#');
  if (Object.hasOwn(stitches, open)) {
    return { key: open, group: 'stitches', widths: { w: Number(/\d+/.exec(name)?.[0] ?? 0) } };
  }
  const crossing = crossingOf(name);
  return crossing && Object.hasOwn(crossings, crossing.key) ? crossing : undefined;
}

export const entryOf = (
  language: Language,
  found: Found,
): Pick<StitchEntry, 'abbr' | 'name' | 'how' | 'status' | 'source'> | undefined =>
  found.group === 'stitches'
    ? language.glossary.stitches[found.key]
    : language.glossary.crossings[found.key];

/** One text of a stitch, uncut, or undefined where the language has none. */
export function stitchTemplate(
  language: Language,
  found: Found,
  which: StitchText,
  count?: number,
): Template | undefined {
  const agrees = count ?? found.widths['w'];
  const choice = agrees === undefined ? {} : { count: agrees };
  const template = language.messages.find(
    'glossary',
    `${found.group}.${found.key}.${which}`,
    choice,
  );
  const other = FALLBACK[which];
  return template ?? (other && stitchTemplate(language, found, other, count));
}

const widthSlots = (language: Language, found: Found): Slots =>
  Object.fromEntries(
    Object.entries(found.widths).map(([slot, value]) => [
      slot,
      [{ text: String(value), role: 'abbreviation', term: termOf(found) } as const],
    ]),
  );

const termOf = (found: Found): string => `${found.group}:${nameOf(found)}`;

/** Stitches of any width and crossings keep their widths in the term: `k#tog@2`, `left@2/1`. */
const nameOf = ({ key, widths }: Found): string => {
  const values = Object.entries(widths).filter(([slot]) => slot !== 'total');
  return values.length === 0 ? key : `${key}@${values.map(([, value]) => value).join('/')}`;
};

/** Reads a term of a spoken part back: `stitches:k#tog@2`. */
export function foundOf(term: string): Found | undefined {
  const match = /^(stitches|crossings):([^@]+)(?:@([\d/]+))?$/.exec(term);
  if (!match) return undefined;
  const [, group, key = '', widths] = match;
  const values = widths === undefined ? [] : widths.split('/').map(Number);
  if (group === 'stitches') {
    return { key, group, widths: values.length === 0 ? {} : { w: values[0] ?? 0 } };
  }
  return { key, group: 'crossings', widths: widthsOf(values) };
}

/** One text of a stitch with its widths and, where it has one, its number filled in. */
export function stitchText(
  language: Language,
  found: Found,
  which: StitchText,
  number: Slots = {},
  count?: number,
): Spoken | undefined {
  const template = stitchTemplate(language, found, which, count);
  const style = { role: 'abbreviation', term: termOf(found) } as const;
  return template && fill(template, { ...widthSlots(language, found), ...number }, style);
}

/** Made of several worked into one: `k1-yo-k1`. Said as what is done, not as a name. */
const INTO_ONE = /^(k|p)\d?(-(k|p|yo|k1tbl|p1tbl|k\d|p\d))+$|^yo-[kp]1-yo$/;

function sayIntoOne(language: Language, name: StitchName): Spoken {
  const steps = name.split('-').map((step) => {
    const stitch = step.replace(/(\d)tbl$/, '$1 tbl').replace(/^([kp])\d/, '$1');
    return sayOnce(language, stitch, sizedOf(1));
  });
  return sayForm(
    language,
    'into',
    {
      actions: joinParts(steps, language.settings.separators.actions),
      n: [{ text: '1', role: 'plain' }],
    },
    { count: 1 },
  );
}

/** A stitch the number stands in (`8 M re`), or undefined where it is said once each. */
function sayOnce(language: Language, name: StitchName, times: Sized): Spoken {
  const found = findStitch(language, name);
  if (!found)
    return INTO_ONE.test(name) ? sayIntoOne(language, name) : spoken(name, 'abbreviation');
  const said = stitchText(
    language,
    found,
    'row',
    { n: sayNumber(language, times) },
    agreement(language, times),
  );
  if (!said) throw new BrokenInvariant(`${language.tag}: no words for ${name}`);
  return said;
}

const SEVERAL = 3;

/** True where the number of stitches stands inside the words, as in `k5`. */
const isCounted = (language: Language, name: StitchName): boolean => {
  const found = findStitch(language, name);
  const template = found && stitchTemplate(language, found, 'row', SEVERAL);
  return template !== undefined && slotsOf(template).includes('n');
};

/** `k5`, `k2tog`, `k2tog 3 times`, `yo twice`. */
export function sayStitch(language: Language, name: StitchName, times: Sized): Spoken {
  const once = sayOnce(language, name, times);
  const exact = exactly(times);
  if (isCounted(language, name) || exact === '1') return once;
  return sayForm(
    language,
    'times',
    { action: once, n: sayNumber(language, times) },
    { count: agreement(language, times), ...(exact && { context: exact }) },
  );
}

/** `re str` before "bis R-Ende"; `knit` for whole rows. */
export function sayStitchRun(
  language: Language,
  name: StitchName,
  which: 'run' | 'verb' = 'run',
): Spoken {
  const found = findStitch(language, name);
  const said = found && stitchText(language, found, which, {}, 1);
  return said ?? sayOnce(language, name, sizedOf(1));
}

/** True where language or rule has words for a stitch. */
export const canSayStitch = (language: Language, name: StitchName): boolean =>
  findStitch(language, name) !== undefined || INTO_ONE.test(name);

/** Read aloud in full words: `knit 2`, `knit 2 together, 3 times`. */
export function aloudStitch(language: Language, name: StitchName, count: number): Spoken {
  const found = findStitch(language, name);
  if (!found) return sayStitch(language, name, sizedOf(count));
  const template = stitchTemplate(language, found, 'aloud', count);
  const number = { n: spoken(String(count), 'count') };
  const said = stitchText(language, found, 'aloud', number, count) ?? spoken(name);
  if (count === 1 || (template && slotsOf(template).includes('n'))) return said;
  return sayForm(language, 'times', { action: said, n: number.n }, { count });
}

/** A fabric that is one stitch all along the row, such as `k`. */
export function isStitchFabric(language: Language, fabric: string): boolean {
  const found = findStitch(language, fabric);
  return found !== undefined && stitchTemplate(language, found, 'verb') !== undefined;
}
