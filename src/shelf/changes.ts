/**
 * The changes a page may make to a bundle: one value, an accepted warning, a whole file, and the last
 * change taken back. Takes the bundle as it is, gives the file as it is to be; all or nothing, for a
 * change typed over an older state of the file, or one that would make the bundle unreadable, is refused.
 */
import { Fault } from '../base/fault.ts';
import { DESK_LIMITS, JSON_LIMITS } from '../base/limits.ts';
import { followPointer } from '../base/span.ts';
import { FindingFault } from '../findings/fault.ts';
import { blocks, type Finding } from '../findings/finding.ts';
import { changeJson } from '../pattern/bundle/edit.ts';
import { Intake } from '../pattern/bundle/intake.ts';
import { type Json, readJson } from '../pattern/bundle/json.ts';
import { loadBundle, PATTERN_FILE } from '../pattern/bundle/load.ts';
import type { BundleFiles } from '../pattern/bundle/unpack.ts';
import type { Made, Now } from './room.ts';
import { type Acceptance, type Change, type Correction, type Replacement, tagOf } from './shelf.ts';

type Make = (now: Now) => Promise<Made>;

/** A value as it is shown in a field, or nothing where it is not one that is corrected in a field. */
export function fieldText(value: unknown): string | undefined {
  if (typeof value === 'string') return value;
  if (typeof value === 'number') return String(value);
  if (!Array.isArray(value) || value.length === 0 || !value.every(isCount)) return undefined;
  return value.map((each) => each ?? '–').join(', ');
}

const isCount = (value: unknown): value is number | null =>
  value === null || typeof value === 'number';

export function correctValue({ file, pointer, value, tag }: Correction): Make {
  return editJson({ file, pointer, tag }, (root) => {
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

/** Writes into `accepted` that this warning was looked at. */
export function acceptWarning({ code, where, reason, tag }: Acceptance): Make {
  return editJson({ file: PATTERN_FILE, pointer: '/accepted', tag }, (root) => {
    const old = followPointer(root, '/accepted');
    const list = Array.isArray(old) ? (old as Json[]) : [];
    const value = [...list, { code, where, reason: reason.trim() }];
    return { pointer: '/accepted', value, before: '', after: `${code}: ${reason.trim()}` };
  });
}

export function replaceFile({ file, tag, bytes, said }: Replacement): Make {
  return async ({ files }) => {
    requireTextFile(file, bytes);
    const now = files.get(file);
    if ((now && tagOf(now)) !== tag) throw staleFault(file);
    requireReadable(files, file, bytes, file);
    return { file, pointer: '', before: '', after: said, bytes };
  };
}

/** A name comes from a page or a wire, so it is held to what a bundle may hold. */
function requireTextFile(file: string, { length }: Uint8Array): void {
  const intake = new Intake('the pattern');
  const name = intake.accept(file, { bytes: length, packedBytes: length });
  if (name !== file || !file.endsWith('.json'))
    throw intake.refuse(file, 'is no JSON file of a pattern');
}

/** The change that would be taken back next. */
export function lastChange(history: readonly Change[]): Change | undefined {
  const taken = new Set(history.map(({ undoes }) => undoes));
  return history.findLast(({ number, undoes }) => undoes === undefined && !taken.has(number));
}

export const undoLast: Make = async ({ files, history, before: fileBefore }) => {
  const last = lastChange(history);
  if (!last) throw new Fault('missing', 'there is no change to take back');
  const now = files.get(last.file);
  if (!isStateAfter(history, last, now && tagOf(now))) throw staleFault(last.file);
  const { file, pointer, before, after, number } = last;
  const bytes = await fileBefore(last);
  return { file, pointer, before: after, after: before, undoes: number, bytes };
};

/** The file is as this change left it, or as a later change that was taken back returned it. */
const isStateAfter = (history: readonly Change[], last: Change, tag: string | undefined): boolean =>
  last.tag === tag ||
  history.some(
    (each) => each.undoes !== undefined && each.number > last.number && each.tag === tag,
  );

// ---------------------------------------------------------------- one JSON file

interface Edit {
  readonly pointer: string;
  readonly value: Json;
  readonly before: string;
  readonly after: string;
}

function editJson(
  { file, pointer, tag }: Pick<Correction, 'file' | 'pointer' | 'tag'>,
  edit: (root: Json) => Edit,
): Make {
  return async ({ files }) => {
    const bytes = files.get(file);
    if (!bytes || !file.endsWith('.json'))
      throw new Fault('missing', 'no such file is in the pattern', { place: file });
    if (tagOf(bytes) !== tag) throw staleFault(file);
    const whole = new TextDecoder().decode(bytes);
    const read = readJson(whole, JSON_LIMITS.depth);
    if (read.value === undefined)
      throw new Fault('input', `${file} is not JSON yet`, { remedy: 'mend it in an editor first' });
    const { value, ...told } = edit(read.value);
    const changed = changeJson(whole, [{ pointer: told.pointer, value }]);
    const encoded = new TextEncoder().encode(changed);
    requireReadable(files, file, encoded, pointer);
    return { file, ...told, bytes: encoded };
  };
}

/** What can be read stays readable; what cannot be read yet may be mended step by step. */
function requireReadable(files: BundleFiles, file: string, bytes: Uint8Array, place: string): void {
  const { bundle, findings } = loadBundle(new Map([...files, [file, bytes]]), WITHOUT_PHOTOS);
  if (!bundle && loadBundle(files, WITHOUT_PHOTOS).bundle) throw unreadableFault(findings, place);
}

const WITHOUT_PHOTOS = { withoutPhotos: true } as const;

function unreadableFault(findings: readonly Finding[], place: string): Fault {
  const [first] = findings.filter(blocks);
  if (first) return new FindingFault(first, place);
  return new Fault('input', 'the bundle could not be read any more', { place });
}

const staleFault = (file: string): Fault =>
  new Fault('conflict', `${file} was changed since this page was made; nothing was written`, {
    place: file,
    remedy: 'look at the pattern as it is now, then make the change again',
  });
