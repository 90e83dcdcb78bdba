/**
 * Reads XLIFF 2.0 to 2.2 as translators' tools write it: other notes and modules are passed over, a unit
 * that was cut into sentences is put together again, annotations are unwrapped. Takes bytes, gives units
 * with their texts, or a `Fault` where the file is no such thing. What a text may say is not known here.
 */
import { Fault } from '../../base/fault.ts';
import { childrenNamed, isElement, readXml, type XmlElement } from '../xml.ts';
import { XLIFF } from './write.ts';

/** A text as it came: plain, or a code by the id it had in the file. */
export type CodedText = readonly (string | { readonly id: string; readonly shown: string })[];

export interface ReadUnit {
  readonly id: string;
  readonly name: string | undefined;
  readonly line: number;
  readonly source: CodedText;
  /** Undefined where a part of it is not translated yet. */
  readonly target: CodedText | undefined;
}

export interface ReadFile {
  readonly sourceLanguage: string;
  readonly targetLanguage: string;
  /** What the file was made from, where it still says so. */
  readonly original: string | undefined;
  readonly units: readonly ReadUnit[];
}

export function readXliff(bytes: Uint8Array, place: string): ReadFile {
  const root = readXml(bytes, place);
  if (root.name !== 'xliff') throw refuse(place, `the file is <${root.name}>, not <xliff>`);
  const version = root.attributes.get('version') ?? '';
  if (root.namespace !== XLIFF || !/^2\.[0-2]$/.test(version))
    throw refuse(place, `the file is XLIFF ${version || 'of no version'}; 2.0 to 2.2 are read`);
  const sourceLanguage = root.attributes.get('srcLang') ?? '';
  const targetLanguage = root.attributes.get('trgLang');
  if (targetLanguage === undefined)
    throw refuse(place, 'the file does not say which language it is translated into (trgLang)');
  const files = childrenNamed(root, 'file');
  const original = files.map((file) => file.attributes.get('original')).find(Boolean);
  const units = files.flatMap(unitsBelow).map(readUnit);
  return { sourceLanguage, targetLanguage, original, units };
}

const refuse = (place: string, message: string): Fault =>
  new Fault('input', message, { place, remedy: 'export it again as XLIFF 2.0 or 2.1' });

const unitsBelow = (parent: XmlElement): readonly XmlElement[] =>
  childrenNamed(parent, 'unit', 'group').flatMap((child) =>
    child.name === 'group' ? unitsBelow(child) : [child],
  );

function readUnit(unit: XmlElement): ReadUnit {
  const parts = childrenNamed(unit, 'segment', 'ignorable').map(readPart);
  const open = parts.some(({ target }) => target === undefined);
  const inOrder = parts
    .map((part, at) => ({ ...part, order: part.order ?? at + 1 }))
    .sort((a, b) => a.order - b.order);
  return {
    id: unit.attributes.get('id') ?? '',
    name: unit.attributes.get('name'),
    line: unit.line,
    source: parts.flatMap(({ source }) => source),
    target: open ? undefined : inOrder.flatMap(({ target = [] }) => target),
  };
}

interface UnitPart {
  readonly source: CodedText;
  readonly target: CodedText | undefined;
  /** Place among the targets, where a translator has changed the order of sentences. */
  readonly order: number | undefined;
}

/**
 * A copy of the source that nobody has worked on is no translation: tools put it there to begin with.
 * What stands between sentences keeps its source where it has no target.
 */
function readPart(part: XmlElement): UnitPart {
  const [sourceElement] = childrenNamed(part, 'source');
  const [targetElement] = childrenNamed(part, 'target');
  const source = sourceElement ? codedText(sourceElement) : [];
  const target = targetElement ? codedText(targetElement) : undefined;
  const given = target?.some((each) => typeof each !== 'string' || each.trim() !== '');
  const order = Number(targetElement?.attributes.get('order') ?? Number.NaN);
  const place = { source, order: Number.isInteger(order) ? order : undefined };
  if (part.name === 'ignorable') return { ...place, target: target ?? source };
  if (!given) return { ...place, target: hasText(source) ? undefined : source };
  const untouched = (part.attributes.get('state') ?? 'initial') === 'initial';
  const copy = untouched && hasText(source) && sameText(source, target ?? []);
  return { ...place, target: copy ? undefined : target };
}

const hasText = (text: CodedText): boolean =>
  text.some((part) => typeof part === 'string' && /\p{L}/u.test(part));

const sameText = (a: CodedText, b: CodedText): boolean => flat(a) === flat(b);
const flat = (text: CodedText): string =>
  text.map((part) => (typeof part === 'string' ? part : `\u0000${part.id}`)).join('').trim(); // prettier-ignore

/** Annotations stand round the text and say nothing in it; everything else inline is a code. */
function codedText(element: XmlElement): CodedText {
  return element.children.flatMap((child): CodedText => {
    if (!isElement(child)) return [child];
    switch (child.name) {
      case 'mrk':
        return codedText(child);
      case 'sm':
      case 'em':
        return [];
      case 'cp':
        return [characterOf(child)];
      case 'pc':
        return [codeOf(child), ...codedText(child)];
      default:
        return [codeOf(child)];
    }
  });
}

/** A character that XML cannot hold; the texts of a bundle have none, so it is refused later. */
function characterOf({ attributes }: XmlElement): string {
  const code = Number.parseInt(attributes.get('hex') ?? '', 16);
  return code >= 0 && code <= 0x10ffff ? String.fromCodePoint(code) : '\0';
}

const codeOf = ({ attributes, name }: XmlElement) => {
  const id = attributes.get('id') ?? attributes.get('startRef') ?? name;
  return { id, shown: attributes.get('equiv') ?? attributes.get('disp') ?? `<${name}>` };
};
