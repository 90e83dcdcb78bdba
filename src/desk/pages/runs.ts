/** Runs of a pattern: start one in the editions that were chosen, run one again, watch it, stop it. */
import { Fault } from '../../base/fault.ts';
import { type Answer, events, seeOther } from '../answer.ts';
import type { Asked, Desk } from '../desk.ts';
import type { Edition } from '../../pipeline/ports.ts';

const released = (name: string): Answer =>
  seeOther(`/patterns/${encodeURIComponent(name)}/release`);

export async function startRun(desk: Desk, { call, words }: Asked): Promise<Answer> {
  const name = words['name'] ?? '';
  const { bundle } = await desk.look(name);
  const form = await call.form();
  await desk.runs.start(name, { editions: [...editionsOf(form, bundle?.data.sizes ?? [])] });
  return released(name);
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
