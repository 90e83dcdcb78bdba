/**
 * A whole checked pattern in one language: every line said once, with the counts the needle found, and
 * the abbreviations they use. Takes what the pattern room gives, hands the edition what it sets; knows
 * no page.
 */
import type { Sized } from '../pattern/bundle/size-list.ts';
import type {
  CheckedPattern,
  LineTrace,
  Piece,
  PieceTrace,
  WrittenLine,
} from '../pattern/pattern.ts';
import type { SayContext } from './context.ts';
import type { Language } from './language.ts';
import { sayLine } from './line.ts';
import { spoken } from './message.ts';
import type { SpokenLine, SpokenPart } from './spoken.ts';
import { usedTerms, type UsedTerm } from './terms.ts';
import { capitalised, sayName, type Names } from './words.ts';

export interface SpokenSection {
  readonly id: string;
  readonly title?: string;
  /** Prose keys of the bundle, resolved by the edition. */
  readonly intro?: string;
  readonly lines: readonly {
    readonly written: WrittenLine;
    readonly said: SpokenLine;
  }[];
}

export interface SpokenPiece {
  readonly id: string;
  readonly title: string;
  readonly make: number;
  readonly sections: readonly SpokenSection[];
}

export interface SpokenPattern {
  readonly pieces: readonly SpokenPiece[];
  readonly terms: readonly UsedTerm[];
}

/** `size` says one size only, for a one-size edition. Lines that do not apply to it are left out. */
export function sayPattern(
  checked: CheckedPattern,
  language: Language,
  size?: number,
): SpokenPattern {
  const names = namesFor(checked, language);
  const pieces = checked.pieces.map((trace) => sayPiece(trace, language, names, size));
  return { pieces, terms: usedTerms(language, names, partsOf(pieces)) };
}

export const namesFor = ({ pattern }: CheckedPattern, language: Language): Names => ({
  data: pattern.bundle.data,
  prose: pattern.bundle.prose.get(language.tag),
});

function sayPiece(
  trace: PieceTrace,
  language: Language,
  names: Names,
  size: number | undefined,
): SpokenPiece {
  const { piece } = trace;
  const traces = new Map(trace.lines.map((each) => [each.line.pointer, each]));
  const context = contextFor(piece, language, names, size);
  const title = (name: string) => capitalised(language, sayName(language, names, 'word', name));
  return {
    id: piece.data.id,
    title: title(piece.data.title),
    make: piece.data.make,
    sections: piece.sections.map((section) => ({
      id: section.id,
      ...(section.title !== undefined && { title: title(section.title) }),
      ...(section.intro !== undefined && { intro: section.intro }),
      lines: section.lines
        .filter((line) => applies(traces.get(line.pointer), size))
        .map((written) => ({
          written,
          said: sayWritten(written, context, traces.get(written.pointer)),
        })),
    })),
  };
}

export const contextFor = (
  piece: Piece,
  language: Language,
  names: Names,
  size?: number,
): SayContext => ({
  language,
  names,
  form: piece.data.form,
  ...(size !== undefined && { size }),
});

const applies = (trace: LineTrace | undefined, size: number | undefined): boolean =>
  size === undefined || trace?.outcomes[size]?.skipped !== true;

function sayWritten(
  written: WrittenLine,
  context: SayContext,
  trace: LineTrace | undefined,
): SpokenLine {
  if (!written.line) return { label: [], body: spoken(written.text), count: [] };
  return sayLine(written.line, context, trace && countAfter(trace, written));
}

/** The stitches after a line, shown where the line changes them or its writer states them. */
function countAfter({ outcomes }: LineTrace, written: WrittenLine): Sized | undefined {
  if (outcomes.length === 0 || outcomes.some((outcome) => outcome.failed)) return undefined;
  const changes = outcomes.some((outcome) => !outcome.skipped && outcome.after !== outcome.before);
  const stated = written.line?.stated;
  if (!changes && !stated) return undefined;
  if (stated?.part !== undefined || saysItself(written, outcomes)) return undefined;
  return {
    values: outcomes.map((outcome) => (outcome.skipped ? null : outcome.after)),
    spans: [],
  };
}

/** A cast-on names its own count, and a line that ends all stitches leaves none to count. */
function saysItself(written: WrittenLine, outcomes: LineTrace['outcomes']): boolean {
  const sentences = written.line?.sentences ?? [];
  return (
    sentences.some(({ kind }) => kind === 'castOn') ||
    outcomes.every((outcome) => outcome.skipped || outcome.after === 0)
  );
}

/** Every part of the said lines, for the list of abbreviations and for number parity. */
export function* partsOf(pieces: readonly SpokenPiece[]): Iterable<SpokenPart> {
  for (const piece of pieces) {
    for (const section of piece.sections) {
      for (const { said } of section.lines) {
        yield* said.label;
        yield* said.body;
        yield* said.count;
      }
    }
  }
}
