/**
 * What happens to the stitches between rows: cast on, put on hold, take up again, join in the round, to
 * each other, bind off, draw through. Changes the state at once and works no row of the fabric.
 */
import type { Sentence } from '../notation/ast.ts';
import { heldAs, heldStitches, takeStrands, withHeld, withoutHeld } from './holders.ts';
import { fail, type Job, softly } from './job.ts';
import { problem } from './problem.ts';
import { tellMove } from './recording.ts';
import { isRoundStart } from './row.ts';
import { startState, type State, stitchesOn } from './state.ts';
import { countStitches, pushStrand, ROUND_START, type Strand } from './strands.ts';

type Of<Kind extends Sentence['kind']> = Extract<Sentence, { kind: Kind }>;

/** On an empty needle a new piece begins; else the new stitches are the next to be worked. */
export function castOn(job: Job, sentence: Of<'castOn'>): void {
  const count = job.read(sentence.count);
  if (count === null) return;
  const { state, env } = job;
  const left = [...state.left];
  tellMove(env.record, stitchesOn(state) > 0 ? state : bare(state), { kind: 'castOn', count });
  pushStrand(left, count);
  if (stitchesOn(state) > 0) {
    job.state = { ...state, left };
    return;
  }
  const { form, firstSide } = env;
  const { guessed, faulty } = state;
  const start = { ...startState(form, firstSide, state.holders), guessed, faulty };
  job.state = { ...start, left: count > 0 ? [count] : [] };
}

/** An empty needle, whichever side faced when the last stitches left it. */
const bare = (state: State): State => ({ ...state, left: [], right: [], side: 'RS' });

export function joinForm(job: Job, sentence: Of<'join'>): void {
  const { state } = job;
  const marksGone = (strand: Strand) => !isRoundStart(strand);
  const all = [...state.right, ...state.left].filter(marksGone);
  if (sentence.form === 'flat') {
    job.state = { ...state, form: 'flat', left: all, right: [] };
    return;
  }
  const left = sentence.placeMarker ? [ROUND_START, ...all] : all;
  job.state = { ...state, form: 'round', side: 'RS', left, right: [] };
}

export function holdStitches(job: Job, sentence: Of<'hold'>): void {
  const { state } = job;
  const left = [...state.left];
  const has = countStitches(left);
  const count = sentence.count === 'all' ? has : job.read(sentence.count);
  if (count === null || count === 0) return;
  if (count > has) {
    const numbers = { before: stitchesOn(state), needs: count, has };
    return fail(job, problem('count/too-few', sentence.span, numbers, { what: 'hold' }));
  }
  tellMove(job.env.record, state, { kind: 'hold', count, holder: sentence.holder });
  const strands = takeStrands(left, count);
  const { inches, row, heights } = state;
  const held = { strands, sets: job.env.made, piece: job.env.piece, inches, row, heights };
  const holders = withHeld(state.holders, sentence.holder, held);
  job.state = {
    ...state,
    left,
    holders,
    heights: { ...heights, divide: inches, underarm: inches },
  };
}

/** Several holders are worked in the order named, so the first comes to lie on top. */
export function resumeStitches(job: Job, sentence: Of<'resume'>): void {
  let { state } = job;
  const before = state.left;
  const left = [...before];
  const empty = stitchesOn(state) === 0;
  let sum = 0;
  let guessed = false;
  for (const name of [...sentence.holders].reverse()) {
    const held = heldAs(state.holders, name);
    if (!held) {
      fail(job, problem('count/no-holder', sentence.span, {}, { holder: name }));
      return;
    }
    const from = { holder: name, from: held.piece };
    tellMove(job.env.record, state, { kind: 'resume', count: heldStitches(held), ...from });
    for (const strand of held.strands) pushStrand(left, strand);
    sum += heldStitches(held);
    guessed ||= held.guessed === true;
    state = { ...state, holders: withoutHeld(state.holders, name, job.env.piece) };
    if (empty) {
      const { inches, row, heights } = held;
      state = { ...state, inches, row, heights, side: job.env.firstSide, right: [] };
    }
  }
  job.state = { ...state, left };
  const stated = sentence.count ? job.read(sentence.count) : null;
  if (guessed) {
    const others = [...before];
    pushStrand(others, stated ?? sum);
    job.state = { ...job.state, guessed: true, left: others };
    return;
  }
  if (stated === null || stated === sum) return;
  const holder = sentence.holders.join(', ');
  softly(job, problem('count/held', sentence.span, { held: sum, stated }, { holder }));
}

export function bindOffAll(job: Job): void {
  tellMove(job.env.record, job.state, { kind: 'end', count: stitchesOn(job.state) });
  job.state = { ...job.state, left: [], right: [] };
}

export function drawThrough(job: Job, sentence: Of<'drawThrough'>): void {
  const before = stitchesOn(job.state);
  const stated = sentence.count ? job.read(sentence.count) : null;
  if (stated !== null && stated !== before) {
    const numbers = { before, worked: before, stated };
    softly(job, problem('count/stated', sentence.count?.spans[0] ?? sentence.span, numbers, {}));
  }
  bindOffAll(job);
}

/** Two sets of stitches that are joined one to one must be equal. */
export function joinStitches(job: Job, sentence: Of<'joinStitches'>): void {
  const parts = sentence.parts.map((name) => ({ name, count: partCount(job, name) }));
  const known = parts.filter((part) => part.count !== undefined);
  const missing = parts.find((part) => part.count === undefined);
  if (missing && parts.length > 1) {
    return fail(job, problem('count/no-holder', sentence.span, {}, { holder: missing.name }));
  }
  const [first, second] = known;
  const stated = sentence.count ? job.read(sentence.count) : null;
  const numbers = { first: first?.count ?? 0, second: second?.count ?? stated ?? 0 };
  const words = { first: first?.name ?? '', second: second?.name ?? 'stated' };
  const guessed = parts.some(({ name }) => heldAs(job.state.holders, name)?.guessed === true);
  const compared = !guessed && (second !== undefined || stated !== null);
  if (first && compared && numbers.first !== numbers.second) {
    softly(job, problem('count/join', sentence.span, numbers, words));
  }
  for (const { name } of known) takeAway(job, name);
}

const isNeedle = (name: string): boolean => /needle/i.test(name);

function partCount(job: Job, name: string): number | undefined {
  if (isNeedle(name)) return stitchesOn(job.state);
  const held = heldAs(job.state.holders, name);
  return held && heldStitches(held);
}

function takeAway(job: Job, name: string): void {
  if (isNeedle(name)) bindOffAll(job);
  else {
    const holders = withoutHeld(job.state.holders, name, job.env.piece);
    job.state = { ...job.state, holders };
  }
}

/** `Mark this row`: lengths may be measured from here. */
export function mark(job: Job, sentence: Of<'mark'>): void {
  const { state } = job;
  if (sentence.what === 'row') {
    job.state = { ...state, heights: { ...state.heights, marker: state.inches } };
    return;
  }
  const name = sentence.name ?? '';
  job.state = { ...state, left: [...state.left, { kind: 'marker', name }] };
}
