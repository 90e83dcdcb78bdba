/** Runs of a pattern: start one in the editions that were chosen, run one again, watch it, stop it. */
import { Fault } from '../../base/fault.ts';
import { type Stage, STAGES } from '../../release/stage.ts';
import { type Answer, events, seeOther } from '../answer.ts';
import type { Asked, Desk } from '../desk.ts';
import type { Edition } from '../../pipeline/ports.ts';
import { leftOpen } from '../stages-view.ts';
import { releasePage } from './release.ts';

const released = (name: string): Answer =>
  seeOther(`/patterns/${encodeURIComponent(name)}/release`);

export async function startRun(desk: Desk, asked: Asked): Promise<Answer> {
  const { call, words, wording } = asked;
  const name = words['name'] ?? '';
  const { bundle } = await desk.look(name);
  const form = await call.form();
  const stage = stageOf(form);
  const knowingly = form.getAll('unreviewed').map(String).filter((tag) => bundle?.data.languages.includes(tag)); // prettier-ignore
  const known = await desk.languages();
  const open = bundle ? leftOpen(bundle.data, known, { stage, knowingly }) : [];
  if (open.length > 0) {
    const names = open.map((tag) => known.get(tag)?.settings.name ?? tag);
    const refused = wording.say('stage.refused', { languages: wording.list(names) });
    const ticked = [...form.getAll('edition'), ...form.getAll('papers')].map(String);
    const unstarted = { chosen: { stage, knowingly }, ticked, refused };
    return releasePage(desk, asked, { status: 422, unstarted });
  }
  await desk.runs.start(name, {
    editions: [...editionsOf(form, bundle?.data.sizes ?? [])],
    stage,
    ...(knowingly.length > 0 && { unreviewed: knowingly }),
  });
  return released(name);
}

/** For sale where nothing is said, as for the command line and the API. */
function stageOf(form: FormData): Stage {
  const given = form.get('stage') ?? 'sale';
  const found = STAGES.find((stage) => stage === given);
  if (found) return found;
  throw new Fault('input', 'there is no such stage of a release', {
    remedy: 'choose one on the page of the release',
  });
}

const KINDS = ['large', 'ink-saving'] as const;
const PAPERS = ['A4', 'Letter'] as const;

/** The standard edition is always made; each edition on the language's own paper, or on both. */
function editionsOf(form: FormData, sizes: readonly string[]): readonly Edition[] {
  const chosen = new Set(form.getAll('edition').map(String));
  const kinds: readonly Edition[] = [
    { kind: 'standard' },
    ...KINDS.filter((kind) => chosen.has(kind)).map((kind) => ({ kind })),
    ...(chosen.has('one-size') ? sizes.map((size) => ({ kind: 'one-size' as const, size })) : []),
  ];
  if (form.get('papers') !== 'both') return kinds;
  return kinds.flatMap((edition) => PAPERS.map((paper) => ({ ...edition, paper })));
}

export async function runAgain(desk: Desk, { words }: Asked): Promise<Answer> {
  const { source, state, settings } = await desk.runs.get(words['run'] ?? '');
  if (state === 'working') throw new Fault('conflict', 'this run is still at work');
  await desk.runs.start(source, settings);
  return released(source);
}

export async function cancelRun(desk: Desk, { words }: Asked): Promise<Answer> {
  const { run, source } = await desk.runs.get(words['run'] ?? '');
  await desk.runs.cancel(run);
  return released(source);
}

export const tellRun = async (desk: Desk, { words }: Asked): Promise<Answer> =>
  events(await desk.runs.listen(words['run'] ?? ''));
