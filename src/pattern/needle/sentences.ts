/**
 * What each sentence of a line does. Sentences that make rows become tracks or cycles of rows; those
 * that only handle the stitches (cast on, hold, join, fasten off) change the state at once.
 */
import { assertNever } from '../../base/assert.ts';
import type { Action, Sentence } from '../notation/ast.ts';
import { fail, type Job, plainRow, runTracks, workRow } from './job.ts';
import {
  bindOffAll,
  castOn,
  drawThrough,
  holdStitches,
  joinForm,
  joinStitches,
  mark,
  resumeStitches,
} from './handling.ts';
import { workLabelled } from './labelled.ts';
import { heightReached } from './lengths.ts';
import { problem } from './problem.ts';
import { repeatRows } from './repeat-rows.ts';
import { checkEnding, faceWith } from './sides.ts';
import { lastRows, type RowDefinition, type State } from './state.ts';
import { openTrack, sequenceTrack, type Track } from './tracks.ts';
import { trackOf } from './track-of.ts';

/** Rows that the label of the line names; undefined where it names none. */
export type Labelled = number | undefined;

type RowMaking = Extract<
  Sentence,
  { kind: 'actions' | 'repeatRows' | 'workEven' | 'shape' | 'edgeRows' | 'steps' }
>;

const makesRows = (sentence: Sentence): sentence is RowMaking =>
  ['actions', 'repeatRows', 'workEven', 'shape', 'edgeRows', 'steps'].includes(sentence.kind);

/** Works sentences in order; what is AT THE SAME TIME joins the one before it. */
export function workSentences(job: Job, sentences: readonly Sentence[], labelled?: Labelled): void {
  for (let at = 0; at < sentences.length && !job.failed; at += 1) {
    const sentence = sentences[at];
    if (!sentence) continue;
    const together: Sentence[] = [];
    for (let next = sentences[at + 1]; next?.kind === 'atTheSameTime'; next = sentences[at + 1]) {
      together.push(next);
      at += 1;
    }
    if (makesRows(sentence)) {
      const [actions, last] = actionsFrom(sentences, at);
      at = last;
      makeRows(job, sentence, actions, together, labelled);
    } else if (sentence.kind === 'atTheSameTime') {
      workSentences(job, sentence.sentences);
    } else handle(job, sentence);
  }
}

/** Neighbouring sentences of actions are one row: "Bind off 4 sts. K to end." */
function actionsFrom(sentences: readonly Sentence[], at: number): [readonly Action[], number] {
  const actions: Action[] = [];
  let last = at;
  for (let next = at; sentences[next]?.kind === 'actions'; next += 1) {
    const sentence = sentences[next];
    if (sentence?.kind === 'actions') actions.push(...sentence.actions);
    last = next;
  }
  return [actions, last];
}

function makeRows(
  job: Job,
  sentence: RowMaking,
  actions: readonly Action[],
  together: readonly Sentence[],
  labelled: Labelled,
): void {
  const start = job.state;
  noteHeights(job, sentence);
  if (together.length > 0) workTogether(job, sentence, actions, together, labelled);
  else if (sentence.kind === 'actions') workLabelled(job, sentence, actions);
  else if (sentence.kind === 'repeatRows') repeatRows(job, sentence, labelled);
  else if (sentence.kind === 'steps') workSteps(job, sentence);
  else workAlone(job, sentence, labelled);
  if (job.exactInches !== undefined && !job.failed && job.state.row >= start.row) {
    job.state = heightReached(job.state, job.exactInches);
  }
  job.exactInches = undefined;
  if ('extent' in sentence && job.state !== start) checkEnding(job, sentence.extent, sentence.span);
}

/** Underarms begin where stitches are bound off or cast on at the edges. */
function noteHeights(job: Job, sentence: RowMaking): void {
  if (sentence.kind !== 'edgeRows' || job.state.heights['underarm'] !== undefined) return;
  const heights = { ...job.state.heights, underarm: job.state.inches };
  job.state = { ...job.state, heights };
}

function workAlone(job: Job, sentence: RowMaking, labelled: Labelled): void {
  const track = trackOf(job, sentence, labelled, false);
  if (!track) return;
  const before = job.rows;
  const unit = unitOf(job, sentence);
  runTracks(job, [track], unit, sentence.span);
  fillLabel(job, sentence, labelled, job.rows - before, unit);
}

/** A label with more rows than the shaping takes goes on plain; one with fewer cannot be worked. */
function fillLabel(
  job: Job,
  sentence: RowMaking,
  labelled: Labelled,
  worked: number,
  unit: 'row' | 'round',
): void {
  if (job.failed || labelled === undefined || worked === labelled || worked === 0) return;
  if (worked > labelled) {
    const numbers = { label: labelled, worked };
    return fail(job, problem('count/label-rows', sentence.span, numbers, {}));
  }
  const rest = { span: sentence.span, open: false, rows: labelled - worked };
  for (let row = 0; row < rest.rows; row += 1) {
    workRow(job, plainRow(job, unit, rest.span), rest.span);
  }
}

function workSteps(job: Job, sentence: Extract<Sentence, { kind: 'steps' }>): void {
  const { extent } = sentence;
  const times =
    extent.kind === 'total' || extent.kind === 'more' ? (job.read(extent.times) ?? 0) : 1;
  for (let turn = 0; turn < times && !job.failed; turn += 1) {
    workSentences(job, sentence.sentences);
  }
}

// ---------------------------------------------------------------- at the same time

function workTogether(
  job: Job,
  sentence: RowMaking,
  actions: readonly Action[],
  together: readonly Sentence[],
  labelled: Labelled,
): void {
  const unit = unitOf(job, sentence);
  const first =
    sentence.kind === 'actions'
      ? oneRow(job, sentence, actions, unit)
      : (trackOf(job, sentence, labelled, true) ?? openTrack(sentence.span));
  const others = together.map((each) => joined(job, each)).filter((track) => track !== undefined);
  const fixed = hasLength(sentence) ? rowsAlone(job, first) : undefined;
  const before = job.rows;
  runTracks(job, [first, ...others], unit, sentence.span);
  const worked = job.rows - before;
  if (job.failed || fixed === undefined || worked <= fixed) return;
  const span = together[0]?.span ?? sentence.span;
  fail(job, problem('count/shaping-rows', span, { needs: worked, has: fixed }, {}));
}

const hasLength = (sentence: RowMaking): boolean =>
  'extent' in sentence && (sentence.extent.kind === 'length' || sentence.extent.kind === 'rows');

/** Rows the first sentence has room for. */
function rowsAlone(job: Job, track: Track): number | undefined {
  return 'length' in track && typeof track.length === 'number' ? track.length : undefined;
}

function oneRow(
  job: Job,
  sentence: RowMaking,
  actions: readonly Action[],
  unit: 'row' | 'round',
): Track {
  const row: RowDefinition = { actions, unit, line: job.lineIndex, short: false };
  let done = false;
  return {
    span: sentence.span,
    open: false,
    next: () => (done ? undefined : { rows: 1, definition: row, changes: [] }),
    worked: () => {
      done = true;
    },
    finish: (state) => state,
  };
}

function joined(job: Job, sentence: Sentence): Track | undefined {
  if (sentence.kind !== 'atTheSameTime') return undefined;
  const makers = sentence.sentences
    .filter(makesRows)
    .map((each) => (state: State) => trackOf({ ...job, state }, each, undefined, true));
  const { start } = sentence;
  if (!start) return sequenceTrack(sentence.span, makers);
  const wait = (state: State) =>
    trackOf({ ...job, state }, waiting(sentence.span, start), undefined, true);
  return sequenceTrack(sentence.span, [wait, ...makers]);
}

type Start = NonNullable<Extract<Sentence, { kind: 'atTheSameTime' }>['start']>;

const waiting = (span: Sentence['span'], extent: Start): RowMaking => ({
  kind: 'workEven',
  unit: 'row',
  extent,
  span,
});

/** Sentences without a unit of their own go on in rows or rounds as the work stands. */
export function unitOf(job: Job, sentence: RowMaking): 'row' | 'round' {
  if ('unit' in sentence) return sentence.unit;
  if (sentence.kind === 'shape' && sentence.schedule.unit) return sentence.schedule.unit;
  const last = lastRows(job.state, 1)[0];
  return last?.unit ?? (job.state.form === 'round' ? 'round' : 'row');
}

// ---------------------------------------------------------------- without rows

type Handled = Exclude<Sentence, RowMaking | { kind: 'atTheSameTime' }>;

function handle(job: Job, sentence: Handled): void {
  switch (sentence.kind) {
    case 'castOn':
      return castOn(job, sentence);
    case 'join':
      return joinForm(job, sentence);
    case 'hold':
      return holdStitches(job, sentence);
    case 'resume':
      return resumeStitches(job, sentence);
    case 'drawThrough':
      return drawThrough(job, sentence);
    case 'bindOffAll':
      return bindOffAll(job);
    case 'joinStitches':
      return joinStitches(job, sentence);
    case 'mark':
      return mark(job, sentence);
    case 'yarn':
      // New yarn may be joined on either side: what is said here is not checked, it is done.
      return faceWith(job, sentence.facing);
    case 'needle':
    case 'prose':
      return;
    default:
      return assertNever(sentence);
  }
}
