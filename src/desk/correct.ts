/**
 * Corrections made on a page: one value of a bundle's file is changed in place, its history kept beside
 * it in `.history/`, and the last change can be taken back. All or nothing: a change that was typed over
 * an older state of the file, or that would make the bundle unreadable, writes nothing.
 */
import { randomUUID } from 'node:crypto';
import { mkdir, readdir, readFile, rename, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { z } from 'zod';
import { Fault } from '../base/fault.ts';
import { hashBytes } from '../base/hash.ts';
import { DESK_LIMITS, JSON_LIMITS } from '../base/limits.ts';
import { followPointer } from '../base/span.ts';
import type { Finding } from '../findings/finding.ts';
import { wordingOf } from '../findings/register.ts';
import { changeJson } from '../pattern/bundle/edit.ts';
import { type Json, readJson } from '../pattern/bundle/json.ts';
import { loadBundle } from '../pattern/bundle/load.ts';
import { unpackBundle } from '../pattern/bundle/unpack.ts';

const entry = z.strictObject({
  number: z.number(),
  at: z.string(),
  file: z.string(),
  pointer: z.string(),
  before: z.string(),
  after: z.string(),
  /** Of the whole file after the change: it is taken back only from that very state. */
  tag: z.string(),
  /** The number of the change that this one takes back. */
  undoes: z.number().optional(),
  whole: z.string().describe('The file before the change'),
});
export type Entry = z.output<typeof entry>;

export interface Correction {
  readonly file: string;
  readonly pointer: string;
  readonly value: string;
  /** The file as it was when the page was made. */
  readonly tag: string;
}

export const tagOf = (bytes: Uint8Array): string => hashBytes(bytes).slice(0, 32);

/** A value as it is shown in a field, or nothing where it is not one that is corrected in a field. */
export function fieldText(value: unknown): string | undefined {
  if (typeof value === 'string') return value;
  if (typeof value === 'number') return String(value);
  if (!Array.isArray(value) || value.length === 0 || !value.every(isCount)) return undefined;
  return value.map((each) => each ?? '–').join(', ');
}

const isCount = (value: unknown): value is number | null =>
  value === null || typeof value === 'number';

export function correct(folder: string, { file, pointer, value, tag }: Correction, at: Date) {
  return changeFile(folder, { file, pointer, tag, at }, (root) => {
    const before = followPointer(root, pointer);
    const shown = fieldText(before);
    if (shown === undefined)
      throw new Fault('missing', 'this place cannot be changed on the page', { place: pointer });
    if (value.length > DESK_LIMITS.valueLetters)
      throw new Fault('input', `a value has at most ${DESK_LIMITS.valueLetters} letters`);
    const after = readField(value.replaceAll(/\s*[\r\n]+\s*/g, ' ').trim(), before);
    return { pointer, value: after, before: shown, after: fieldText(after) ?? value };
  });
}

/** Keeps the kind of the old value: a number stays a number, a list stays a list where it can. */
function readField(typed: string, before: unknown): Json {
  if (typeof before === 'string') return typed;
  const parts = typed.split(',').map((each) => each.trim());
  const counts = parts.map((each) => (/^[–-]$/.test(each) ? null : Number(each || Number.NaN)));
  if (counts.some(Number.isNaN)) return typed;
  if (Array.isArray(before)) return counts;
  return counts.length === 1 && counts[0] !== undefined ? counts[0] : typed;
}

export interface Acceptance {
  readonly code: string;
  readonly where: string;
  readonly reason: string;
  readonly tag: string;
}

export interface Replacement {
  readonly file: string;
  /** Undefined for a file that is not there yet. */
  readonly before: Uint8Array | undefined;
  readonly bytes: Uint8Array;
  /** What it brings, in a few words. */
  readonly said: string;
}

/** Puts a whole file in its place: numbers from a spreadsheet, texts from a translator. */
export function replaceFile(folder: string, order: Replacement, at: Date): Promise<Entry> {
  const { file, before, bytes, said } = order;
  return inTurn(folder, async () => {
    const files = await unpackBundle(folder);
    const now = files.get(file);
    if ((now && tagOf(now)) !== (before && tagOf(before))) throw staleFault(file);
    const { bundle, findings } = loadBundle(new Map([...files, [file, bytes]]));
    if (!bundle && loadBundle(files).bundle) throw unreadableFault(findings, file);
    const whole = before ? new TextDecoder('utf-8', { ignoreBOM: true }).decode(before) : '';
    const change = { at: at.toISOString(), file, pointer: '', before: '', after: said, whole };
    return commit(folder, change, bytes);
  });
}

/** Writes into `accepted` that this warning was looked at. */
export function accept(folder: string, { code, where, reason, tag }: Acceptance, at: Date) {
  const file = 'pattern.json';
  return changeFile(folder, { file, pointer: '/accepted', tag, at }, (root) => {
    const old = followPointer(root, '/accepted');
    const list = Array.isArray(old) ? (old as Json[]) : [];
    const value = [...list, { code, where, reason: reason.trim() }];
    return { pointer: '/accepted', value, before: '', after: `${code}: ${reason.trim()}` };
  });
}

// ---------------------------------------------------------------- one file, whole or not at all

interface Target {
  readonly file: string;
  readonly pointer: string;
  readonly tag: string;
  readonly at: Date;
}

type Edit = (root: Json) => {
  readonly pointer: string;
  readonly value: Json;
  readonly before: string;
  readonly after: string;
};

const waiting = new Map<string, Promise<unknown>>();

/** One change of a bundle after the other. */
function inTurn<T>(folder: string, work: () => Promise<T>): Promise<T> {
  const turn = (waiting.get(folder) ?? Promise.resolve()).then(work, work);
  waiting.set(folder, turn);
  return turn;
}

function changeFile(folder: string, { file, pointer, tag, at }: Target, edit: Edit) {
  return inTurn(folder, async () => {
    const files = await unpackBundle(folder);
    const bytes = files.get(file);
    if (!bytes || !file.endsWith('.json'))
      throw new Fault('missing', 'no such file is in the pattern', { place: file });
    if (tagOf(bytes) !== tag) throw staleFault(file);
    const whole = new TextDecoder().decode(bytes);
    const read = readJson(whole, JSON_LIMITS.depth);
    if (read.value === undefined)
      throw new Fault('input', `${file} is not JSON yet`, { remedy: 'mend it in an editor first' });
    const change = edit(read.value);
    const text = changeJson(whole, [{ pointer: change.pointer, value: change.value }]);
    const changed = new TextEncoder().encode(text);
    const { bundle, findings } = loadBundle(new Map([...files, [file, changed]]));
    if (!bundle && loadBundle(files).bundle) throw unreadableFault(findings, pointer);
    const { before, after } = change;
    return commit(folder, { at: at.toISOString(), file, pointer, before, after, whole }, changed);
  });
}

function unreadableFault(findings: readonly Finding[], place: string): Fault {
  const [first] = findings.filter(({ severity }) => severity === 'error');
  const said = first && wordingOf(first);
  return new Fault('input', said?.headline ?? 'the bundle could not be read any more', {
    place,
    ...(said?.action !== undefined && { remedy: said.action }),
  });
}

const staleFault = (file: string): Fault =>
  new Fault('conflict', `${file} was changed since this page was made; nothing was written`, {
    place: file,
    remedy: 'look at the pattern as it is now, then make the change again',
  });

/** History first: a change that is in the file can always be taken back. */
async function commit(
  folder: string,
  change: Omit<Entry, 'number' | 'tag'>,
  bytes: Uint8Array,
): Promise<Entry> {
  const kept = await readHistory(folder);
  const made: Entry = { number: (kept.at(-1)?.number ?? 0) + 1, tag: tagOf(bytes), ...change };
  const history = path.join(folder, '.history');
  await mkdir(history, { recursive: true });
  const name = `${String(made.number).padStart(5, '0')}.json`;
  await writeFile(path.join(history, name), `${JSON.stringify(made, null, 2)}\n`);
  const target = path.join(folder, ...made.file.split('/'));
  await mkdir(path.dirname(target), { recursive: true });
  // A file that was not there before is taken away again, not left empty.
  if (bytes.length === 0) {
    await rm(target, { force: true });
    return made;
  }
  const building = path.join(history, `.${randomUUID()}`);
  await writeFile(building, bytes);
  await rename(building, target);
  return made;
}

/** Every change made on the page, oldest first. */
export async function readHistory(folder: string): Promise<readonly Entry[]> {
  const history = path.join(folder, '.history');
  const names = await readdir(history).catch(() => []);
  const kept = names.filter((name) => /^\d{5}\.json$/.test(name)).sort();
  return Promise.all(
    kept.map(async (name) =>
      entry.parse(JSON.parse(await readFile(path.join(history, name), 'utf8'))),
    ),
  );
}

/** The change that would be taken back next. */
export function lastChange(history: readonly Entry[]): Entry | undefined {
  const taken = new Set(history.map(({ undoes }) => undoes));
  return history.findLast(({ number, undoes }) => undoes === undefined && !taken.has(number));
}

export function undo(folder: string, at: Date): Promise<Entry> {
  return inTurn(folder, async () => {
    const history = await readHistory(folder);
    const last = lastChange(history);
    if (!last) throw new Fault('missing', 'there is no change to take back');
    const now = await readFile(path.join(folder, ...last.file.split('/')));
    if (!isStateAfter(history, last, tagOf(now))) throw staleFault(last.file);
    const { file, pointer, before, after, whole, number } = last;
    const back = { file, pointer, before: after, after: before, undoes: number };
    const bytes = new TextEncoder().encode(whole);
    const change = { at: at.toISOString(), ...back, whole: new TextDecoder().decode(now) };
    return commit(folder, change, bytes);
  });
}

/** The file is as this change left it, or as a later change that was taken back returned it. */
const isStateAfter = (history: readonly Entry[], last: Entry, tag: string): boolean =>
  last.tag === tag ||
  history.some(
    (each) => each.undoes !== undefined && each.number > last.number && each.tag === tag,
  );
