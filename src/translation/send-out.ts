/**
 * What goes to a translator: the segments of one language that are new or whose source has changed, as
 * XLIFF. Takes a bundle and two languages, gives bytes and what was counted; pure, so that the command
 * line and the desk send the same file.
 */
import type { BundleData } from '../pattern/bundle/schema.ts';
import type { Bundle } from '../pattern/pattern.ts';
import type { Language } from '../language/index.ts';
import { fitTranslation } from './fit.ts';
import { placesOf, type TextPlace } from './places.ts';
import { cutSource, isThing, sayThing, thingsOf } from './protect.ts';
import { needsWork, standingOf, type StandingSegment, textsFor } from './standing.ts';
import { isWordList } from './segments.ts';
import { wordsIn } from './word-list.ts';
import { type Unit, type UnitText, writeXliff } from './xliff/write.ts';

export interface SendOrder {
  readonly bundle: Bundle;
  /** The language the designer wrote in. */
  readonly source: Language;
  readonly target: Language;
  /** Every segment, with the translations that hold. */
  readonly all?: boolean;
}

export interface SentOut {
  /** Undefined where nothing needs a translator. */
  readonly xliff: string | undefined;
  /** Names of the segments in the file. */
  readonly segments: readonly string[];
  /** Those of them that have a translation which holds. */
  readonly done: number;
}

export function sendOut(order: SendOrder): SentOut {
  const { bundle, source, target } = order;
  const segments = chosen(standingOf(textsFor(bundle, target.tag)), order.all === true);
  if (segments.length === 0) return { xliff: undefined, segments: [], done: 0 };
  const place = placesOf(bundle.data);
  const units = segments.map((segment) => unitFor(order, segment, place(segment.key)));
  const xliff = writeXliff({
    sourceLanguage: source.tag,
    targetLanguage: target.tag,
    sourceDirection: source.settings.direction,
    targetDirection: target.settings.direction,
    pattern: bundle.data.id,
    notes: [workNote(bundle.data, target)],
    units,
  });
  return {
    xliff,
    segments: segments.map(({ id }) => id),
    done: units.filter((unit) => unit.target !== undefined).length,
  };
}

/**
 * New and changed ones. Where a list has only been put in another order its paragraphs go out with
 * their translations, so that they come back in the new one.
 */
function chosen(segments: readonly StandingSegment[], all: boolean): readonly StandingSegment[] {
  if (all) return segments.filter(({ text }) => text !== '');
  const atWork = new Set(segments.filter(needsWork).map(({ key }) => key));
  return segments
    .filter(({ text }) => text !== '')
    .filter((each) => needsWork(each) || (each.standing === 'moved' && !atWork.has(each.key)));
}

const workNote = (data: BundleData, target: Language): string =>
  `Knitting pattern ${data.id} ${data.version}, into ${target.settings.englishName}. Numbers and abbreviations are placeholders: put them where they belong in the sentence; they are written as ${target.settings.englishName} writes them. The terms are in the TBX file beside this one.`;

function unitFor(
  { source, target }: SendOrder,
  segment: StandingSegment,
  { note, mostCharacters }: TextPlace,
): Unit {
  const template = cutSource(source, segment.text);
  const { standing, translation } = segment;
  const keeps = standing === 'holds' || standing === 'moved' || standing === 'untied';
  const fitted =
    keeps && translation !== undefined
      ? fitTranslation(template, translation, source, target)
      : undefined;
  const placed = new Set(fitted?.flatMap((part) => (typeof part === 'string' ? [] : [part.id])));
  return {
    id: segment.id,
    name: segment.pointer,
    notes: notesFor(segment, note, mostCharacters, wordsIn(segment.text, source, target)),
    things: thingsOf(template).map((thing) => ({
      ...thing,
      said: sayThing(thing, source, target),
      mayBeDropped:
        thing.kind === 'small' ||
        thing.kind === 'length' ||
        (fitted !== undefined && !placed.has(thing.id)),
    })),
    source: template.map((part) => (isThing(part) ? { id: part.id } : part)) satisfies UnitText,
    ...(fitted && { target: fitted }),
    state: fitted === undefined ? 'initial' : standing === 'untied' ? 'translated' : 'final',
    ...(mostCharacters !== undefined && !isWordList(segment.key) && { mostCharacters }),
  };
}

function notesFor(
  { key, at, standing, translation }: StandingSegment,
  note: string,
  mostCharacters: number | undefined,
  words: readonly string[],
): Unit['notes'] {
  const where = at === undefined ? key : `${key}, ${at + 1}`;
  const each = isWordList(key) ? ' each' : '';
  const room = mostCharacters === undefined ? '' : ` At most ${mostCharacters} characters${each}.`;
  return [
    { category: 'place', text: `${where}: ${note}${room}` },
    ...(words.length > 0 ? [{ category: 'terms', text: words.join('; ') }] : []),
    ...(standing === 'outdated' && translation !== undefined && translation !== ''
      ? [{ category: 'earlier', text: `Translation of an earlier source: ${translation}` }]
      : []),
  ];
}
