/**
 * What comes back from a translator. Takes a bundle and the bytes of an XLIFF file; gives the prose of
 * that language with its record of sources, or the findings that refuse it: all or nothing. Pure, so
 * that the command line and the desk take the same file alike; writing is for them.
 */
import { BrokenInvariant } from '../base/assert.ts';
import { Fault } from '../base/fault.ts';
import type { Finding, Place } from '../findings/finding.ts';
import { finding } from '../findings/register.ts';
import { blocks } from '../findings/finding.ts';
import type { Language } from '../language/index.ts';
import type { ProseData, SourceRecord } from '../pattern/bundle/schema.ts';
import type { Bundle } from '../pattern/pattern.ts';
import { examineText } from './examine.ts';
import { fillTexts } from './fill-texts.ts';
import { placesOf } from './places.ts';
import { cutSource, isThing, outlineOf } from './protect.ts';
import { isWordList, tidySpace } from './segments.ts';
import { standingOf, type StandingSegment, textsFor } from './standing.ts';
import { type ReadFile, type ReadUnit, readXliff } from './xliff/read.ts';

export interface TakeOrder {
  readonly bundle: Bundle;
  readonly languages: ReadonlyMap<string, Language>;
  readonly bytes: Uint8Array;
  /** Named in findings. */
  readonly file: string;
}

export interface TakenBack {
  readonly language: string;
  readonly findings: readonly Finding[];
  /** Undefined where a finding refuses the file. */
  readonly prose: ProseData | undefined;
  readonly record: SourceRecord | undefined;
  /** Names of the segments whose text is taken, and of those that are still open. */
  readonly taken: readonly string[];
  readonly open: readonly string[];
}

/** Throws a `Fault` where the bytes are no XLIFF, or its target language is none of ours. */
export function takeBack(order: TakeOrder): TakenBack {
  const { bundle, languages, bytes, file } = order;
  const came = readXliff(bytes, file);
  const language = matchTag(came.targetLanguage, [...languages.keys()]);
  const target = language === undefined ? undefined : languages.get(language);
  const source = languages.get(bundle.data.language);
  if (!source) throw new BrokenInvariant('the language of a bundle that was loaded is known');
  if (!target || target === source)
    throw new Fault('input', `the file is translated into ${came.targetLanguage}`, {
      place: file,
      remedy: `a language of castoff other than ${source.tag}: ${[...languages.keys()].join(', ')}`,
    });
  const desk = new Desk(order, source, target);
  desk.look(came);
  return desk.result();
}

/** The language a file is translated into, as we name it; undefined where it is none of ours. */
export const languageOf = (
  bytes: Uint8Array,
  file: string,
  languages: ReadonlyMap<string, Language>,
): string | undefined => matchTag(readXliff(bytes, file).targetLanguage, [...languages.keys()]);

/** The pattern a file was made from; undefined where no tool has left it in. Throws as `takeBack` does. */
export const patternNamedIn = (bytes: Uint8Array, file: string): string | undefined =>
  readXliff(bytes, file).original;

/** A tag in any case, or with a region more or less: `de-DE` is `de` where only `de` is known. */
function matchTag(wanted: string, tags: readonly string[]): string | undefined {
  const [low, head] = [wanted.toLowerCase(), wanted.toLowerCase().split(/[-_]/)[0] ?? ''];
  const same = tags.find((tag) => tag.toLowerCase() === low.replaceAll('_', '-'));
  const alike = tags.filter((tag) => tag.toLowerCase().split('-')[0] === head);
  return same ?? (alike.length === 1 ? alike[0] : undefined);
}

class Desk {
  readonly #order: TakeOrder;
  readonly #source: Language;
  readonly #target: Language;
  readonly #findings: Finding[] = [];
  readonly #segments: ReadonlyMap<string, StandingSegment>;
  readonly #texts = new Map<string, string>();
  readonly #open: string[] = [];

  constructor(order: TakeOrder, source: Language, target: Language) {
    this.#order = order;
    this.#source = source;
    this.#target = target;
    const standing = standingOf(textsFor(order.bundle, target.tag));
    this.#segments = new Map(standing.map((each) => [each.id, each]));
  }

  look(came: ReadFile): void {
    const belongs = this.#belongs(came);
    if (!belongs) return;
    const seen = new Set<string>();
    for (const unit of came.units) {
      const segment = this.#segments.get(unit.id) ?? this.#byPointer(unit.name);
      const where = this.#placeOf(unit);
      if (!segment) this.#note(finding('translation/unknown-segment', where, { segment: unit.id }));
      else if (seen.has(segment.id))
        this.#note(finding('translation/twice', where, { segment: segment.id }));
      else this.#lookAt(unit, segment, where);
      if (segment) seen.add(segment.id);
    }
  }

  /** A file of another pattern would fit nowhere; one finding says so instead of a hundred. */
  #belongs({ sourceLanguage, original }: ReadFile): boolean {
    const { data } = this.#order.bundle;
    const wrong = (problem: string, remedy: string) => {
      const where = { file: this.#order.file, pointer: '' };
      this.#note(finding('translation/other-pattern', where, { problem, remedy }));
      return false;
    };
    if (original !== undefined && original !== data.id)
      return wrong(`the file is of ${original}, not of ${data.id}`, 'name the bundle it was made from'); // prettier-ignore
    if (matchTag(sourceLanguage, [data.language]) === undefined)
      return wrong(`the file is translated from ${sourceLanguage}; the pattern is written in ${data.language}`, 'translate the file that castoff translate writes'); // prettier-ignore
    return true;
  }

  #byPointer(pointer: string | undefined): StandingSegment | undefined {
    return [...this.#segments.values()].find((each) => each.pointer === pointer);
  }

  #placeOf({ id, name, line }: ReadUnit): Place {
    const label = `${id}, line ${line}`;
    return { file: this.#order.file, pointer: name ?? '', label };
  }

  #note(found: Finding): void {
    this.#findings.push(found);
  }

  #lookAt(unit: ReadUnit, segment: StandingSegment, where: Place): void {
    if (!unit.target) {
      if (segment.standing !== 'holds') this.#open.push(segment.id);
      return;
    }
    const template = cutSource(this.#source, segment.text);
    if (tidySpace(outlineOf(unit.source)) !== tidySpace(outlineOf(template))) {
      const sent = unit.source.map((part) => (typeof part === 'string' ? part : `[${part.shown}]`)).join(''); // prettier-ignore
      const now = template.map((part) => (isThing(part) ? `[${part.text}]` : part)).join('');
      this.#note(finding('translation/source-changed', where, { segment: segment.id, sent, now }));
      return;
    }
    const { text, findings } = examineText(
      {
        segment: segment.id,
        where,
        sourceText: segment.text,
        template,
        source: this.#source,
        target: this.#target,
        wordList: isWordList(segment.key),
        mostCharacters: placesOf(this.#order.bundle.data)(segment.key).mostCharacters,
      },
      unit.target,
    );
    const { standing, translation } = segment;
    const stands = standing === 'holds' || standing === 'moved' || standing === 'untied';
    // A text that stands in the bundle already was let in before, and stays as it is written there.
    if (stands && translation !== undefined && tidySpace(text) === tidySpace(translation)) {
      this.#texts.set(segment.id, translation);
      return;
    }
    this.#findings.push(...findings);
    this.#texts.set(segment.id, text);
  }

  result(): TakenBack {
    const { tag: language } = this.#target;
    const where = { file: this.#order.file, pointer: '' };
    const taken = [...this.#texts.keys()];
    const refused = this.#findings.some(blocks);
    if (!refused && taken.length === 0)
      this.#note(finding('translation/nothing', where, { language }));
    if (this.#open.length > 0)
      this.#note(finding('translation/open', where, { language, segments: this.#open }));
    const findings = this.#findings;
    const filled = findings.some(blocks)
      ? { prose: undefined, record: undefined }
      : fillTexts(textsFor(this.#order.bundle, language), this.#texts);
    return { language, findings, taken, open: this.#open, ...filled };
  }
}
