/** Runs over the API of this machine: started, listed, followed, stopped, in the shapes of the cloud. */
import { API_LIMITS } from '../../base/limits.ts';
import { findingsRecord } from '../../findings/json.ts';
import { editionName } from '../../pipeline/steps/compose.ts';
import type { Edition, Progress } from '../../pipeline/ports.ts';
import { settings } from '../../pipeline/payloads.ts';
import { type Answer, json } from '../answer.ts';
import type { Desk } from '../desk.ts';
import type { Run } from '../run-record.ts';
import { readOrder, readRunsQuery } from './asked.ts';
import { Refusal } from './refusal.ts';
import type { Order } from './routes.ts';

export async function startRun({ runs }: Desk, { words, body }: Order): Promise<Answer> {
  const { run } = await runs.start(words['bundle'] ?? '', readOrder(settings, body));
  return json({ run }, 202);
}

/** The latest first. */
export async function listRuns({ runs, shelf }: Desk, { query }: Order): Promise<Answer> {
  const { bundle, limit } = readRunsQuery(query);
  const names = bundle === undefined ? [...(await shelf.names()), ...(await awayNames(shelf))] : [bundle]; // prettier-ignore
  const all = (await Promise.all(names.map((name) => runs.of(name)))).flat();
  const latest = all.sort((a, b) => (a.started < b.started ? 1 : -1)).slice(0, limit);
  return json({ runs: latest.map(tellRun) });
}

const awayNames = async (shelf: Desk['shelf']) => (await shelf.away()).map(({ name }) => name);

export async function showRun({ runs }: Desk, { words }: Order): Promise<Answer> {
  const id = words['run'] ?? '';
  const run = await runs.get(id);
  const heard: Progress[] = [];
  const stream = await runs.listen(id);
  const stop = stream.open(
    (event, data) => event === 'progress' && heard.push(data as Progress),
    () => undefined,
  );
  stop();
  return json({ ...tellRun(run), done: stepsOf(heard), documents: documentsOf(heard, run) });
}

const STEPS = ['intake', 'check', 'pictures', 'stage'] as const;

/** A step is behind a run where it says so, or where a later one was begun. */
function stepsOf(heard: readonly Progress[]) {
  const last = STEPS.findLastIndex((name) => heard.some(({ step }) => step === name));
  const isDone = (name: Progress['step']) =>
    heard.some(({ step, state }) => step === name && state === 'done');
  return STEPS.filter((name, at) => at < last || isDone(name));
}

/** Those that were made so far, and whether each was read again. */
function documentsOf(heard: readonly Progress[], { settings: { editions } }: Run) {
  const of = (wanted: Progress['step']) => heard.filter(({ step }) => step === wanted);
  const read = new Set(of('proof').map(keyOf));
  return of('compose').flatMap((event) => {
    const edition = (editions ?? STANDARD).find((each) => editionName(each) === event.edition);
    if (!edition) return [];
    const { kind, ...more } = edition;
    return [
      { language: event.language ?? '', edition: kind, ...more, done: read.has(keyOf(event)) },
    ];
  });
}

const STANDARD: readonly Edition[] = [{ kind: 'standard' }];

const keyOf = ({ language = '', edition = '' }: Progress): string => `${language} ${edition}`;

function tellRun(run: Run) {
  const { source: bundle, started: startedAt, seen: _seen, resumed: _resumed, setAside: _setAside, ...told } = run; // prettier-ignore
  return { ...told, bundle, startedAt };
}

export async function showFindings(desk: Desk, { words }: Order): Promise<Answer> {
  const { source } = await desk.runs.get(words['run'] ?? '');
  const looked = await desk.look(source);
  const findings = [...looked.findings, ...(await looked.languages())];
  const told = findingsRecord(findings);
  const more = Math.max(0, findings.length - API_LIMITS.findings);
  return json({ ...told, more, findings: told.findings.slice(0, API_LIMITS.findings) });
}

export async function stopRun({ runs }: Desk, { words }: Order): Promise<Answer> {
  const { run, state } = await runs.get(words['run'] ?? '');
  if (state !== 'working' && state !== 'cancelled') throw new Refusal(409, 'The run has ended');
  await runs.cancel(run);
  return json({ run }, 202);
}
