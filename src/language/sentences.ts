/**
 * Sentences of the instructions in words: cast-ons, repeats of rows, shaping over rows, holders, joins.
 * Exhaustive over the union of sentences. A sentence is one message of the language; its slots hold
 * numbers, names and whole phrases. Capitals and full stops are put by `line.ts`.
 */
import { assertNever } from '../base/assert.ts';
import type { Sentence } from '../pattern/notation/ast.ts';
import { sayActions } from './actions.ts';
import { saySchedule } from './changes.ts';
import { agree, listWithAnd, number, type SayContext, unitOf } from './context.ts';
import { sayWorkEven } from './even.ts';
import { sayExtent, sayStart } from './extents.ts';
import { sayForm, type Spoken, hasText, sayText } from './language.ts';
import { spoken } from './message.ts';
import { howOf, MANNERS, sayBindOffHow, sayCastOn, sayHold, sayResume } from './needlework.ts';
import { sayRepeatRows } from './rows.ts';
import { proseLine, sayName, sayYarn, slugOf } from './words.ts';

type Of<Kind extends Sentence['kind']> = Extract<Sentence, { kind: Kind }>;

export function saySentence(sentence: Sentence, context: SayContext): Spoken {
  const { language, names } = context;
  const word = (name: string) => spoken(sayName(language, names, 'word', name));
  switch (sentence.kind) {
    case 'actions':
      return sayFacing(sentence.facing, sayActions(sentence.actions, context), context);
    case 'castOn':
      return sayCastOn(sentence.count, howOf(sentence, context), context);
    case 'join':
      if (sentence.form === 'flat') return sayForm(language, 'join.flat', {});
      return sayForm(language, sentence.placeMarker ? 'join.roundMarker' : 'join.round', {});
    case 'repeatRows':
      return sayRepeatRows(sentence, { ...context, form: formOf(sentence.unit) });
    case 'workEven':
      return sayWorkEven(sentence, { ...context, form: formOf(sentence.unit) });
    case 'shape':
      return saySchedule(sentence.schedule, context);
    case 'atTheSameTime':
      return sayTogether(sentence, context);
    case 'steps':
      return sayForm(language, 'steps', {
        sentences: saySequence(sentence.sentences, context),
        extent: sayExtent(sentence.extent, context),
      });
    case 'edgeRows':
      return sayEdgeRows(sentence, context);
    case 'hold':
      return sayHold(sentence, context);
    case 'resume':
      return sayResume(sentence.holders, sentence.count, context);
    case 'needle':
      return sayNeedleChange(sentence.needle, context);
    case 'yarn':
      return sayFacing(sentence.facing, sayYarnSentence(sentence, context), context);
    case 'drawThrough':
      if (!sentence.count) return sayForm(language, 'drawThrough', {});
      return sayForm(
        language,
        'drawThrough.count',
        { n: number(context, sentence.count) },
        agree(context, sentence.count),
      );
    case 'bindOffAll':
      return sayBindOffHow(
        sayForm(language, 'bindOff.all', {}, { context: MANNERS[sentence.manner] }),
        sentence.method,
        context,
      );
    case 'joinStitches': {
      const parts = listWithAnd(sentence.parts.map(word), language);
      const key = sentence.method === 'graft' ? 'joinStitches.graft' : 'joinStitches.bindOff';
      return sayForm(language, key, { parts });
    }
    case 'mark':
      if (sentence.name !== undefined) {
        return sayForm(language, 'mark.named', { marker: word(sentence.name) });
      }
      return sayForm(language, sentence.what === 'row' ? 'mark.row' : 'mark.here', {});
    case 'prose':
      return spoken(proseLine(names, sentence.key) ?? sentence.key);
    default:
      return assertNever(sentence);
  }
}

/** `With RS facing, …`. */
const sayFacing = (
  side: 'RS' | 'WS' | undefined,
  sentence: Spoken,
  { language }: SayContext,
): Spoken =>
  side === undefined ? sentence : sayForm(language, 'facing', { sentence }, { context: side });

/** One after another: `…, then …`. */
const saySequence = (sentences: readonly Sentence[], context: SayContext): Spoken =>
  sentences
    .map((each) => saySentence(each, context))
    .reduce((first, next) => sayForm(context.language, 'sentence.then', { first, next }));

function sayTogether({ start, sentences }: Of<'atTheSameTime'>, context: SayContext): Spoken {
  const sentence = saySequence(sentences, context);
  if (!start) return sayForm(context.language, 'atTheSameTime', { sentence });
  return sayForm(context.language, 'atTheSameTime.when', {
    start: sayStart(start, context),
    sentence,
  });
}

function sayNeedleChange(needle: string, { language, names }: SayContext): Spoken {
  const known = `toNeedle.${slugOf(needle)}`;
  if (hasText(language, known)) return sayText(language, known);
  return sayForm(language, 'needle.change', {
    needle: spoken(sayName(language, names, 'word', needle)),
  });
}

const formOf = (unit: 'row' | 'round') => (unit === 'round' ? 'round' : 'flat');

function sayEdgeRows(sentence: Of<'edgeRows'>, context: SayContext): Spoken {
  const { language } = context;
  const rows = sayForm(
    language,
    'nextRows',
    { n: number(context, sentence.rows) },
    agree(context, sentence.rows, unitOf(context)),
  );
  return sayForm(
    language,
    `edgeRows.${sentence.act}`,
    { n: number(context, sentence.count), rows },
    agree(context, sentence.count, sentence.at),
  );
}

function sayYarnSentence(sentence: Of<'yarn'>, context: SayContext): Spoken {
  const { language, names } = context;
  const { act } = sentence;
  if (act === 'change') {
    const yarn = sayYarn(language, names, sentence.yarn ?? 'MC');
    return sayForm(language, 'yarn.change', { yarn });
  }
  if (sentence.yarn === undefined) return sayForm(language, `yarn.${act}`, {});
  const yarn = sayYarn(language, names, sentence.yarn);
  return sayForm(language, act === 'join' ? 'yarn.joinNamed' : 'yarn.breakNamed', { yarn });
}
