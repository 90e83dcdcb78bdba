/**
 * What a language lacks, as findings. `checkLanguageData` compares a language with the forms the code
 * says and with the source language's messages: missing keys, unknown slots, terms without an entry,
 * clashing abbreviations. `checkLanguage` asks the same of one pattern: its stitches, names and prose.
 */
import type { Finding, Place } from '../findings/finding.ts';
import { finding } from '../findings/register.ts';
import type { CheckedPattern } from '../pattern/pattern.ts';
import { FORMS, SAID_BY_UNIT, type FormKey } from './forms.ts';
import { CROSSINGS } from './glossary.ts';
import type { Language } from './language.ts';
import { cutTemplate, slotsOf } from './message.ts';
import { checkNames } from './needs.ts';
import { checkProseParity, checkRowParity } from './parity.ts';

const PLURAL = /_(?:ordinal_)?(zero|one|two|few|many|other)$/;
/** Whole numbers that plural categories are asked for; patterns count no further than this matters. */
const COUNTS = Array.from({ length: 202 }, (_, count) => count);

const place = (language: Language, file: string, key: string): Place => ({
  file: `locales/${language.tag}/${file}`,
  pointer: `/${key.replaceAll('~', '~0').replaceAll('/', '~1')}`,
});

/** Base key, context and plural category of one key of a message file. */
interface KeyParts {
  readonly base: string;
  readonly context: string;
}

/** `goal.last_row_one` → goal.last, row. Bases hold no underscore. */
function partsOfKey(key: string): KeyParts {
  const rest = key.replace(PLURAL, '');
  const at = rest.indexOf('_');
  return at < 0
    ? { base: rest, context: '' }
    : { base: rest.slice(0, at), context: rest.slice(at + 1) };
}

/** Everything a language lacks by itself, whatever the pattern; `source` is the reference language. */
export function checkLanguageData(language: Language, source: Language): readonly Finding[] {
  return [
    ...checkForms(language, source),
    ...checkMessages(language, source),
    ...checkTerms(language),
    ...checkClashes(language),
    ...checkSeparators(language),
  ];
}

/** What one pattern needs of a language and does not find. Every finding blocks that language. */
export function checkLanguage(
  checked: CheckedPattern,
  language: Language,
  source: Language = language,
): readonly Finding[] {
  const lacking = [...rememberedData(language, source), ...checkNames(checked, language)];
  // Nothing can be said, and so nothing compared, where words are missing.
  if (lacking.length > 0) return lacking;
  const { prose, data } = checked.pattern.bundle;
  return [
    ...checkRowParity(checked, language, source),
    ...checkProseParity(prose, language.tag, data.language),
  ];
}

const remembered = new WeakMap<Language, { source: Language; findings: readonly Finding[] }>();

/** A language's own data is the same for every pattern, so it is looked through once a process. */
function rememberedData(language: Language, source: Language): readonly Finding[] {
  const known = remembered.get(language);
  if (known?.source === source) return known.findings;
  const findings = checkLanguageData(language, source);
  remembered.set(language, { source, findings });
  return findings;
}

// ---------------------------------------------------------------- rows

/** Contexts the source language uses for a key: another language must have words for each of them. */
function contextsOf(
  tree: Readonly<Record<string, string>>,
): ReadonlyMap<string, ReadonlySet<string>> {
  const contexts = new Map<string, Set<string>>();
  for (const key of Object.keys(tree)) {
    const { base, context } = partsOfKey(key);
    contexts.set(base, (contexts.get(base) ?? new Set()).add(context));
  }
  return contexts;
}

/** Row and round in place of the plain key: the code never asks without one of them. */
const withUnits = (contexts: ReadonlySet<string>): ReadonlySet<string> =>
  new Set([...[...contexts].filter((context) => context !== ''), 'row', 'round']);

function checkForms(language: Language, source: Language): readonly Finding[] {
  const { rows } = language.sources;
  const wanted = contextsOf(source.sources.rows);
  const findings: Finding[] = [];
  for (const key of Object.keys(FORMS) as FormKey[]) {
    const contexts = wanted.get(key) ?? new Set(['']);
    for (const context of SAID_BY_UNIT.has(key) ? withUnits(contexts) : contexts) {
      if (resolves(language, 'rows', key, context)) continue;
      findings.push(missing(language, 'rows.json', context === '' ? key : `${key}_${context}`));
    }
  }
  for (const [key, message] of Object.entries(rows)) {
    const { base } = partsOfKey(key);
    const slots: readonly string[] | undefined = Object.hasOwn(FORMS, base)
      ? FORMS[base as FormKey]
      : undefined;
    if (slots === undefined) findings.push(unused(language, 'rows.json', key));
    else findings.push(...checkSlots(language, 'rows.json', key, message, slots));
  }
  return findings;
}

const examples = new WeakMap<Language, Map<boolean, readonly number[]>>();

/** One whole number of each plural category that the language's whole numbers reach. */
function examplesOf(language: Language, ordinal: boolean): readonly number[] {
  const known = examples.get(language) ?? new Map<boolean, readonly number[]>();
  examples.set(language, known);
  const found = known.get(ordinal);
  if (found) return found;
  const byCategory = new Map(COUNTS.map((n) => [language.messages.category(n, ordinal), n]));
  const numbers = [...byCategory.values()];
  known.set(ordinal, numbers);
  return numbers;
}

/** True where every plural category that whole numbers reach has words. */
function resolves(
  language: Language,
  namespace: 'rows' | 'messages',
  key: string,
  context: string,
): boolean {
  const choice = context === '' ? {} : { context };
  const ordinal = key === 'ordinal';
  return examplesOf(language, ordinal).every(
    (count) => language.messages.find(namespace, key, { ...choice, count, ordinal }) !== undefined,
  );
}

/**
 * Slots a message may leave out: a number that its wording says in another way ("next stitch", "twice"),
 * and the second form of a number where a language uses the first.
 */
const OPTIONAL = new Set(['n', 'every', 'ordinal', 'to', 'together']);

function checkSlots(
  language: Language,
  file: string,
  key: string,
  message: string,
  slots: readonly string[],
): readonly Finding[] {
  const used = slotsOf(cutTemplate(message));
  const unknown = used.filter((slot) => !slots.includes(slot));
  const general = !/_(one|two|[12]|(row|round)[12])$/.test(key);
  const left = slots.filter(
    (slot) =>
      !used.includes(slot) && !(OPTIONAL.has(slot) && (!general || hasOther(slots, used, slot))),
  );
  return [
    ...unknown.map((slot) => placeholder(language, file, key, slot, 'unknown')),
    ...left.map((slot) => placeholder(language, file, key, slot, 'missing')),
  ];
}

/** Either `every` or `ordinal` says the interval; one of the two is enough. */
const hasOther = (slots: readonly string[], used: readonly string[], slot: string): boolean =>
  (slot === 'every' || slot === 'ordinal') &&
  slots.includes(slot === 'every' ? 'ordinal' : 'every') &&
  used.includes(slot === 'every' ? 'ordinal' : 'every');

// ---------------------------------------------------------------- document words

function checkMessages(language: Language, source: Language): readonly Finding[] {
  const wanted = contextsOf(source.sources.messages);
  const own = contextsOf(language.sources.messages);
  const ownEntries = entriesByBase(language.sources.messages);
  const sourceEntries = entriesByBase(source.sources.messages);
  const findings: Finding[] = [];
  for (const [key, contexts] of wanted) {
    const slots = slotsOfAll(sourceEntries.get(key) ?? []);
    for (const context of contexts) {
      if (!resolves(language, 'messages', key, context)) {
        findings.push(
          missing(language, 'messages.json', context === '' ? key : `${key}_${context}`),
        );
      }
    }
    for (const [each, message] of ownEntries.get(key) ?? []) {
      findings.push(...checkSlots(language, 'messages.json', each, message, slots));
    }
  }
  for (const key of own.keys()) {
    if (!wanted.has(key)) findings.push(unused(language, 'messages.json', key));
  }
  return findings;
}

type Entries = readonly (readonly [key: string, message: string])[];

/** All variants of a message under the name they share. */
function entriesByBase(tree: Readonly<Record<string, string>>): ReadonlyMap<string, Entries> {
  const groups = new Map<string, [string, string][]>();
  for (const entry of Object.entries(tree)) {
    const { base } = partsOfKey(entry[0]);
    const group = groups.get(base);
    if (group) group.push(entry);
    else groups.set(base, [entry]);
  }
  return groups;
}

const slotsOfAll = (entries: Entries): readonly string[] => [
  ...new Set(entries.flatMap(([, message]) => slotsOf(cutTemplate(message)))),
];

// ---------------------------------------------------------------- glossary

/** Every term a message uses has an entry; every kind of crossing is described. */
function checkTerms(language: Language): readonly Finding[] {
  const findings: Finding[] = [];
  const { terms, stitches, crossings } = language.glossary;
  const entries = [...Object.values(stitches), ...Object.values(crossings)];
  const texts = [
    ...Object.values(language.sources.rows),
    ...Object.values(language.sources.messages),
    ...entries.flatMap((entry) => Object.values(entry)),
  ];
  const used = new Set(
    texts.flatMap((text) =>
      cutTemplate(text ?? '').flatMap((part) => (part.kind === 'term' ? [part.term] : [])),
    ),
  );
  for (const term of used) {
    if (!Object.hasOwn(terms, term))
      findings.push(missing(language, 'glossary.json', `terms/${term}`));
  }
  for (const kind of CROSSINGS) {
    if (!Object.hasOwn(crossings, kind)) {
      findings.push(missing(language, 'glossary.json', `crossings/${kind}`));
    }
  }
  return findings;
}

/** Two terms of one language must not share an abbreviation, unless the glossary lists it. */
function checkClashes(language: Language): readonly Finding[] {
  const { terms, stitches, shared } = language.glossary;
  const first = new Map<string, string>();
  const findings: Finding[] = [];
  const all = [
    ...Object.entries(terms).map(([id, entry]) => [`terms/${id}`, entry.abbr] as const),
    ...Object.entries(stitches).map(([id, entry]) => [`stitches/${id}`, entry.abbr] as const),
  ];
  for (const [id, abbreviation] of all) {
    const other = first.get(abbreviation);
    if (other === undefined) first.set(abbreviation, id);
    else if (!Object.hasOwn(shared, abbreviation)) {
      const where = place(language, 'glossary.json', id);
      const facts = { language: language.tag, abbreviation, first: other, second: id };
      findings.push(finding('language/clashing-abbreviations', where, facts));
    }
  }
  return findings;
}

/** Texts of a stitch that stand in a row, among other stitches. */
const IN_A_ROW = /^(abbr|row|run)(_|$)/;
const BRACKETED = /\([^)]*\)|（[^）]*）/g;

/** `2 M li verz, hinten li` would be read as two stitches: only brackets may hold the separator. */
function checkSeparators(language: Language): readonly Finding[] {
  const separator = language.settings.separators.actions;
  const { stitches, crossings } = language.glossary;
  return Object.entries({ stitches, crossings }).flatMap(([group, entries]) =>
    Object.entries(entries).flatMap(([name, entry]) =>
      Object.entries(entry)
        .filter(([which]) => IN_A_ROW.test(which))
        .filter(([, text]) => String(text).replace(BRACKETED, '').includes(separator))
        .map(([which, text]) => {
          const term = `${group}/${name}/${which}`;
          const facts = { language: language.tag, term, text: String(text) };
          return finding(
            'language/separator-in-term',
            place(language, 'glossary.json', term),
            facts,
          );
        }),
    ),
  );
}

// ---------------------------------------------------------------- findings

const missing = (language: Language, file: string, key: string): Finding =>
  finding('language/missing-message', place(language, file, key), {
    language: language.tag,
    file,
    key,
  });

const unused = (language: Language, file: string, key: string): Finding =>
  finding('language/unused-message', place(language, file, key), {
    language: language.tag,
    file,
    key,
  });

const placeholder = (
  language: Language,
  file: string,
  key: string,
  slot: string,
  problem: 'missing' | 'unknown',
): Finding =>
  finding('language/placeholder', place(language, file, key), {
    language: language.tag,
    file,
    key,
    slot,
    problem,
  });
