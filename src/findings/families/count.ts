/**
 * Findings of the family `count`: what the needle finds when the rows are worked. All of them carry the
 * row in the knitter's words, the names of the sizes, which of them are concerned, and numbers by size;
 * each code says which numbers those are and how the fact is worded.
 */
import type { Entry, Facts, Severity, SizeRow, Wording } from '../finding.ts';
import { listed, sizesSay } from './wording.ts';

export type NumbersBySize<Name extends string> = Readonly<Record<Name, readonly (number | null)[]>>;

/** The facts of a finding of the needle. `Name`: numbers by size; `Word`: what is alike in all. */
export type CountFacts<Name extends string, Word extends string> = Facts & {
  /** "round 3", "rounds 4–6", "the cast-on". */
  readonly row: string;
  readonly sizes: readonly string[];
  /** Indexes into `sizes`. */
  readonly affected: readonly number[];
  readonly numbers: NumbersBySize<Name>;
  readonly words: Readonly<Record<Word, string>>;
  readonly notes?: readonly string[];
  readonly fix?: string;
};

interface Said<Name extends string, Word extends string> {
  /** The sizes as the subject of a sentence, with its verb: `size L` and `ends` or `end`. */
  readonly who: string;
  readonly one: boolean;
  readonly row: string;
  /** A number by name for the affected sizes: "108", "108 and 116". */
  readonly number: (name: Name) => string;
  /** The same with its unit: "1 st", "108 and 116 sts". */
  readonly sts: (name: Name) => string;
  readonly word: (name: Word) => string;
}

interface CountWording<Name extends string, Word extends string> {
  readonly severity: Severity;
  readonly about: string;
  /** Numbers shown in the table, in this order, with the name of the table row. */
  readonly table: Readonly<Partial<Record<Name, string>>>;
  headline(said: Said<Name, Word>): string;
  action?(said: Said<Name, Word>): string;
}

function countEntry<Name extends string, Word extends string>(
  wording: CountWording<Name, Word>,
): Entry<CountFacts<Name, Word>> {
  const { severity, about } = wording;
  return { severity, about, word: (facts) => word(wording, facts) };
}

function word<Name extends string, Word extends string>(
  wording: CountWording<Name, Word>,
  facts: CountFacts<Name, Word>,
): Wording {
  const said: Said<Name, Word> = {
    ...sizesSay(facts.sizes, facts.affected),
    row: facts.row,
    number: (name) => numbersSay(facts, name),
    sts: (name) => stitchesSay(numbersSay(facts, name)),
    word: (name) => facts.words[name],
  };
  const names = Object.entries(wording.table) as [Name, string][];
  const rows: SizeRow[] = names.map(([name, label]) => ({
    name: label,
    cells: facts.numbers[name] ?? [],
  }));
  const action = facts.fix ?? wording.action?.(said);
  return {
    headline: wording.headline(said),
    ...(facts.sizes.length > 1 && rows.length > 0 && { table: { sizes: facts.sizes, rows } }),
    ...(facts.notes && facts.notes.length > 0 && { notes: facts.notes }),
    ...(action !== undefined && { action }),
  };
}

const stitchesSay = (said: string): string => `${said} ${said === '1' ? 'st' : 'sts'}`;

/** The numbers of the sizes concerned, said once where they are alike; a long list is cut short. */
function numbersSay<Name extends string, Word extends string>(
  facts: CountFacts<Name, Word>,
  name: Name,
): string {
  const values = facts.affected.map((size) => facts.numbers[name]?.[size] ?? null);
  const said = values.map((value) => (value === null ? '–' : String(value)));
  const different = [...new Set(said)];
  if (different.length === 1) return different[0] ?? '';
  return listed(said.length > 4 ? [...said.slice(0, 3), '…'] : said);
}

const error = 'error' as const;
const warning = 'warning' as const;

export const countFamily = {
  'count/stated': countEntry<'before' | 'worked' | 'stated', never>({
    severity: error,
    about: 'The stitches on the needle after a row are not the count stated there.',
    table: { before: 'before', worked: 'worked', stated: 'stated' },
    headline: ({ who, one, row, number, sts }) =>
      `${who} ${one ? 'ends' : 'end'} ${row} with ${sts('worked')}; the pattern states ${number('stated')}`,
  }),
  'count/stated-change': countEntry<'before' | 'worked' | 'changed' | 'stated', 'change'>({
    severity: error,
    about: 'A row changes the count by another number than the one stated.',
    table: { before: 'before', worked: 'worked', changed: 'changed by', stated: 'stated' },
    headline: ({ who, one, row, number, word, sts }) =>
      `${who} ${one ? 'goes' : 'go'} from ${number('before')} to ${sts('worked')} in ${row}; the pattern states ${number('stated')} ${word('change')}`,
  }),
  'count/too-few': countEntry<'before' | 'needs' | 'has', 'what'>({
    severity: error,
    about: 'A row asks for more stitches than are left on the needle.',
    table: { before: 'before', needs: 'needed', has: 'left there' },
    headline: ({ who, one, row, number, word }) =>
      `${who} ${one ? 'runs' : 'run'} out of stitches in ${row}: “${word('what')}” needs ${number('needs')}, ${number('has')} left`,
  }),
  'count/left-over': countEntry<'before' | 'leftOver', never>({
    severity: error,
    about: 'A row ends with stitches unworked, and says no turn.',
    table: { before: 'before', leftOver: 'left over' },
    headline: ({ who, one, row, sts }) =>
      `${who} ${one ? 'has' : 'have'} ${sts('leftOver')} left over at the end of ${row}`,
  }),
  'count/repeat': countEntry<'available' | 'takes' | 'leftOver', never>({
    severity: error,
    about: 'The stitches a repeat has to fill are not a multiple of the stitches it takes.',
    table: { available: 'available', leftOver: 'left over' },
    headline: ({ who, one, row, sts }) =>
      `the repeat of ${sts('takes')} does not divide in ${row}: ${who} ${one ? 'has' : 'have'} ${sts('leftOver')} left over`,
  }),
  'count/endless': countEntry<never, never>({
    severity: error,
    about: 'A repeat that is to run to a place takes no stitches, so that it never gets there.',
    table: {},
    headline: ({ row }) => `the repeat in ${row} takes no stitches and never ends`,
    action: () => 'say how many times it is worked',
  }),
  'count/goal': countEntry<'has' | 'stops', never>({
    severity: error,
    about: 'A row is to be worked up to a place that lies behind.',
    table: { has: 'left there', stops: 'to stop before' },
    headline: ({ who, one, row, number, sts }) =>
      `${who} ${one ? 'has' : 'have'} ${sts('has')} left in ${row} where ${number('stops')} are to stay`,
  }),
  'count/no-marker': countEntry<'has', 'marker'>({
    severity: error,
    about: 'A row names a marker that is not on the needle ahead.',
    table: {},
    headline: ({ row, word }) => `${word('marker')} is needed in ${row}, and none lies ahead`,
    action: () => 'place the marker in an earlier row, or name the one that is meant',
  }),
  'count/marker-away': countEntry<'away', 'marker'>({
    severity: error,
    about: 'A marker is to be slipped or removed before it is reached.',
    table: { away: 'sts before it' },
    headline: ({ who, one, row, number, word }) =>
      `${who} ${one ? 'is' : 'are'} ${number('away')} sts before ${word('marker')} where it should come next in ${row}`,
  }),
  'count/turn': countEntry<'left' | 'stated', never>({
    severity: error,
    about: 'The stitches left unworked at a turn are not the number stated.',
    table: { left: 'left unworked', stated: 'stated' },
    headline: ({ who, one, row, number, sts }) =>
      `${who} ${one ? 'leaves' : 'leave'} ${sts('left')} unworked in ${row}; the pattern states ${number('stated')}`,
  }),
  'count/evenly': countEntry<'over' | 'changes', 'what'>({
    severity: error,
    about: 'More stitches are to be increased or decreased than the row has room for.',
    table: { over: 'stitches', changes: 'changes' },
    headline: ({ who, one, row, number, word, sts }) =>
      `${who} ${one ? 'has' : 'have'} ${sts('over')} in ${row}, too few to ${word('what')} ${number('changes')}`,
  }),
  'count/no-holder': countEntry<never, 'holder'>({
    severity: error,
    about: 'Stitches are to be worked that no earlier row has put on hold.',
    table: {},
    headline: ({ row, word }) => `no stitches are on hold as “${word('holder')}” for ${row}`,
    action: ({ word }) => `put the stitches on hold as “${word('holder')}” in an earlier row`,
  }),
  'count/held': countEntry<'held' | 'stated', 'holder'>({
    severity: error,
    about: 'The stitches taken up from a holder are not the number stated.',
    table: { held: 'on hold', stated: 'stated' },
    headline: ({ who, one, row, number, sts, word }) =>
      `${who} ${one ? 'has' : 'have'} ${sts('held')} on hold as “${word('holder')}”; ${number('stated')} are taken up in ${row}`,
  }),
  'count/join': countEntry<'first' | 'second', 'first' | 'second'>({
    severity: error,
    about: 'Two sets of stitches are to be joined stitch by stitch and are not equal.',
    table: { first: 'first', second: 'second' },
    headline: ({ who, one, row, number, word, sts }) =>
      `${who} ${one ? 'joins' : 'join'} ${sts('first')} (${word('first')}) to ${number('second')} (${word('second')}) in ${row}`,
  }),
  'count/side': countEntry<'rowNumber', 'stated' | 'faces'>({
    severity: error,
    about: 'A row is labelled with one side, and the other side faces.',
    table: {},
    headline: ({ row, word }) =>
      `${word('faces')} faces at ${row}, which the label calls ${word('stated')}`,
    action: () => 'correct the label, or add or take out a row before it',
  }),
  'count/never': countEntry<'from' | 'target', never>({
    severity: error,
    about: 'Rows are to be repeated until a count that they step over or move away from.',
    table: { from: 'comes to', target: 'wanted' },
    headline: ({ who, one, row, number, sts }) =>
      `${who} never ${one ? 'comes' : 'come'} to ${sts('target')} in ${row}; the nearest is ${number('from')}`,
  }),
  'count/ending': countEntry<'row', 'stated' | 'ended'>({
    severity: error,
    about: 'A stretch is said to end with one side or row and ends with another.',
    table: {},
    headline: ({ row, word }) =>
      `${word('ended')} is worked last in ${row}; the pattern states ${word('stated')}`,
    action: () => 'correct what it ends with, or the number of rows',
  }),
  'count/limit': countEntry<never, 'what' | 'limit'>({
    severity: error,
    about: 'A number is so large that no knitter could mean it.',
    table: {},
    headline: ({ row, word }) =>
      `more than ${word('limit')} ${word('what')} are asked for in ${row}`,
    action: () => 'check the number',
  }),
  'count/longer': countEntry<'has' | 'stated', 'unit'>({
    severity: error,
    about: 'Work is to go on until a length that it has already passed.',
    table: { has: 'measures', stated: 'until' },
    headline: ({ who, one, row, number, word }) =>
      `${who} already ${one ? 'measures' : 'measure'} ${number('has')} ${word('unit')} before ${row}, where work is to go on until ${number('stated')}`,
  }),
  'count/shaping-rows': countEntry<'needs' | 'has', never>({
    severity: error,
    about: 'Shaping takes more rows than the length or the label gives it.',
    table: { needs: 'rows needed', has: 'rows there' },
    headline: ({ who, one, row, number }) =>
      `${who} ${one ? 'needs' : 'need'} ${number('needs')} rows for the shaping in ${row}; there are ${number('has')}`,
  }),
  'count/label-rows': countEntry<'label' | 'worked', never>({
    severity: error,
    about: 'A label names so many rows, and what is said there takes another number.',
    table: { label: 'labelled', worked: 'worked' },
    headline: ({ who, one, row, number }) =>
      `${who} ${one ? 'works' : 'work'} ${number('worked')} rows in ${row}, whose label names ${number('label')}`,
  }),
  'count/multiple': countEntry<'before' | 'leftOver', 'pattern' | 'multiple'>({
    severity: error,
    about: 'The stitches on the needle do not fit the multiple of the stitch pattern.',
    table: { before: 'on the needle', leftOver: 'over' },
    headline: ({ who, one, row, word, sts }) =>
      `${who} ${one ? 'comes' : 'come'} to ${row} with ${sts('before')}; ${word('pattern')} needs a multiple of ${word('multiple')}`,
  }),
  'count/no-such-row': countEntry<never, 'rows'>({
    severity: error,
    about: 'Rows are to be repeated that have not been worked before.',
    table: {},
    headline: ({ word }) => `“${word('rows')}” names rows that are not written before it`,
    action: () => 'write the row, or correct the number',
  }),
  'count/no-such-chart': countEntry<never, 'chart'>({
    severity: error,
    about: 'A row names a chart or stitch pattern that the bundle does not have.',
    table: {},
    headline: ({ row, word }) => `“${word('chart')}”, worked in ${row}, is not there`,
    action: ({ word }) => `add “${word('chart')}”, or correct the name`,
  }),
  'count/chart-row': countEntry<'row' | 'rows', 'chart'>({
    severity: error,
    about: 'A row of a chart is named that the chart does not have.',
    table: {},
    headline: ({ row, number, word }) =>
      `row ${number('row')} of ${word('chart')} is asked for in ${row}; the chart has ${number('rows')} rows`,
  }),
  'count/open-ended': countEntry<never, never>({
    severity: warning,
    about: 'Work is to go on, and nothing says for how long.',
    table: {},
    headline: ({ row }) => `no number of rows and no length is given for ${row}`,
    action: () => 'say for how many rows, or until what length',
  }),
  'count/row-missing': countEntry<'expected' | 'found', never>({
    severity: warning,
    about: 'The numbers of the rows leave one out.',
    table: {},
    headline: ({ row, number }) => `row ${number('expected')} is not written before ${row}`,
    action: () => 'write the row, or correct the number',
  }),
  'count/row-order': countEntry<'expected' | 'found', never>({
    severity: warning,
    about: 'The numbers of the rows do not follow one another.',
    table: {},
    headline: ({ row, number }) =>
      `a number from ${number('expected')} on is expected at ${row}, not ${number('found')}`,
    action: () => 'correct the number',
  }),
  'count/chart-step': countEntry<'row' | 'label', 'chart'>({
    severity: warning,
    about: 'Rows that are labelled like the rows of a chart have come out of step with it.',
    table: { label: 'labelled', row: 'chart row' },
    headline: ({ row, number, word }) =>
      `row ${number('row')} of ${word('chart')} is worked as row ${number('label')} in ${row}`,
    action: () => 'correct the rows of the label, or the box of the chart',
  }),
  'count/zero': countEntry<never, 'what'>({
    severity: warning,
    about: 'A stitch or repeat is to be worked no times in any size.',
    table: {},
    headline: ({ row, word }) => `“${word('what')}” in ${row} works nothing in any size`,
    action: () => 'take it out, or correct the number',
  }),
  'count/asymmetric': countEntry<'before' | 'after', 'first' | 'last'>({
    severity: warning,
    about: 'Two shapings that mirror one another stand at different distances from their edges.',
    table: { before: 'before it', after: 'after it' },
    headline: ({ row, number, word }) =>
      `in ${row} ${word('first')} stands ${number('before')} from its edge and ${word('last')} ${number('after')}`,
    action: () => 'make the two alike, or accept it with the reason',
  }),
  'count/odd-size': countEntry<'one' | 'other', 'one' | 'other'>({
    severity: warning,
    about: 'Two numbers of a row are alike in all sizes but one.',
    table: { one: 'one', other: 'the other' },
    headline: ({ who, row, number, word }) =>
      `in ${row} ${word('one')} and ${word('other')} are alike in the other sizes, but ${number('one')} and ${number('other')} in ${who}`,
    action: () => 'make the two alike, or accept it with the reason',
  }),
  'count/pattern-smaller': countEntry<'count', 'pattern' | 'multiple' | 'smaller'>({
    severity: warning,
    about: 'The rows of a stitch pattern work on a smaller multiple than the one stated.',
    table: {},
    headline: ({ word }) =>
      `${word('pattern')} states a multiple of ${word('multiple')}; its rows work on a multiple of ${word('smaller')}`,
    action: () => 'correct the multiple',
  }),
  'count/pattern': countEntry<'count' | 'after', 'pattern' | 'multiple' | 'how'>({
    severity: error,
    about: 'A row of a stitch pattern does not work on the multiple that the pattern states.',
    table: {},
    headline: ({ row, number, word }) =>
      `${row} of ${word('pattern')} ${word('how')} over ${number('count')} sts, a multiple of ${word('multiple')}`,
    action: () => 'correct the row, or the multiple',
  }),
  'count/pattern-returns': countEntry<'count' | 'after', 'pattern'>({
    severity: error,
    about: 'After its last row a stitch pattern leaves another count than its first row takes.',
    table: {},
    headline: ({ number, word }) =>
      `the rows of ${word('pattern')} begin with ${number('count')} sts and end with ${number('after')}, so that they cannot be repeated`,
  }),
} as const;

export type CountCode = keyof typeof countFamily;
