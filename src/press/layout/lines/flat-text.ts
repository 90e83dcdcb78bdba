/**
 * Inline content made flat: one string, and stretches of it that share a look, a tag and a link. Takes
 * the inlines of a paragraph and makes their tags; gives what direction, breaking and shaping work on.
 * White space is one space between words and none at the ends; a drawing in the line is one U+FFFC.
 */
import { assertNever } from '../../../base/assert.ts';
import type { Inline } from '../../document.ts';
import type { Drawing } from '../../drawing/drawing.ts';
import type { TextStyle } from '../../fonts/face.ts';
import type { TagRef } from '../frames.ts';
import type { Setting } from '../setting.ts';
import type { TypeStyle } from '../style.ts';
import { directionOf } from './direction.ts';

export interface Range {
  readonly start: number;
  readonly end: number;
}

/** Part of the text with one look. */
export interface Stretch extends Range {
  readonly style: TextStyle;
  readonly size: number;
  readonly colour: string;
  readonly tag: TagRef;
  readonly hyphenates: boolean;
  readonly target: string | undefined;
  readonly drawing: Drawing | undefined;
}

export interface Isolate extends Range {
  readonly direction: 'ltr' | 'rtl';
}

export interface FlatText {
  readonly text: string;
  readonly stretches: readonly Stretch[];
  readonly unbroken: readonly Range[];
  /** Parts that keep their own direction inside the paragraph (UAX #9, isolates). */
  readonly isolates: readonly Isolate[];
  readonly direction: 'ltr' | 'rtl';
  readonly language: string;
}

/** Line separator: ends a line without ending the paragraph. */
export const FORCED_BREAK = '\u2028';
export const DRAWING_PLACE = '\uFFFC';

const LEFT_TO_RIGHT_LETTER = /\p{Script=Latin}|\p{Script=Greek}|\p{Script=Cyrillic}/u;
/** A number and the Latin letters that follow it: both are read from left to right, as one. */
const MEASURE =
  /\p{Nd}[\p{Nd}.,/×]*[ \u00a0\u202f\u2009]?\p{Script=Latin}[\p{Script=Latin}\p{Nd}]*/gu;
/** A whole number and its fraction: the sign of a fraction has no direction of its own. */
const MIXED_NUMBER = /\p{Nd}+[¼½¾⅐-⅞]/gu;
const RIGHT_TO_LEFT_LETTER = /\p{Script=Hebrew}|\p{Script=Arabic}/u;

interface Carried {
  readonly target: string | undefined;
  /** Tag that a link gave, taken by all inside it. */
  readonly linkTag: number | undefined;
}

class Flattener {
  text = '';
  readonly stretches: Stretch[] = [];
  readonly unbroken: Range[] = [];
  readonly isolates: Isolate[] = [];
  readonly #setting: Setting;
  readonly #look: TypeStyle;
  readonly #parent: TagRef;
  readonly #tagged: boolean;
  #span: { tag: number; language: string } | undefined;

  constructor(setting: Setting, look: TypeStyle, parent: TagRef, tagged: boolean) {
    this.#setting = setting;
    this.#look = look;
    this.#parent = parent;
    this.#tagged = tagged;
  }

  add(inlines: readonly Inline[], carried: Carried): void {
    for (const inline of inlines) this.#addOne(inline, carried);
  }

  #addOne(inline: Inline, carried: Carried): void {
    const start = this.text.length;
    switch (inline.kind) {
      case 'text':
        return this.#addText(inline, carried);
      case 'unbroken':
        this.add(inline.children, carried);
        this.unbroken.push({ start, end: this.text.length });
        return this.#isolateForeign(start);
      case 'link': {
        const linkTag = this.#child('Link', { alternative: plainText(inline.children) });
        this.#span = undefined;
        this.add(inline.children, { target: inline.target, linkTag });
        this.#span = undefined;
        return;
      }
      case 'drawing': {
        const tag = this.#child('Figure', { alternative: inline.alternative });
        this.#span = undefined;
        this.text += DRAWING_PLACE;
        const look = { ...this.#lookOf(undefined, 'plain'), hyphenates: false };
        return this.#push(start, look, tag ?? this.#parent, carried, inline.drawing);
      }
      case 'lineBreak':
        this.text = this.text.replace(/ $/, '') + FORCED_BREAK;
        return;
      default:
        return assertNever(inline);
    }
  }

  #addText(inline: Extract<Inline, { kind: 'text' }>, carried: Carried): void {
    const start = this.text.length;
    const atStart = this.text === '' || this.text.endsWith(' ') || this.text.endsWith(FORCED_BREAK);
    const clean = inline.text.normalize('NFC').replace(/[\s\p{Cc}]+/gu, collapse);
    this.text += atStart ? clean.replace(/^ /, '') : clean;
    if (this.text.length === start) return;
    const own = this.#lookOf(inline.language, inline.role);
    const { accent } = this.#setting.style.colours;
    const look = carried.target === undefined ? own : { ...own, colour: accent };
    const tag = carried.linkTag ?? this.#spanFor(look.style.language) ?? this.#parent;
    this.#push(start, look, tag, carried);
    if (this.#setting.direction === 'rtl') this.#isolateMeasures(start);
    if (inline.language !== undefined) {
      const direction = directionOf(inline.language);
      if (direction !== this.#setting.direction) {
        this.isolates.push({ start, end: this.text.length, direction });
      }
    }
  }

  #push(
    start: number,
    look: Pick<Stretch, 'style' | 'size' | 'colour' | 'hyphenates'>,
    tag: TagRef,
    carried: Carried,
    drawing?: Drawing,
  ): void {
    const end = this.text.length;
    this.stretches.push({ start, end, ...look, tag, target: carried.target, drawing });
  }

  /** `20 cm`, `2/2 RC` and `14½` inside a sentence that runs from right to left. */
  #isolateMeasures(start: number): void {
    const added = this.text.slice(start);
    for (const match of [...added.matchAll(MEASURE), ...added.matchAll(MIXED_NUMBER)]) {
      const from = start + match.index;
      this.isolates.push({ start: from, end: from + match[0].length, direction: 'ltr' });
    }
  }

  /** A measure such as `20 cm` keeps its order inside a line that runs from right to left. */
  #isolateForeign(start: number): void {
    if (this.#setting.direction === 'ltr') return;
    const inside = this.text.slice(start);
    if (!LEFT_TO_RIGHT_LETTER.test(inside) || RIGHT_TO_LEFT_LETTER.test(inside)) return;
    this.isolates.push({ start, end: this.text.length, direction: 'ltr' });
  }

  #child(role: 'Link' | 'Figure', details: { alternative?: string }): number | undefined {
    if (this.#parent === 'artifact') return undefined;
    return this.#setting.tags.add(role, this.#parent, details);
  }

  /** Text beside tagged children needs a tag of its own, or their order would be lost. */
  #spanFor(language: string): number | undefined {
    if (!this.#tagged || this.#parent === 'artifact') return undefined;
    if (this.#span?.language === language) return this.#span.tag;
    const details = language === this.#setting.language ? {} : { language };
    const tag = this.#setting.tags.add('Span', this.#parent, details);
    this.#span = { tag, language };
    return tag;
  }

  #lookOf(
    language: string | undefined,
    role: Extract<Inline, { kind: 'text' }>['role'],
  ): Pick<Stretch, 'style' | 'size' | 'colour' | 'hyphenates'> {
    const { family, weight, italic, size, colour } = this.#look;
    const { colours, smallScale } = this.#setting.style;
    return {
      style: this.#setting.measuring.style({
        family,
        weight: role === 'strong' ? 'bold' : weight,
        italic: role === 'emphasis' ? !italic : italic,
        language: language ?? this.#setting.language,
      }),
      size: role === 'small' ? size * smallScale : size,
      colour: colours[colour],
      hyphenates: role !== 'abbreviation' && role !== 'count',
    };
  }
}

/** Spaces that carry a meaning stay; the rest of a stretch of white space is one space. */
function collapse(space: string): string {
  const kept = space.replace(/[^\u00a0\u2000-\u200b\u202f\u205f\u3000]/gu, '');
  return kept === '' ? ' ' : kept;
}

function needsTags(inlines: readonly Inline[], language: string): boolean {
  return inlines.some((inline) => {
    switch (inline.kind) {
      case 'text':
        return inline.language !== undefined && inline.language !== language;
      case 'unbroken':
        return needsTags(inline.children, language);
      case 'link':
      case 'drawing':
        return true;
      case 'lineBreak':
        return false;
      default:
        return assertNever(inline);
    }
  });
}

/** Flattens the content of one paragraph in a type style; its marks belong to `parent` or below it. */
export function flatten(
  inlines: readonly Inline[],
  look: TypeStyle,
  parent: TagRef,
  setting: Setting,
): FlatText {
  const tagged = needsTags(inlines, setting.language);
  const flattener = new Flattener(setting, look, parent, tagged);
  flattener.add(inlines, { target: undefined, linkTag: undefined });
  const text = flattener.text.replace(/[ \u2028]+$/u, '');
  const inside = <Kind extends Range>(ranges: readonly Kind[]): Kind[] =>
    ranges
      .map((range) => ({ ...range, end: Math.min(range.end, text.length) }))
      .filter((range) => range.start < range.end);
  return {
    text,
    stretches: inside(flattener.stretches),
    unbroken: inside(flattener.unbroken),
    isolates: inside(flattener.isolates),
    direction: setting.direction,
    language: setting.language,
  };
}

/** The text of inline content, for outlines and messages. */
export function plainText(inlines: readonly Inline[]): string {
  const parts = inlines.map((inline) => {
    switch (inline.kind) {
      case 'text':
        return inline.text;
      case 'unbroken':
      case 'link':
        return plainText(inline.children);
      case 'drawing':
        return inline.alternative;
      case 'lineBreak':
        return ' ';
      default:
        return assertNever(inline);
    }
  });
  return parts.join('').replace(/\s+/gu, ' ').trim();
}
