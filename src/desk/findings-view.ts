/**
 * Findings as a page shows them: what blocks first, grouped by piece in the order of the pattern, each with its row cut
 * at the marked place, its table over the sizes, and the fields it speaks of. Takes what was looked at,
 * gives plain data for the template; every sentence about knitting comes from the register.
 */
import { DESK_LIMITS } from '../base/limits.ts';
import { followPointer, pointerTo } from '../base/span.ts';
import { blocks, type Finding } from '../findings/finding.ts';
import { wordingOf } from '../findings/register.ts';
import { hashValue } from '../base/hash.ts';
import type { BundleFiles } from '../pattern/bundle/unpack.ts';
import { fieldText } from '../shelf/changes.ts';
import { tagOf } from '../shelf/shelf.ts';
import { beginning } from './fault-words.ts';
import { type FieldView, fieldView, type Typed } from './field.ts';
import type { Say, Wording } from './wording.ts';

/** `returned`: what was typed at this finding and not written is in its field again. */
export type FindingView = Readonly<Record<string, unknown>> & { readonly returned: boolean };

export interface GroupView {
  readonly title: string;
  readonly findings: readonly FindingView[];
}

/** Fields offered at one finding: a measurement has two units, a list of numbers a few more. */
const MOST_FIELDS = 6;

export function groupFindings(
  findings: readonly Finding[],
  files: BundleFiles,
  { say, saying }: Pick<Wording, 'say' | 'saying'>,
  typed?: Typed,
): readonly GroupView[] {
  const values = readValues(files);
  const groups = new Map<string, FindingView[]>();
  for (const each of findings.toSorted(byWeight).slice(0, DESK_LIMITS.findings)) {
    const title = groupOf(each, values, say);
    const group = groups.get(title) ?? [];
    groups.set(title, [...group, viewOf(each, { files, values, typed, say, saying })]);
  }
  return [...groups].map(([title, inside]) => ({ title, findings: inside }));
}

/** What stands against a release comes first, what is only to know last; else as in the pattern. */
const byWeight = (a: Finding, b: Finding): number => weightOf(a) - weightOf(b);
const weightOf = (each: Finding): number =>
  blocks(each) ? 0 : each.accepted === undefined && each.severity === 'warning' ? 1 : 2;

type FileValues = ReadonlyMap<string, unknown>;

function readValues(files: BundleFiles): FileValues {
  return new Map(
    [...files].flatMap(([name, bytes]): [string, unknown][] => {
      if (!name.endsWith('.json')) return [];
      try {
        return [[name, JSON.parse(new TextDecoder().decode(bytes))]];
      } catch {
        return [];
      }
    }),
  );
}

const GROUPS = ['measurements', 'charts', 'stitchPatterns', 'numbers', 'joins', 'yarns', 'gauges'];

function groupOf({ where }: Finding, values: FileValues, say: Say): string {
  if (where.file.startsWith('prose/'))
    return say('group.prose', { language: where.file.slice(6, -5) });
  const [, first = '', at = ''] = where.pointer.split('/');
  if (first === 'pieces') {
    const title = followPointer(values.get(where.file), pointerTo('/pieces', at, 'title'));
    if (typeof title === 'string') return say('group.piece', { piece: title });
    // Where the pattern itself is not at hand, the place in words begins with the piece.
    const [piece] = (where.label ?? '').split(', ');
    if (values.size === 0 && piece) return say('group.piece', { piece });
  }
  return say(GROUPS.includes(first) ? `group.${first}` : 'group.pattern');
}

/** Where a finding stands on its page. */
export const idOf = ({ code, where, sizes }: Finding): string =>
  `at-${hashValue([code, where.file, where.pointer, where.span, sizes]).slice(0, 12)}`;

interface Reading extends Pick<Wording, 'say' | 'saying'> {
  readonly files: BundleFiles;
  readonly values: FileValues;
  readonly typed: Typed | undefined;
}

function viewOf(item: Finding, { files, values, typed, say, saying }: Reading): FindingView {
  const { headline, table, notes = [], action = '' } = wordingOf(item, saying);
  const place = (label = '') => saying?.place(label) ?? label;
  const { where, severity, accepted = '', code } = item;
  const id = idOf(item);
  const bytes = files.get(where.file);
  const pattern = files.get('pattern.json');
  const places = bytes ? fieldsOf(item, values, tagOf(bytes), id) : [];
  // A row has a number in its list, or is its text, and no name; its place in words says more.
  const nameOf = (name: string) => (/^(\d+|text)$/.test(name) ? place(where.label) || name : name);
  const fields = places.map((each) => fieldView({ ...each, name: nameOf(each.name) }, typed));
  const reason = typed?.code === code && typed.pointer === where.pointer ? typed.typed : '';
  return {
    id,
    code,
    headline: beginning(headline),
    severity,
    severityWord: say(`severity.${accepted === '' ? severity : 'accepted'}`),
    accepted,
    label: place(where.label),
    address: `${where.file} ${where.pointer}`,
    pointer: where.pointer,
    row: rowOf(item),
    table: table && tableOf(table, item.sizes),
    notes: notes.map(beginning),
    action: beginning(action),
    related: (item.related ?? []).map((each) => ({
      place: place(each.where.label) || each.where.pointer,
      note: saying?.phrase(each.note) ?? each.note,
    })),
    fields,
    reason,
    returned: reason !== '' || fields.some(({ returned }) => returned),
    acceptable:
      pattern !== undefined &&
      severity === 'warning' &&
      accepted === '' &&
      where.file === 'pattern.json',
    patternTag: pattern ? tagOf(pattern) : '',
    blocks: blocks(item),
    /** Mended where texts go out, come back and are tied to their source. */
    ofTexts: code.startsWith('translation/'),
  };
}

function rowOf({ where: { text, span } }: Finding) {
  if (text === undefined || text === '') return undefined;
  const { start, end } = span ?? { start: 0, end: 0 };
  return {
    before: text.slice(0, start),
    marked: text.slice(start, end),
    after: text.slice(end),
  };
}

interface Table {
  readonly sizes: readonly string[];
  readonly rows: readonly {
    readonly name: string;
    readonly cells: readonly (number | string | null)[];
  }[];
}

/** The columns of the sizes concerned are marked, where not all are. */
function tableOf({ sizes, rows }: Table, concerned: readonly string[]) {
  const marked = sizes.map((size) => concerned.length < sizes.length && concerned.includes(size));
  return {
    sizes,
    rows: rows.map(({ name, cells }) => ({
      name,
      cells: sizes.map((_, at) => ({ value: cells[at] ?? '–', differs: marked[at] })),
    })),
  };
}

/** The value itself, the text of a row, or the values of the record that the finding names. */
function fieldsOf(
  { where: { file, pointer } }: Finding,
  values: FileValues,
  tag: string,
  id: string,
): readonly Omit<FieldView, 'returned' | 'now'>[] {
  if (pointer === '') return [];
  const root = values.get(file);
  const leaves = leavesOf(followPointer(root, pointer), pointer, 2);
  const [text] = leaves.filter(({ name }) => name === 'text');
  return (text ? [text] : leaves).slice(0, MOST_FIELDS).map((leaf, at) => ({
    ...leaf,
    id: `${id}-${at}`,
    file,
    tag,
  }));
}

type Leaf = Pick<FieldView, 'name' | 'pointer' | 'value'>;

function leavesOf(value: unknown, pointer: string, depth: number): readonly Leaf[] {
  const shown = fieldText(value);
  if (shown !== undefined)
    return [{ name: pointer.split('/').at(-1) ?? '', pointer, value: shown }];
  if (typeof value !== 'object' || value === null || Array.isArray(value) || depth === 0) return [];
  return Object.entries(value).flatMap(([key, each]) =>
    ['id', 'name', 'letter'].includes(key)
      ? []
      : leavesOf(each, pointerTo(pointer, key), depth - 1),
  );
}
