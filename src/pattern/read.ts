/**
 * From a bundle to a pattern: every written line parsed, every chart read into cells. Takes a loaded
 * bundle, gives the pattern and a finding for everything that could not be read, each with its place in
 * the knitter's words. What the rows count is not known here.
 */
import { pointerTo } from '../base/span.ts';
import type { Finding, Place } from '../findings/finding.ts';
import { finding } from '../findings/register.ts';
import { nearestWords } from '../base/nearest.ts';
import { readChart } from './charts/read.ts';
import {
  type MissingNumber,
  numbersForRows,
  type NumbersForRows,
  writeNumbers,
} from './grading/rules/in-rows.ts';
import { placeSay } from './needle/say.ts';
import { type NotationProblem, readLine, type ReadingOptions } from './notation/index.ts';
import type {
  Bundle,
  Chart,
  Pattern,
  Piece,
  Section,
  StitchPattern,
  WrittenLine,
} from './pattern.ts';
import { catalogueFor } from './stitches/index.ts';

export interface ReadPattern {
  readonly pattern: Pattern;
  readonly findings: readonly Finding[];
}

interface Problems {
  readonly written: WrittenLine;
  readonly problems: readonly NotationProblem[];
  readonly missing: readonly MissingNumber[];
}

type Options = ReadingOptions & { readonly numbers: NumbersForRows };

export function readPattern(bundle: Bundle): ReadPattern {
  const { data } = bundle;
  const catalogue = catalogueFor(data.stitches);
  const numbers = numbersForRows(data);
  const options: Options = { sizes: data.sizes, catalogue, names: namesOf(bundle), numbers };
  const problems: Problems[] = [];
  const findings: Finding[] = [];
  const charts = new Map<string, Chart>();
  data.charts.forEach((chart, at) => {
    const read = readChart(chart, pointerTo('', 'charts', at), catalogue);
    charts.set(chart.id, read.chart);
    findings.push(...read.findings);
  });
  const stitchPatterns = data.stitchPatterns.map((each, at): StitchPattern => {
    const pointer = pointerTo('', 'stitchPatterns', at);
    const lines = each.lines.map((line, index) =>
      readWritten(line, pointerTo(pointer, 'lines', index), options, problems),
    );
    return { data: each, pointer, lines };
  });
  const pieces = data.pieces.map((piece, at) =>
    readPiece(piece, pointerTo('', 'pieces', at), options, problems),
  );
  const pattern: Pattern = { bundle, sizes: data.sizes, pieces, charts, stitchPatterns };
  findings.push(
    ...problems.flatMap((each) => [
      ...numberFindings(pattern, each, numbers),
      ...notationFindings(pattern, each),
    ]),
  );
  return { pattern, findings };
}

/** Charts and stitch patterns by every name a row may call them. */
function namesOf({ data, prose }: Bundle): NonNullable<ReadingOptions['names']> {
  const words = prose.get(data.language) ?? {};
  const charts = new Map<string, string>();
  const fabrics = new Map<string, string>();
  const put = (table: Map<string, string>, name: unknown, id: string) => {
    if (typeof name === 'string' && name !== '') table.set(name.toLowerCase(), id);
  };
  for (const { id, name } of data.charts) {
    for (const each of [id, name, name.replace(/^chart\s+/i, ''), words[name]])
      put(charts, each, id);
  }
  for (const { id, name } of data.stitchPatterns) {
    for (const each of [id, id.replaceAll('-', ' '), name, words[name]]) put(fabrics, each, id);
  }
  return { charts, fabrics };
}

type PieceData = Bundle['data']['pieces'][number];

function readPiece(
  data: PieceData,
  pointer: string,
  options: Options,
  problems: Problems[],
): Piece {
  const sections = data.sections.map((section, at): Section => {
    const here = pointerTo(pointer, 'sections', at);
    const lines = section.lines.map((line, index) =>
      readWritten(line, pointerTo(here, 'lines', index), options, problems),
    );
    const { id, title, intro } = section;
    return {
      id,
      pointer: here,
      lines,
      ...(title !== undefined && { title }),
      ...(intro !== undefined && { intro }),
    };
  });
  return { data, pointer, sections };
}

function readWritten(
  line: PieceData['sections'][number]['lines'][number],
  pointer: string,
  options: Options,
  problems: Problems[],
): WrittenLine {
  const { text: source, id, note } = typeof line === 'string' ? { text: line } : line;
  const { text, missing } = writeNumbers(source, options.numbers);
  const read = readLine(text, options);
  const written: WrittenLine = {
    text,
    pointer: typeof line === 'string' ? pointer : pointerTo(pointer, 'text'),
    ...(id !== undefined && { id }),
    ...(note !== undefined && { note }),
    ...(read.line && { line: read.line }),
  };
  if (missing.length > 0)
    problems.push({ written: { ...written, text: source }, problems: [], missing });
  else if (read.problems.length > 0) problems.push({ written, problems: read.problems, missing });
  return written;
}

/** A row that names a number that is not there is told so, and not what the notation makes of it. */
function numberFindings(
  pattern: Pattern,
  { written, missing }: Problems,
  { names }: NumbersForRows,
): readonly Finding[] {
  const label = labelOf(pattern, written);
  return missing.map(({ name, span }) => {
    const { pointer, text } = written;
    const where = {
      file: 'pattern.json',
      pointer,
      text,
      span,
      ...(label !== undefined && { label }),
    };
    return finding('grade/no-number', where, { name, nearest: nearestWords(name, names) });
  });
}

function notationFindings(pattern: Pattern, { written, problems }: Problems): readonly Finding[] {
  const label = labelOf(pattern, written);
  return problems.map(({ code, span, facts }) => {
    const where: Place = {
      file: 'pattern.json',
      pointer: written.pointer,
      text: written.text,
      span,
      ...(label !== undefined && { label }),
    };
    return finding(code, where, facts as never);
  });
}

function labelOf(pattern: Pattern, written: WrittenLine): string | undefined {
  for (const piece of pattern.pieces) {
    const section = piece.sections.findIndex(({ lines }) =>
      lines.some(({ pointer }) => pointer === written.pointer),
    );
    if (section >= 0) return placeSay(pattern, piece, section, written.line);
  }
  const own = pattern.stitchPatterns?.find(({ lines }) =>
    lines.some(({ pointer }) => pointer === written.pointer),
  );
  return own && `stitch pattern ${own.data.id}`;
}
