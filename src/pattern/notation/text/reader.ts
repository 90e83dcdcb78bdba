/**
 * A place in the tokens of one line, with the questions a recursive-descent parser asks of it. Holds
 * what a line is read against (sizes, catalogue, names) and collects problems. Reading a construct
 * gives its node, or undefined after a problem has been noted; `attempt` undoes both.
 */
import type { Span } from '../../../base/span.ts';
import type { Catalogue } from '../../stitches/index.ts';
import type { NotationCode, NotationProblem } from '../problem.ts';
import type { FactsOf } from '../../../findings/register.ts';
import { assert } from '../../../base/assert.ts';
import { NOTATION_LIMITS } from '../../../base/limits.ts';
import { tokensOf, type Token } from './token.ts';

/** Written names, in lower case, and the ids they stand for. An id is also a written name. */
export type NameTable = ReadonlyMap<string, string>;

/** Names a bundle gives to things; where a table is absent, any name is taken as written. */
export interface NotationNames {
  readonly charts?: NameTable;
  readonly fabrics?: NameTable;
}

export interface ReadingOptions {
  /** Names of the sizes in order; undefined where they are not known. */
  readonly sizes: readonly string[] | undefined;
  readonly catalogue: Catalogue;
  readonly names?: NotationNames | undefined;
}

const NOTHING: Token = { kind: 'mark', text: '', term: '', span: { start: 0, end: 0 } };

/** Phrases of the grammar by their terms, split once. */
const PHRASES = new Map<string, readonly string[]>();

function termsOf(phrase: string): readonly string[] {
  const known = PHRASES.get(phrase);
  if (known) return known;
  const terms = phrase.split(' ');
  PHRASES.set(phrase, terms);
  return terms;
}

export class Reader {
  readonly text: string;
  readonly options: ReadingOptions;
  readonly problems: NotationProblem[] = [];
  /** Sizes a line is for, where it names some: lists may then have as many values. */
  onlySizes: readonly string[] | undefined;
  private readonly tokens: readonly Token[];
  private readonly closing: Token;
  private at = 0;
  private depth = 0;
  private furthest: NotationProblem | undefined;

  constructor(text: string, options: ReadingOptions) {
    this.text = text;
    this.options = options;
    this.tokens = tokensOf(text);
    this.closing = { ...NOTHING, span: { start: text.length, end: text.length } };
  }

  get done(): boolean {
    return this.at >= this.tokens.length;
  }

  get position(): number {
    return this.at;
  }

  peek(ahead = 0): Token {
    return this.tokens[this.at + ahead] ?? this.closing;
  }

  /** The token before this place. */
  get last(): Token {
    return this.tokens[this.at - 1] ?? NOTHING;
  }

  next(): Token {
    const token = this.peek();
    this.at += 1;
    return token;
  }

  back(position: number): void {
    assert(position <= this.at, 'a reader only goes back to where it was');
    this.at = position;
  }

  /** How many tokens a phrase of terms takes here, or 0 where it does not stand here. */
  private width(phrase: string): number {
    const terms = termsOf(phrase);
    for (let ahead = 0; ahead < terms.length; ahead += 1) {
      if (this.peek(ahead).term !== terms[ahead]) return 0;
    }
    return terms.length;
  }

  /** Whether one of the phrases stands here. */
  is(...phrases: readonly string[]): boolean {
    return phrases.some((phrase) => this.width(phrase) > 0);
  }

  /** Steps over the first phrase that stands here. */
  take(...phrases: readonly string[]): boolean {
    for (const phrase of phrases) {
      const width = this.width(phrase);
      if (width === 0) continue;
      this.at += width;
      return true;
    }
    return false;
  }

  /** Steps over any of these terms, however many. */
  skip(...terms: readonly string[]): void {
    while (!this.done && terms.includes(this.peek().term)) this.at += 1;
  }

  /** Text from a position to the end of the last token read. */
  textFrom(position: number): string {
    const { start, end } = this.spanFrom(position);
    return this.text.slice(start, end);
  }

  spanFrom(position: number): Span {
    const first = this.tokens[position] ?? this.closing;
    const last = this.at > position ? (this.tokens[this.at - 1] ?? first) : first;
    return { start: first.span.start, end: Math.max(first.span.end, last.span.end) };
  }

  /** Notes a problem; the construct being read is given up. */
  problem<Code extends NotationCode>(code: Code, span: Span, facts: FactsOf<Code>): undefined {
    const told = this.problems.some((each) => each.code === code && each.span.start === span.start);
    if (!told && this.problems.length < NOTATION_LIMITS.problems) {
      this.problems.push({ code, span, facts } as unknown as NotationProblem);
    }
    return undefined;
  }

  /** `what` is missing here. */
  missing(what: string): undefined {
    const found = this.peek();
    return this.problem('notation/expected', found.span, { what, found: found.text });
  }

  /**
   * Reads one way; where that gives nothing, everything is as before. A construct that was understood
   * but has a fault inside (a list one number short) still gives its node, and the fault stays noted.
   */
  attempt<T>(read: () => T | undefined): T | undefined {
    const position = this.at;
    const noted = this.problems.length;
    const result = read();
    if (result !== undefined) return result;
    this.at = position;
    if (this.problems.length > noted) this.remember(this.problems.splice(noted));
    return undefined;
  }

  /** What a way that failed said is wrong, if it came further than the others did. */
  private remember(problems: readonly NotationProblem[]): void {
    for (const problem of problems) {
      if (!this.furthest || problem.span.start > this.furthest.span.start) this.furthest = problem;
    }
  }

  /** From here on only what is read next counts as the furthest. */
  forget(): void {
    this.furthest = undefined;
  }

  /** Notes what the way that came furthest said, if it came further than `start`. */
  complainFurthest(start: number): boolean {
    const problem = this.furthest;
    if (!problem || problem.span.start <= start) return false;
    this.problems.push(problem);
    return true;
  }

  /** Whether what is read stands inside a group or a repeat. */
  get isNested(): boolean {
    return this.depth > 0;
  }

  /** Reads something that may contain itself, no deeper than the limit. */
  nested<T>(read: () => T | undefined): T | undefined {
    if (this.depth >= NOTATION_LIMITS.depth) {
      return this.problem('notation/too-deep', this.peek().span, { most: NOTATION_LIMITS.depth });
    }
    this.depth += 1;
    const result = read();
    this.depth -= 1;
    return result;
  }
}
