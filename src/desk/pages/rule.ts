/**
 * The rule of one number: as it stands, what another one or another way of a motif would do in every
 * size, and the list of changes to be confirmed. What is chosen stands in the address, so that it can be
 * looked at again after somebody else has changed the pattern; nothing is written here.
 */
import { present } from '../../base/assert.ts';
import { Fault } from '../../base/fault.ts';
import { wordingOf } from '../../findings/register.ts';
import { changeJson } from '../../pattern/bundle/edit.ts';
import { PATTERN_FILE } from '../../pattern/bundle/load.ts';
import type { BundleData, NumberData } from '../../pattern/bundle/schema.ts';
import { problemFinding } from '../../pattern/checks/derivations.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import { type Chosen, chooseRule } from '../../pattern/grading/rules/choose.ts';
import { type MotifNumber, motifNumber } from '../../pattern/grading/rules/motif-rule.ts';
import { nameOf } from '../../pattern/grading/rules/resolve.ts';
import type { RuleProblem } from '../../pattern/grading/rules/rule.ts';
import { tagOf } from '../../shelf/shelf.ts';
import { type Answer, page } from '../answer.ts';
import { type Asked, type Desk, fieldOf } from '../desk.ts';
import type { Looked } from '../look.ts';
import { languageFor, openSpoken, type Spoken } from '../names.ts';
import { choiceIn, type Wanted, wantedIn } from '../numbers/rule-choice.ts';
import { ruleForm } from '../numbers/rule-form.ts';
import { changeLines, remarksOn, resultRows } from '../numbers/rule-view.ts';
import { editsWithNumber, newNumberIn, withNumber } from '../numbers/new-number.ts';
import { motifRounds } from '../numbers/motif.ts';
import { numberPlace, usesOf } from '../numbers/uses.ts';
import { frameOf } from './frame.ts';
import { proposalPage } from './papers.ts';
import { unreadFault } from '../unread.ts';

/** New findings told before a change is written; the rest are counted. */
const MOST_FOUND = 8;

export const showRule = (desk: Desk, asked: Asked): Promise<Answer> =>
  rulePage(desk, asked, asked.call.query, asked.call.query.has('late'));

/** A number of a pattern that can be read, with all that its page speaks of. */
interface Subject {
  readonly looked: Looked;
  readonly checked: CheckedPattern;
  readonly data: BundleData;
  readonly number: NumberData;
  /** The pattern as it is, where it has no such number yet; `data` has it. */
  readonly without: BundleData | undefined;
  readonly at: number;
  readonly motif: MotifNumber | undefined;
  readonly wanted: Wanted | undefined;
}

async function subjectOf(desk: Desk, name: string, query: URLSearchParams): Promise<Subject> {
  const looked = await desk.look(name);
  const { checked } = looked;
  if (!checked) throw unreadFault();
  const standing = checked.pattern.bundle.data;
  const fresh = newNumberIn(query, standing);
  const data = fresh ? withNumber(standing, fresh) : standing;
  const id = fresh?.id ?? query.get('number') ?? '';
  const at = (data.numbers ?? []).findIndex((each) => each.id === id);
  const number = data.numbers?.[at];
  if (!number) throw new Fault('missing', `no number is called ${id}`, { place: id });
  const motif = motifNumber(data, id);
  const chosen = wantedIn(query, data, number, motif);
  const lacksRule = fresh && chosen && 'rule' in chosen && chosen.rule.trim() === '';
  const wanted: Wanted | undefined = lacksRule ? { refused: { word: 'number.needsRule', facts: {} } } : chosen; // prettier-ignore
  return { looked, checked, data, number, without: fresh && standing, at, motif, wanted };
}

async function rulePage(
  desk: Desk,
  asked: Asked,
  query: URLSearchParams,
  late: boolean,
): Promise<Answer> {
  const { words, wording } = asked;
  const { say, render } = wording;
  const name = words['name'] ?? '';
  const subject = await subjectOf(desk, name, query);
  const { looked, checked, data, number } = subject;
  const { languages } = data;
  const language = languageFor(wording.language, await desk.languages(), languages);
  const spoken = openSpoken(checked, language);
  const result = await resultOf(desk, asked, subject, spoken);
  const slip = late ? plainSlip(say('rule.late'), say('rule.lateDo')) : result.slip;
  const fresh = subject.without !== undefined;
  const uses = usesOf(data, spoken, say).get(`numbers/${number.id}`) ?? [];
  const frame = frameOf(looked, name, 'numbers', say);
  const view = {
    ...frame,
    title: `${nameOf(number)} · ${String(frame['heading'])}`,
    slip,
    number: number.id,
    fresh: fresh && { unit: number.unit, called: number.name ?? '' },
    called: nameOf(number),
    place: numberPlace(`numbers/${number.id}`),
    rule: number.rule ?? '',
    unit: number.unit,
    uses: uses.map(({ text, href = '' }) => ({ text, href })),
    tag: tagOf(patternOf(looked)),
    choice: choiceText(query),
    result: result.view,
    ...ruleForm(subject, query, { spoken, say }),
  };
  return page(render('rule', view), late ? 409 : result.slip ? 422 : 200);
}

const patternOf = ({ texts }: Looked): Uint8Array => present(texts.get(PATTERN_FILE), PATTERN_FILE);

/** The choice alone: what stood in the address for this one visit is left out. */
function choiceText(query: URLSearchParams): string {
  const kept = new URLSearchParams(query);
  kept.delete('late');
  return kept.toString();
}

// ---------------------------------------------------------------- what it would do

interface Slip {
  readonly message: string;
  readonly remedy: string;
  /** The rule that was made of it, cut at the place that is meant; all empty where there is none. */
  readonly before: string;
  readonly marked: string;
  readonly after: string;
  readonly typed: boolean;
}

const plainSlip = (message: string, remedy = ''): Slip => ({
  message,
  remedy,
  before: '',
  marked: '',
  after: '',
  typed: false,
});

interface Result {
  readonly view?: Readonly<Record<string, unknown>>;
  readonly slip?: Slip;
}

async function resultOf(
  desk: Desk,
  { words, wording }: Asked,
  subject: Subject,
  spoken: Spoken,
): Promise<Result> {
  const { say, saying } = wording;
  const { wanted, data, number, motif } = subject;
  if (!wanted) return {};
  if ('refused' in wanted) {
    const { word, facts } = wanted.refused;
    return { slip: plainSlip(say(word, facts)) };
  }
  const chosen = chooseRule(data, { id: number.id, rule: wanted.rule });
  if ('problem' in chosen) return { slip: problemSlip(subject, wanted.rule, chosen.problem, wording) }; // prettier-ignore
  const told = { data, spoken, say };
  const found =
    chosen.edits.length === 0
      ? []
      : await desk.work.ask('tried', { name: words['name'] ?? '', pattern: changed(subject, chosen, wanted.rule) }); // prettier-ignore
  const own = wanted.size?.stitches?.some((each) => each !== motif?.pattern.multiple) ?? false;
  return {
    view: {
      rule: wanted.rule,
      rows: resultRows(chosen, told),
      sizes: data.sizes,
      same: chosen.edits.length === 0,
      remarks: [
        ...remarksOn(chosen, told),
        ...(own && motif ? [say('rule.ownRepeat', { pattern: spoken.fabric(motif.pattern.name) })] : []), // prettier-ignore
      ],
      rounds: wanted.fitted && motif ? motifRounds(wanted.fitted, motif.pattern, wanted.size ?? {}, data.sizes, say) : [], // prettier-ignore
      found: found.slice(0, MOST_FOUND).map((each) => {
        const { headline } = wordingOf(each, saying);
        return { headline, place: each.where.label ?? '', row: each.where.text ?? '' };
      }),
      foundWord: say(found.length === 0 ? 'rule.foundNone' : 'rule.found', { count: found.length }),
      more: Math.max(0, found.length - MOST_FOUND),
    },
  };
}

function problemSlip(
  { data, number, at }: Subject,
  rule: string,
  problem: RuleProblem,
  { saying }: Asked['wording'],
): Slip {
  // A circle is told at the number where it closes; the place marked is that of its own rule.
  const told = { data: { ...(data.numbers?.[at] ?? number), rule }, pointer: `/numbers/${at}` };
  const { headline, action = '' } = wordingOf(problemFinding(told, problem), saying);
  const { start, end } = problem.kind === 'circle' ? { start: 0, end: 0 } : problem.span;
  const [before, marked, after] = [rule.slice(0, start), rule.slice(start, end), rule.slice(end)];
  return { message: headline, remedy: action, before, marked, after, typed: true };
}

function changed({ looked, without, number }: Subject, chosen: Chosen, rule: string): Uint8Array {
  const edits = without ? editsWithNumber(without, number, chosen, rule) : chosen.edits;
  const text = new TextDecoder('utf-8', { ignoreBOM: true }).decode(patternOf(looked));
  return new TextEncoder().encode(changeJson(text, edits));
}

// ---------------------------------------------------------------- to be written

export async function writeRule(desk: Desk, asked: Asked): Promise<Answer> {
  const { words, wording, call } = asked;
  const { say } = wording;
  const form = await call.form();
  const name = words['name'] ?? '';
  const query = new URLSearchParams(fieldOf(form, 'choice'));
  const subject = await subjectOf(desk, name, query);
  const { looked, wanted, data, number, checked } = subject;
  const tag = tagOf(patternOf(looked));
  if (tag !== fieldOf(form, 'tag')) return rulePage(desk, asked, query, true);
  const chosen = wanted && !('refused' in wanted) && chooseRule(data, { id: number.id, rule: wanted.rule }); // prettier-ignore
  if (!chosen || 'problem' in chosen || !choiceIn(query)) return rulePage(desk, asked, query, false); // prettier-ignore
  const spoken = openSpoken(checked, languageFor(wording.language, await desk.languages(), data.languages)); // prettier-ignore
  const { name: called = '', id } = number;
  const lines = [
    ...(subject.without ? [say('number.line', { id, called, unit: say(`unit.${number.unit}`) })] : []), // prettier-ignore
    ...changeLines(chosen, wanted.rule, { data, spoken, say }),
  ];
  const said = say('rule.said', { number: nameOf(number), changes: say('papers.brings', { count: lines.length }) }); // prettier-ignore
  const replacement =
    chosen.edits.length === 0
      ? undefined
      : { file: PATTERN_FILE, tag, bytes: changed(subject, chosen, wanted.rule), said };
  const back = `/patterns/${encodeURIComponent(name)}/rule?${choiceText(query)}`;
  const title = say('rule.title', { number: nameOf(number) });
  const lead = say('rule.ask');
  return proposalPage(desk, asked, { part: 'numbers', title, replacement, lines, lead, back });
}
