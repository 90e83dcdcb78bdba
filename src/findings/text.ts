/**
 * Findings as text for a terminal: the fact, the place, the row with a caret under the smallest
 * blameworthy part, a table over the sizes, and what to do. Takes findings and a width, gives text;
 * colours nothing, so that it reads the same in a log, a mail and a screen reader.
 */
import { type Finding, type Place, type SizeRow, type Wording } from './finding.ts';
import { columnsOf, padEnd, padStart } from './columns.ts';
import { wordingOf } from './register.ts';

export interface TextOptions {
  /** Columns of the terminal. */
  readonly width?: number;
}

const WIDTH = 100;
const BAR = '  | ';

/** All findings, errors first, with a blank line between two; ends with a newline. */
export function printFindings(findings: readonly Finding[], options: TextOptions = {}): string {
  return findings.map((each) => printFinding(each, options)).join('\n\n') + '\n';
}

export function printFinding(item: Finding, { width = WIDTH }: TextOptions = {}): string {
  const wording = wordingOf(item);
  const accepted = item.accepted === undefined ? '' : ' (accepted)';
  const lines = [
    `${item.severity}[${item.code}]${accepted}: ${wording.headline}`,
    placeLine(item.where),
    ...quotedLine(item.where, width),
    ...tableLines(wording, width),
    ...(item.related ?? []).flatMap(({ where, note }) => [
      `  = see ${placeWords(where)}: ${note}`,
      ...quotedLine(where, width),
    ]),
    ...(wording.notes ?? []).map((note) => `  = ${note}`),
    ...(wording.action === undefined ? [] : [`  = ${wording.action}`]),
    ...(item.accepted === undefined ? [] : [`  = accepted: ${item.accepted}`]),
  ];
  return lines.map((line) => line.trimEnd()).join('\n');
}

function placeLine({ file, pointer, label }: Place): string {
  const address = file === 'pattern.json' && pointer !== '' ? pointer : file + pointer;
  if (label === undefined) return `  --> ${address}`;
  return address === '' ? `  --> ${label}` : `  --> ${label}   (${address})`;
}

const placeWords = ({ label, pointer }: Place): string => label ?? pointer;

/** The text with carets under the span; a long text is cut to what stands around them. */
function quotedLine({ text, span }: Place, width: number): readonly string[] {
  if (text === undefined || text === '') return [];
  const line = text.replaceAll(/\s/g, ' ');
  if (!span || span.end <= span.start) return [BAR + cut(line, 0, width - BAR.length).shown];
  const { shown, from } = cut(line, middle(span), width - BAR.length, span);
  const start = Math.max(0, Math.min(shown.length, span.start - from));
  const end = Math.max(start + 1, Math.min(shown.length, span.end - from));
  const before = columnsOf(shown.slice(0, start));
  const carets = Math.max(1, columnsOf(shown.slice(start, end)));
  return [BAR + shown, BAR + ' '.repeat(before) + '^'.repeat(carets)];
}

const middle = ({ start, end }: { start: number; end: number }): number =>
  Math.floor((start + end) / 2);

/** A window of the text around a place, with … where it is cut. `from`: offset of its first letter. */
function cut(
  text: string,
  centre: number,
  width: number,
  span = { start: centre, end: centre },
): { shown: string; from: number } {
  if (columnsOf(text) <= width) return { shown: text, from: 0 };
  const room = Math.floor(width / (columnsOf(text) / text.length)) - 2;
  const longSpan = span.end - span.start >= room;
  const ideal = longSpan ? span.start - 4 : centre - Math.floor(room / 2);
  const from = Math.max(0, Math.min(ideal, text.length - room));
  const head = from > 0 ? '…' : '';
  const tail = from + room < text.length ? '…' : '';
  return { shown: head + text.slice(from, from + room) + tail, from: from - head.length };
}

// ---------------------------------------------------------------- the table over the sizes

function tableLines({ table }: Wording, width: number): readonly string[] {
  if (!table || table.rows.length === 0) return [];
  const names = Math.max(...table.rows.map((row) => columnsOf(row.name)));
  const columns = table.sizes.map((size, at) => [
    size,
    ...table.rows.map((row) => cellText(row, at)),
  ]);
  const widths = columns.map((cells) => Math.max(...cells.map(columnsOf)) + 2);
  return blocksOf(widths, width - BAR.length - names).flatMap(([from, to], block) => [
    ...(block > 0 ? [BAR.trimEnd()] : []),
    ...lineOf('', columns, widths, names, 0, from, to),
    ...table.rows.flatMap((row, at) => lineOf(row.name, columns, widths, names, at + 1, from, to)),
  ]);
}

const cellText = (row: SizeRow, at: number): string => {
  const cell = row.cells[at];
  return cell === null || cell === undefined ? '–' : String(cell);
};

function lineOf(
  name: string,
  columns: readonly (readonly string[])[],
  widths: readonly number[],
  names: number,
  row: number,
  from: number,
  to: number,
): readonly string[] {
  const cells = columns
    .slice(from, to)
    .map((cells, at) => padStart(cells[row] ?? '', widths[from + at] ?? 0));
  return [BAR + padEnd(name, names) + cells.join('')];
}

/** Many sizes go into several blocks of the table, each as wide as there is room. */
function blocksOf(widths: readonly number[], room: number): readonly (readonly [number, number])[] {
  const blocks: [number, number][] = [];
  let from = 0;
  let used = 0;
  widths.forEach((width, at) => {
    if (used + width > room && at > from) {
      blocks.push([from, at]);
      from = at;
      used = 0;
    }
    used += width;
  });
  blocks.push([from, widths.length]);
  return blocks;
}
