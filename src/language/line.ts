/**
 * One written line in words: label, what to do, and the stitches after it. Takes the line's tree and a
 * context, gives the three parts that the edition sets. Capitals and full stops are put here, because
 * they belong to the line and not to a message.
 */
import { assertNever } from '../base/assert.ts';
import type { Sized } from '../pattern/bundle/size-list.ts';
import type { Line, RowLabel, Sentence, Stated } from '../pattern/notation/ast.ts';
import { type SayContext, agree, listWithAnd, number, unitOf } from './context.ts';
import { sayForm, type Language, type Spoken } from './language.ts';
import { joinParts, spoken } from './message.ts';
import { agreement, choose, exactly, sayNumber } from './numbers.ts';
import { rowCount, sayRanges } from './rows.ts';
import { saySentence } from './sentences.ts';
import { listedSizeName } from './sizes.ts';
import { plainText, type SpokenLine } from './spoken.ts';
import { capitalised, sayName } from './words.ts';

/** `80 (88, 96) sts`. */
export function sayStitches(language: Language, count: Sized, size?: number): Spoken {
  const chosen = choose(count, size);
  const n = sayNumber(language, chosen);
  return sayForm(language, 'stitches', { n }, { count: agreement(language, chosen) });
}

/**
 * Says a line. `after`, where given, are the stitches after it in every size; without it the count that
 * the line itself states is said.
 */
export function sayLine(line: Line, context: SayContext, after?: Sized): SpokenLine {
  const here = withUnit(line, context);
  const only = line.onlySizes
    ? sayForm(
        context.language,
        'onlySizes',
        {
          sizes: listWithAnd(
            line.onlySizes.sizes.map((size) =>
              spoken(listedSizeName(context.language, size), 'strong'),
            ),
            context.language,
            'range.and',
          ),
        },
        { count: line.onlySizes.sizes.length },
      )
    : [];
  const label = line.label ? sayLabel(line.label, here) : [];
  return {
    label: joinParts([only, label], context.language.settings.separators.sentences),
    body: sayBody(line.sentences, here, label.length > 0),
    count: sayCount(line.stated, here, after),
  };
}

/** A label in rounds makes the whole line speak of rounds. */
function withUnit(line: Line, context: SayContext): SayContext {
  const { label } = line;
  if (!label || label.kind === 'named') return context;
  return { ...context, form: label.unit === 'round' ? 'round' : 'flat' };
}

function sayCount(stated: Stated | undefined, context: SayContext, after?: Sized): Spoken {
  const { language } = context;
  if (after) return sayStitches(language, after, context.size);
  if (!stated) return [];
  const n = number(context, stated.count);
  const key = stated.change ? (`stitches.${stated.change}` as const) : 'stitches';
  const said = sayForm(language, key, { n }, agree(context, stated.count));
  const all = stated.total
    ? sayForm(language, 'stitches.changeAndTotal', {
        change: said,
        total: sayStitches(language, stated.total, context.size),
      })
    : said;
  if (stated.part === undefined) return all;
  const part = spoken(sayName(language, context.names, 'word', stated.part));
  return sayForm(language, 'stitches.part', { count: all, part });
}

// ---------------------------------------------------------------- label

export function sayLabel(label: RowLabel, context: SayContext): Spoken {
  const { language } = context;
  const open = sayOpenLabel(label, context);
  const raised = language.settings.capitals ? raise(open, 'label', context) : open;
  return sayForm(language, 'label.close', { label: raised });
}

function sayOpenLabel(label: RowLabel, context: SayContext): Spoken {
  const { language } = context;
  switch (label.kind) {
    case 'named':
      return spoken(
        capitalised(language, sayName(language, context.names, 'word', label.name)),
        'strong',
      );
    case 'numbered': {
      const rows = sayForm(
        language,
        'label.numbered',
        { rows: sayRanges(label.ranges, context) },
        { context: label.unit, count: rowCount(label.ranges) },
      );
      const role =
        label.role && sayForm(language, `role.${label.role}`, {}, { context: label.unit });
      const named = role ? sayForm(language, 'label.withRole', { label: rows, role }) : rows;
      const sided = withSide(named, label.side, context);
      if (!label.andAll) return sided;
      const all = label.andAll;
      const which = label.unit + (all === 'WS' || all === 'RS' ? all : capital(all));
      return sayForm(language, 'label.andAll', { label: sided }, { context: which });
    }
    case 'next':
      return withSide(sayNext(label, context), label.side, context);
    default:
      return assertNever(label);
  }
}

const capital = (word: string): string => word.slice(0, 1).toUpperCase() + word.slice(1);

function sayNext(label: Extract<RowLabel, { kind: 'next' }>, context: SayContext): Spoken {
  const { language } = context;
  const unit = unitOf(context);
  if (!label.role) {
    const exact = exactly(choose(label.count, context.size));
    return sayForm(
      language,
      'label.next',
      { n: number(context, label.count) },
      agree(context, label.count, exact === '1' ? `${unit}1` : unit),
    );
  }
  const role = sayForm(language, `role.${label.role}`, {}, { context: unit });
  if (!label.number) return role;
  return sayForm(language, 'label.numberedRole', { role, n: number(context, label.number) });
}

const withSide = (
  label: Spoken,
  side: 'RS' | 'WS' | undefined,
  { language }: SayContext,
): Spoken =>
  side === undefined ? label : sayForm(language, 'label.side', { label }, { context: side });

// ---------------------------------------------------------------- body

function sayBody(sentences: readonly Sentence[], context: SayContext, labelled: boolean): Spoken {
  const { capitals, separators } = context.language.settings;
  const said = sentences.map((sentence, index) => {
    const parts = saySentence(sentence, context);
    if (sentence.kind === 'prose') return parts;
    const first = !(labelled && index === 0);
    const raised = capitals && first ? raise(parts, sentence.kind, context) : parts;
    const ends = plainText(raised).endsWith(separators.stop);
    return ends ? raised : [...raised, ...spoken(separators.stop)];
  });
  return joinParts(said, separators.sentences);
}

/**
 * A capital for the first word of a sentence. Numbers stay as they are, and so do abbreviations, except
 * those that read like words ("rep", "dec") and the row or round a label begins with; what a row does
 * begins small, like `ssk`.
 */
function raise(parts: Spoken, kind: Sentence['kind'] | 'label', context: SayContext): Spoken {
  const [first, ...rest] = parts;
  if (!first || first.text === '') return parts;
  const shortest = kind === 'actions' ? 4 : kind === 'label' ? 1 : 2;
  const word = /^\p{L}+\.?$/u.test(first.text.split(' ')[0] ?? '') && first.text.length >= shortest;
  if (first.role !== 'plain' && !(first.role === 'abbreviation' && word)) return parts;
  const letter = first.text.slice(0, 1);
  const text = letter.toLocaleUpperCase(context.language.tag) + first.text.slice(1);
  return [{ ...first, text }, ...rest];
}
