/** The findings of one pattern as a page, and those of its languages as a part that comes after. */
import { DESK_LIMITS } from '../../base/limits.ts';
import { blocks } from '../../findings/finding.ts';
import { type Answer, page } from '../answer.ts';
import { lastChange } from '../../shelf/changes.ts';
import { groupFindings } from '../findings-view.ts';
import type { Typed } from '../field.ts';
import type { Asked, Desk } from '../desk.ts';
import { frameOf } from './frame.ts';

export interface Slip extends Typed {
  readonly message: string;
  readonly remedy: string;
}

export async function showFindings(desk: Desk, asked: Asked): Promise<Answer> {
  return findingsPage(desk, asked, { status: 200 });
}

/** `slip`: a change that was not made, told on the page with what was typed. */
export async function findingsPage(
  desk: Desk,
  { call, words, wording }: Asked,
  { status, slip }: { readonly status: number; readonly slip?: Slip },
): Promise<Answer> {
  const { say, render } = wording;
  const name = words['name'] ?? '';
  const [looked, history] = await Promise.all([desk.look(name), desk.shelf.history(name)]);
  const data = looked.bundle?.data;
  const last = lastChange(history);
  const count = looked.findings.filter(blocks).length;
  const groups = groupFindings(looked.findings, looked.texts, wording, slip);
  const returned = groups.some(({ findings }) => findings.some((each) => each.returned));
  const view = {
    ...frameOf(looked, name, 'findings', say),
    groups,
    more: Math.max(0, looked.findings.length - DESK_LIMITS.findings),
    standing: say(count === 0 ? 'findings.clear' : 'findings.blocked', { count }),
    clear: count === 0,
    done: call.query.has('done') ? say(`done.${doneWord(call.query.get('done'))}`) : '',
    last: last && { before: last.before, after: last.after, place: last.pointer },
    history: history.toReversed().slice(0, 40),
    slip: slip && { ...slip, typed: returned ? '' : slip.typed },
    readable: looked.checked !== undefined,
    turns: data ? inTurn(data.languages, data.language, wording.language).join('|') : '',
  };
  return page(render('findings', view), status);
}

const doneWord = (word: string | null): string =>
  ['correct', 'accept', 'undo', 'papers'].find((each) => each === word) ?? 'correct';

/** What the languages say, or with `?of=` one of them: the page then asks for one after the other. */
export async function showLanguages(desk: Desk, { call, words, wording }: Asked): Promise<Answer> {
  const { render, list } = wording;
  const [looked, known] = await Promise.all([desk.look(words['name'] ?? ''), desk.languages()]);
  const all = looked.bundle?.data.languages ?? [];
  const of = all.find((tag) => tag === call.query.get('of'));
  const findings = await looked.languages(of);
  const asked = of === undefined ? all : [of];
  const view = {
    address: `/patterns/${encodeURIComponent(words['name'] ?? '')}`,
    groups: groupFindings(findings, looked.texts, wording),
    none: findings.length === 0,
    one: of === undefined ? '' : (known.get(of)?.settings.name ?? of),
    spoken: list(asked),
  };
  return page(render('languages', view));
}

/** Her own language first, then that of the pattern, then the others as the pattern has them. */
function inTurn(all: readonly string[], source: string, reader: string): readonly string[] {
  const rank = (tag: string) =>
    tag.split('-')[0] === reader.split('-')[0] ? 0 : tag === source ? 1 : 2;
  return all.toSorted((a, b) => rank(a) - rank(b));
}
