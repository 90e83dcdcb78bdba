/**
 * The two forms of a rule: how a motif goes across a number, and the rule itself in fields. Takes the
 * number, what was typed so far and the words of the reader; gives choices and values for the page.
 */
import { sayNumber, sayOff } from '../../base/plain-number.ts';
import type { BundleData, NumberData } from '../../pattern/bundle/schema.ts';
import type { MotifFit } from '../../pattern/grading/motif.ts';
import {
  type MotifNumber,
  motifFits,
  otherRepeats,
} from '../../pattern/grading/rules/motif-rule.ts';
import { nameOf, resolveNumbers } from '../../pattern/grading/rules/resolve.ts';
import { RULE_KINDS, ROUNDINGS, STEPS } from '../../pattern/grading/rules/rule-fields.ts';
import { settleNumbers } from '../../pattern/grading/rules/settle.ts';
import type { Spoken } from '../names.ts';
import type { Say } from '../wording.ts';
import { wayWord } from './motif.ts';
import { fieldsIn, motifIn } from './rule-choice.ts';

interface Subject {
  readonly data: BundleData;
  readonly number: NumberData;
  readonly motif: MotifNumber | undefined;
  /** The pattern as it is, where it has no such number yet. */
  readonly without?: BundleData | undefined;
}

interface Told {
  readonly spoken: Spoken;
  readonly say: Say;
}

interface Option {
  readonly value: string;
  readonly word: string;
  readonly here: boolean;
}

/** Other repeats that are offered; more would be a table of its own. */
const MOST_REPEATS = 3;

export function ruleForm(subject: Subject, query: URLSearchParams, told: Told) {
  return {
    over: typedOver(subject),
    motif: subject.motif ? motifForm(subject.motif, subject.data, query, told) : undefined,
    form: fieldForm(subject, query, told),
  };
}

/** Does the number stand at other values than its rule gives? */
function typedOver({ data, number }: Subject): boolean {
  if (number.rule === undefined || number.value === undefined) return false;
  return settleNumbers(data, resolveNumbers(data)).some(({ values, derived }) => {
    const count = derived.get(number.id)?.count;
    return count !== undefined && sayNumber(count, 3) !== sayNumber(values.get(number.id), 3);
  });
}

// ---------------------------------------------------------------- a motif

function motifForm(
  motif: MotifNumber,
  data: BundleData,
  query: URLSearchParams,
  { spoken, say }: Told,
) {
  // prettier-ignore
  const typed = motifIn(query, data, motif);
  const { pattern } = motif;
  const named = (way: string) => say(wayWord(way));
  const fits = motifFits(motif);
  const ways = (chosen: string, offOf: (fit: MotifFit) => string): readonly Option[] =>
    fits.map((fit) => ({
      value: fit.way,
      word: `${named(fit.way)}, ${offOf(fit)}`,
      here: fit.way === chosen,
    }));
  const worst = ({ worstDeviationInches: off }: MotifFit) => say('motif.worst', { off: sayNumber(off) }); // prettier-ignore
  const offIn = (at: number) => (fit: MotifFit) =>
    say('rule.off', { off: sayOff(fit.sizes[at]?.deviationInches) });
  return {
    title: say('rule.motif', { pattern: spoken.fabric(pattern.name) }),
    half: motif.parts === 2,
    ways: ways(typed.way, worst),
    repeat: typed.repeat,
    balance: typed.balance,
    own: typed.ways.some((each) => each !== ''),
    sizes: data.sizes.map((size, at) => ({
      size,
      name: `way${at}`,
      ways: [{ value: '', word: say('rule.asAll'), here: !typed.ways[at] }, ...ways(typed.ways[at] ?? '', offIn(at))], // prettier-ignore
    })),
    others: otherRepeats(motif)
      .slice(0, MOST_REPEATS)
      .map(({ stitches, worstInches }) => ({
        stitches: String(stitches),
        word: say('rule.repeatOf', { stitches, off: sayNumber(worstInches) }),
      })),
  };
}

// ---------------------------------------------------------------- fields

function fieldForm(
  { data, number, without }: Subject,
  query: URLSearchParams,
  { spoken, say }: Told,
) {
  const typed = fieldsIn(query, data, number);
  const { multiple, plus, size, within, ease, part, share, more, sum } = typed;
  const isLength = number.unit === 'in' || number.unit === 'cm';
  const measured = data.measurements.map(({ id, letter, name }) => ({ value: id, word: `${letter} · ${spoken.measurement(name)}` })); // prettier-ignore
  const worn = data.body.map(({ part: each }) => ({ value: `body ${each}`, word: say('rule.body', { part: spoken.measurement(each) }) })); // prettier-ignore
  const numbers = (data.numbers ?? []).filter(({ id }) => id !== number.id);
  const patterns = data.stitchPatterns.filter((each) => each.multiple > 1);
  const steps = STEPS.filter((each) => (each === 'length') === isLength).filter((each) => each !== 'pattern' || patterns.length > 0); // prettier-ignore
  // A length is not made through a gauge, and without another number there is no share of one.
  const kinds = RULE_KINDS.filter((each) => (each !== 'length' || !isLength) && (each !== 'share' || numbers.length > 0) && (each !== 'none' || !without)); // prettier-ignore
  const chosenKind = kinds.find((each) => each === typed.kind) ?? kinds[0];
  return {
    multiple,
    plus,
    size,
    within,
    ease,
    part,
    share,
    more,
    sum,
    isLength,
    kinds: kinds.map((kind) => ({
      kind,
      word: say(`rule.kind.${kind}`),
      here: kind === chosenKind,
      fromLength: kind === 'length',
      fromShare: kind === 'share',
      fromSum: kind === 'sum',
    })),
    of: marked([...worn, ...measured], typed.of),
    gauge: marked(data.gauges.map((each) => ({ value: each.id, word: say('rule.gaugeOf', { gauge: spoken.fabric(each.id), stitches: each.stitches, rows: each.rows, over: each.over }) })), typed.gauge), // prettier-ignore
    number: marked(numbers.map((each) => ({ value: each.id, word: nameOf(each) })), typed.number), // prettier-ignore
    pattern: marked(patterns.map((each) => ({ value: each.id, word: say('rule.patternOf', { pattern: spoken.fabric(each.name), multiple: `${each.multiple}${each.plus ? ` + ${each.plus}` : ''}` }) })), typed.pattern), // prettier-ignore
    rounding: marked(ROUNDINGS.map((each) => ({ value: each, word: say(`rule.round.${each === '' ? (isLength ? 'free' : 'none') : each}`) })), typed.rounding), // prettier-ignore
    step: marked(steps.map((each) => ({ value: each, word: say(`rule.step.${each}`) })), typed.step), // prettier-ignore
  };
}

const marked = (
  options: readonly { readonly value: string; readonly word: string }[],
  here: string,
): readonly Option[] => options.map((each) => ({ ...each, here: each.value === here }));
