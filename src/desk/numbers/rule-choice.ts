/**
 * What was chosen on the page of a rule, read from its address: a way for a motif, the fields of a rule,
 * or the values that the rule gives. Takes the query as a browser sends it, and the number it is about;
 * gives the text of the rule, or why it cannot be made. Nothing is reckoned here.
 */
import { RULE_LIMITS } from '../../base/limits.ts';
import { readSizeList } from '../../pattern/bundle/size-list.ts';
import type { BundleData, NumberData } from '../../pattern/bundle/schema.ts';
import type { FittedSize } from '../../pattern/grading/motif.ts';
import {
  type MotifNumber,
  motifFits,
  motifRule,
  type MotifSize,
  WRITTEN_WAYS,
  type WrittenWay,
} from '../../pattern/grading/rules/motif-rule.ts';
import {
  EMPTY_FIELDS,
  fieldsOfRule,
  RULE_KINDS,
  type RuleFields,
  ruleOfFields,
} from '../../pattern/grading/rules/rule-fields.ts';

export const CHOICES = ['motif', 'fields', 'accept'] as const;
export type ChoiceKind = (typeof CHOICES)[number];

/** A motif as it is chosen: by size, empty where a size goes with all. */
export interface MotifTyped {
  readonly way: string;
  readonly ways: readonly string[];
  readonly repeat: string;
  readonly balance: string;
}

/** A word of the desk with its facts. */
export interface Refused {
  readonly word: string;
  readonly facts: Readonly<Record<string, string | number>>;
}

export type Wanted =
  | { readonly rule: string; readonly fitted?: readonly FittedSize[]; readonly size?: MotifSize }
  | { readonly refused: Refused };

export function choiceIn(query: URLSearchParams): ChoiceKind | undefined {
  return CHOICES.find((each) => each === query.get('choose'));
}

/** Undefined where nothing is chosen yet. */
export function wantedIn(
  query: URLSearchParams,
  data: BundleData,
  number: NumberData,
  motif: MotifNumber | undefined,
): Wanted | undefined {
  const wanted = chosenIn(query, data, number, motif);
  if (!wanted || 'refused' in wanted || wanted.rule.length <= RULE_LIMITS.letters) return wanted;
  return refusal('rule.tooLong', { letters: wanted.rule.length, most: RULE_LIMITS.letters });
}

function chosenIn(
  query: URLSearchParams,
  data: BundleData,
  number: NumberData,
  motif: MotifNumber | undefined,
): Wanted | undefined {
  const kind = choiceIn(query);
  if (kind === 'accept') return { rule: number.rule ?? '' };
  if (kind === 'fields') return { rule: ruleOfFields(fieldsIn(query, data, number)) };
  if (kind === 'motif' && motif) return motifWanted(motifIn(query, data, motif), data, motif);
  return undefined;
}

// ---------------------------------------------------------------- fields

/** As typed, else as the rule stands. */
export function fieldsIn(
  query: URLSearchParams,
  data: BundleData,
  { rule = '' }: NumberData,
): RuleFields {
  const ids = (data.numbers ?? []).map(({ id }) => id);
  const standing = fieldsOfRule(rule, ids);
  if (choiceIn(query) !== 'fields') return standing;
  // The page itself is about a number; the one a share is taken of has a field of another name.
  const typed = Object.keys(EMPTY_FIELDS).map((key) => [key, query.get(key === 'number' ? 'other' : key) ?? '']); // prettier-ignore
  const kind = RULE_KINDS.find((each) => each === query.get('kind')) ?? 'none';
  return { ...(Object.fromEntries(typed) as unknown as RuleFields), kind };
}

// ---------------------------------------------------------------- a motif

export function motifIn(query: URLSearchParams, data: BundleData, motif: MotifNumber): MotifTyped {
  const { multiple, plus } = motif.pattern;
  const chosen = choiceIn(query) === 'motif';
  return {
    way: query.get('way') ?? motifFits(motif)[0]?.way ?? '',
    ways: data.sizes.map((_, size) => (chosen ? (query.get(`way${size}`) ?? '') : '')),
    repeat: (chosen ? query.get('repeat') : null) ?? String(multiple),
    balance: (chosen ? query.get('balance') : null) ?? String(plus),
  };
}

const MOST_STITCHES = 400;

function motifWanted(typed: MotifTyped, data: BundleData, motif: MotifNumber): Wanted {
  const stitches = countsIn(typed.repeat, data.sizes.length, 2);
  if (!stitches) return refusal('rule.badRepeat', { typed: typed.repeat });
  const plus = countsIn(typed.balance, data.sizes.length, 0);
  if (!plus) return refusal('rule.badBalance', { typed: typed.balance });
  const named = data.sizes.map((_, size) => typed.ways[size] || typed.way); // oxlint-disable-line typescript/prefer-nullish-coalescing -- An empty field goes with all.
  const ways = named.flatMap((each): readonly WrittenWay[] => WRITTEN_WAYS.filter((way) => way === each)); // prettier-ignore
  const size = { stitches, plus };
  if (ways.length < named.length) return refusal('rule.noWay', { size: data.sizes.join(', ') });
  const fits = motifFits(motif, size);
  const without = data.sizes.filter((_, at) => !fits.some((fit) => fit.way === ways[at]));
  if (without.length > 0) return refusal('rule.noWay', { size: without.join(', ') });
  const made = motifRule(data, motif, ways, size);
  return made
    ? { rule: made.text, fitted: made.fitted, size }
    : refusal('rule.noWay', { size: data.sizes.join(', ') });
}

const refusal = (word: string, facts: Refused['facts']): Wanted => ({ refused: { word, facts } });

/** `12`, or one for each size: `12 (12, 10)`, `12, 12, 10`. */
function countsIn(typed: string, sizes: number, least: number): readonly number[] | undefined {
  const text = typed.trim().replace(/^(\d+)((?:\s*,\s*\d+)+)$/, (_, first: string, rest: string) => `${first} (${rest.replace(/^\s*,\s*/, '')})`); // prettier-ignore
  const read = readSizeList(text);
  if ('problem' in read || read.end < text.length) return undefined;
  const values = read.sized.values.filter((each) => each !== null);
  const fits = values.length === 1 || values.length === sizes;
  const right = values.every((each) => Number.isInteger(each) && each >= least && each <= MOST_STITCHES); // prettier-ignore
  return fits && right && values.length === read.sized.values.length ? values : undefined;
}
