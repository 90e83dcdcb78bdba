/**
 * Counts running text as a designer pastes it from a notebook: no bundle, no gauge, only rows. Gives a
 * table of the lines with the stitches before and after each in every size, and the findings. Sizes are
 * those the text names, or as many as its lists have numbers.
 */
import type { Finding } from '../../findings/finding.ts';
import { finding } from '../../findings/register.ts';
import { workPattern } from '../needle/index.ts';
import { numbersOfLine } from '../needle/vary.ts';
import type { Line } from '../notation/ast.ts';
import { readLine, readRunningText, type RunningLine } from '../notation/index.ts';
import type { CheckedPattern, Pattern, Piece, WrittenLine } from '../pattern.ts';
import { CATALOGUE } from '../stitches/index.ts';
import { bareBundle } from './bare-bundle.ts';
import { lengthsIn } from './written-lengths.ts';

export interface CountOptions {
  /** Names of the sizes in order, where the text does not say them. */
  readonly sizes?: readonly string[];
  /** What the text is called in findings: a file name, or "text". */
  readonly name?: string;
}

/** One line of the text, counted. */
export interface CountedLine {
  readonly text: string;
  /** From 1. */
  readonly lineNumber: number;
  /** By size; null where the line does not apply, or could not be read. */
  readonly before: readonly (number | null)[];
  readonly after: readonly (number | null)[];
  /** Rows or rounds worked; null also where a length is given, because the text has no gauge. */
  readonly rows: readonly (number | null)[];
}

export interface CountedText {
  readonly sizes: readonly string[];
  readonly lines: readonly CountedLine[];
  readonly findings: readonly Finding[];
}

export function countText(text: string, options: CountOptions = {}): CountedText {
  const { lines, problems } = readRunningText(text);
  const name = options.name ?? 'text';
  const sizes = options.sizes ?? sizesOfText(lines);
  const numbered = new Map<string, number>();
  const reading: Reading = { text, sizes, findings: [], numbered, name };
  for (const { code, span, facts } of problems) {
    const where = { file: name, pointer: '', text, span };
    reading.findings.push(finding(code, where, facts as never));
  }
  const pieces = piecesOf(lines).map((each, at) => readPiece(reading, each, at));
  const pattern: Pattern = { bundle: bareBundle(sizes), sizes, pieces, charts: new Map() };
  const worked = workPattern(pattern);
  const found = worked.findings.map((each) => placedInText(each, reading));
  const counted = worked.pieces.flatMap((piece) =>
    piece.lines.map((each) => lineOf(each, numbered)),
  );
  return { sizes, lines: counted, findings: [...reading.findings, ...found] };
}

interface Reading {
  readonly text: string;
  readonly name: string;
  readonly sizes: readonly string[];
  readonly findings: Finding[];
  /** Line number by pointer. */
  readonly numbered: Map<string, number>;
}

// ---------------------------------------------------------------- sizes and pieces

/** The sizes the text names; else as many as its longest list has numbers, named 1, 2, 3. */
function sizesOfText(lines: readonly RunningLine[]): readonly string[] {
  const named = lines.find((line) => line.kind === 'sizes');
  if (named?.kind === 'sizes') return named.names;
  const lengths = lines.map((line) => {
    if (line.kind !== 'instruction') return 1;
    const read = readLine(line.text, { sizes: undefined, catalogue: CATALOGUE });
    const lists = read.line ? numbersOfLine(read.line) : [];
    return Math.max(1, ...lists.map(({ sized }) => sized.values.length));
  });
  const longest = Math.max(1, ...lengths);
  return Array.from({ length: longest }, (_, at) => String(at + 1));
}

interface PieceText {
  readonly title: string;
  readonly lines: readonly RunningLine[];
}

/** A heading over a cast-on or a pick-up begins a piece of its own; other headings only divide. */
function piecesOf(lines: readonly RunningLine[]): readonly PieceText[] {
  const pieces: { title: string; lines: RunningLine[] }[] = [{ title: 'text', lines: [] }];
  lines.forEach((line, at) => {
    const next = lines.slice(at + 1).find(({ kind }) => kind === 'instruction');
    const begins = next !== undefined && /^(with\b.*?,\s*)?(cast on|co|pick up)\b/i.test(next.text);
    if (line.kind === 'heading' && begins) {
      pieces.push({ title: line.text.replace(/:$/, ''), lines: [] });
    }
    if (line.kind === 'instruction') pieces.at(-1)?.lines.push(line);
  });
  return pieces.filter((piece) => piece.lines.length > 0);
}

function readPiece(reading: Reading, { title, lines }: PieceText, at: number): Piece {
  const pointer = `/pieces/${at}`;
  const written = lines.map((line, index) => readWritten(reading, line, `${pointer}/${index}`));
  const form = firstUnit(written) === 'round' ? 'round' : 'flat';
  const data: Piece['data'] = {
    id: `piece-${at + 1}`,
    title,
    form,
    firstSide: 'RS',
    gauge: 'none',
    make: 1,
    sections: [],
  };
  return { data, pointer, sections: [{ id: title, title, pointer, lines: written }] };
}

/** Text that speaks of rounds from its first label on is worked in the round. */
function firstUnit(lines: readonly WrittenLine[]): 'row' | 'round' {
  for (const { line } of lines) {
    const label = line?.label;
    if (label && label.kind !== 'named') return label.unit;
  }
  return 'row';
}

function readWritten(reading: Reading, line: RunningLine, pointer: string): WrittenLine {
  const { text, sizes, name, findings, numbered } = reading;
  const lineNumber = text.slice(0, line.offset).split('\n').length;
  numbered.set(pointer, lineNumber);
  const read = readLine(line.text, { sizes, catalogue: CATALOGUE });
  for (const { code, span, facts } of read.problems) {
    const where = { file: name, pointer: '', label: `line ${lineNumber}`, text: line.text, span };
    findings.push(finding(code, where, facts as never));
  }
  return { text: line.text, pointer, ...(read.line && { line: read.line }) };
}

// ---------------------------------------------------------------- what came out

function placedInText(found: Finding, { numbered, name }: Reading): Finding {
  const place = (where: Finding['where']): Finding['where'] => {
    const { pointer: _, label: __, ...rest } = where;
    const lineNumber = numbered.get(where.pointer);
    const label = lineNumber === undefined ? where.label : `line ${lineNumber}`;
    return { ...rest, file: name, pointer: '', ...(label !== undefined && { label }) };
  };
  const related = found.related?.map(({ where, note }) => ({ where: place(where), note }));
  return { ...found, where: place(found.where), ...(related && { related }) };
}

function lineOf(
  { line, outcomes }: CheckedPattern['pieces'][number]['lines'][number],
  numbered: ReadonlyMap<string, number>,
): CountedLine {
  const known = (outcome: (typeof outcomes)[number]) => !outcome.skipped && line.line !== undefined;
  const byLength = line.line !== undefined && hasLength(line.line);
  return {
    text: line.text,
    lineNumber: numbered.get(line.pointer) ?? 0,
    before: outcomes.map((each) => (known(each) ? each.before : null)),
    after: outcomes.map((each) => (known(each) ? each.after : null)),
    rows: outcomes.map((each) => (known(each) && !byLength ? each.rows : null)),
  };
}

const hasLength = (line: Line): boolean => lengthsIn(line).length > 0;
