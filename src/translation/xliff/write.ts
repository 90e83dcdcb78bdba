/**
 * Writes XLIFF 2.1 (OASIS, with the Size and Length Restriction module): one unit for each segment, so
 * that a tool may cut it into sentences as it likes. Takes units that are ready to be written and gives
 * text; same units, same text. Knows no glossary and no bundle.
 */
import { escapeMarkup } from '../../base/escape.ts';
import type { ThingKind } from '../protect.ts';

/** A protected thing in a unit. */
export interface UnitThing {
  readonly id: string;
  readonly kind: ThingKind;
  /** As the source writes it. */
  readonly text: string;
  /** What the target will say in its place. */
  readonly said: string;
  /** May be left out by a translator: a word or another unit can stand for it. */
  readonly mayBeDropped: boolean;
}

export type UnitText = readonly (string | { readonly id: string })[];

export interface Unit {
  readonly id: string;
  /** JSON pointer into the prose file. */
  readonly name: string;
  readonly notes: readonly { readonly category: string; readonly text: string }[];
  readonly things: readonly UnitThing[];
  readonly source: UnitText;
  /** Undefined where a translator has the work before her. */
  readonly target?: UnitText;
  /** Of the target: `final` where it is known to hold. */
  readonly state: 'initial' | 'translated' | 'final';
  readonly mostCharacters?: number;
}

export interface XliffFile {
  readonly sourceLanguage: string;
  readonly targetLanguage: string;
  readonly sourceDirection: 'ltr' | 'rtl';
  readonly targetDirection: 'ltr' | 'rtl';
  /** Names the pattern: `breakwater-hat`. */
  readonly pattern: string;
  readonly notes: readonly string[];
  readonly units: readonly Unit[];
}

export const XLIFF = 'urn:oasis:names:tc:xliff:document:2.0';
const SIZES = 'urn:oasis:names:tc:xliff:sizerestriction:2.0';

/** Text of the file, with LF line ends. There must be at least one unit. */
export function writeXliff(file: XliffFile): string {
  const { sourceLanguage, targetLanguage, sourceDirection, targetDirection } = file;
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    `<xliff xmlns="${XLIFF}" xmlns:slr="${SIZES}" version="2.1" srcLang="${sourceLanguage}" trgLang="${targetLanguage}">`,
    `  <file id="prose" original="${escapeMarkup(file.pattern)}" srcDir="${sourceDirection}" trgDir="${targetDirection}" xml:space="preserve">`,
    '    <slr:profiles generalProfile="xliff:codepoints">',
    '      <slr:normalization general="nfc"/>',
    '    </slr:profiles>',
    ...notesOf(file.notes.map((text) => ({ category: 'work', text })), '    '),
    ...file.units.flatMap(unitOf),
    '  </file>',
    '</xliff>',
    '',
  ].join('\n'); // prettier-ignore
}

function notesOf(notes: Unit['notes'], indent: string): readonly string[] {
  if (notes.length === 0) return [];
  const lines = notes.map(
    ({ category, text }, at) =>
      `${indent}  <note id="note${at + 1}" category="${category}">${escapeText(text)}</note>`,
  );
  return [`${indent}<notes>`, ...lines, `${indent}</notes>`];
}

function unitOf(unit: Unit): readonly string[] {
  const { id, name, mostCharacters, target, state } = unit;
  const room = mostCharacters === undefined ? '' : ` slr:sizeRestriction="${mostCharacters}"`;
  const data = unit.things.map(
    (thing) => `        <data id="d-${thing.id}">${escapeText(thing.text)}</data>`,
  );
  return [
    `    <unit id="${id}" name="${escapeMarkup(name)}"${room}>`,
    ...notesOf(unit.notes, '      '),
    ...(data.length > 0 ? ['      <originalData>', ...data, '      </originalData>'] : []),
    `      <segment id="${id}-s" state="${state}">`,
    `        <source>${textOf(unit, unit.source)}</source>`,
    ...(target === undefined ? [] : [`        <target>${textOf(unit, target)}</target>`]),
    '      </segment>',
    '    </unit>',
  ];
}

const textOf = ({ things }: Unit, text: UnitText): string =>
  text
    .map((part) => {
      if (typeof part === 'string') return escapeText(part);
      const thing = things.find(({ id }) => id === part.id);
      return thing ? placeholderOf(thing) : '';
    })
    .join('');

/** `disp` is what editors show; `equiv` what the target will say. */
function placeholderOf({ id, kind, text, said, mayBeDropped }: UnitThing): string {
  const shown = said === text ? text : `${text} → ${said}`;
  const drop = mayBeDropped ? 'yes' : 'no';
  return `<ph id="${id}" dataRef="d-${id}" disp="${escapeMarkup(shown)}" equiv="${escapeMarkup(said)}" subType="castoff:${kind}" type="other" canCopy="no" canDelete="${drop}"/>`;
}

/** A carriage return would be lost by any reader; a tab and a line feed are kept in text. */
const escapeText = (text: string): string => escapeMarkup(text).replaceAll('\r', '&#13;');
