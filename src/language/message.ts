/**
 * One language's messages behind i18next, which resolves keys, contexts and CLDR plurals. A message is
 * cut once into text, slots `{{n}}` and terms `<rep>wdh</rep>`; slots are filled with spoken parts, so
 * that counts and abbreviations keep their role through any word order. Knows no knitting.
 */
import i18next from 'i18next';
import { BrokenInvariant } from '../base/assert.ts';
import type { SpokenPart, SpokenRole } from './spoken.ts';

export type Namespace = 'messages' | 'rows' | 'glossary';
export type MessageTree = { readonly [key: string]: string | boolean | MessageTree };

/** What decides between the variants of a message. */
export interface Choice {
  /** Decides the plural category. */
  readonly count?: number;
  /**
   * Tried first as `key_context`; the plain key stands where a language makes no difference. A digit
   * at the end (`row2`: every second row) falls away where it has no words of its own.
   */
  readonly context?: string;
  /** Ordinal categories (1st, 2nd, 3rd) in place of cardinal ones. */
  readonly ordinal?: boolean;
}

export type TemplatePart =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'slot'; readonly name: string }
  | { readonly kind: 'term'; readonly term: string; readonly text: string };
export type Template = readonly TemplatePart[];

export type Slots = Readonly<Record<string, readonly SpokenPart[]>>;

export interface Messages {
  /** The message as data, or undefined where the language lacks it. */
  find(namespace: Namespace, key: string, choice?: Choice): Template | undefined;
  category(count: number, ordinal?: boolean): Intl.LDMLPluralRule;
}

const MARK = /\{\{\s*([\w-]+)\s*\}\}|<([\w-]+)>([^<]*)<\/\2>/g;

/** `ab * <rep>wdh</rep> {{goal}}` → text, term, text, slot. */
export function cutTemplate(message: string): Template {
  const parts: TemplatePart[] = [];
  let at = 0;
  for (const match of message.matchAll(MARK)) {
    if (match.index > at) parts.push({ kind: 'text', text: message.slice(at, match.index) });
    const [whole, slot, term, text] = match;
    if (slot !== undefined) parts.push({ kind: 'slot', name: slot });
    else if (term !== undefined) parts.push({ kind: 'term', term, text: text ?? '' });
    at = match.index + whole.length;
  }
  if (at < message.length) parts.push({ kind: 'text', text: message.slice(at) });
  return parts;
}

export const slotsOf = (template: Template): readonly string[] =>
  template.flatMap((part) => (part.kind === 'slot' ? [part.name] : []));

/** Opens the messages of one language. i18next is loaded with all three files at once. */
export function openMessages(
  tag: string,
  resources: Readonly<Record<Namespace, MessageTree>>,
): Messages {
  const engine = i18next.createInstance();
  void engine.init({
    lng: tag,
    fallbackLng: false,
    resources: { [tag]: resources },
    ns: Object.keys(resources),
    defaultNS: 'messages',
    nsSeparator: false,
    initAsync: false,
    interpolation: { escapeValue: false },
  });
  const rules = new Intl.PluralRules(tag);
  const ordinals = new Intl.PluralRules(tag, { type: 'ordinal' });
  const category = (count: number, ordinal = false) => (ordinal ? ordinals : rules).select(count);
  const cut = new Map<string, Template | undefined>();
  const look = (namespace: Namespace, key: string, choice: Choice): Template | undefined => {
    const options = { ...choice, ns: namespace, defaultValue: '', skipInterpolation: true };
    const text =
      engine.t(key, options) || engine.t(`${key}_other`, { ...options, count: undefined });
    if (typeof text === 'string' && text !== '') return cutTemplate(text);
    const general = choice.context?.replace(/\d$/, '');
    return general === undefined || general === choice.context
      ? undefined
      : look(namespace, key, { ...choice, context: general });
  };
  return {
    category,
    find(namespace, key, choice = {}) {
      const { count, context = '', ordinal = false } = choice;
      const plural = count === undefined ? '' : category(count, ordinal);
      const name = `${namespace}|${key}|${context}|${plural}|${ordinal}`;
      if (!cut.has(name)) cut.set(name, look(namespace, key, choice));
      return cut.get(name);
    },
  };
}

/** Fills a template. A slot without a value is a fault of the program: completeness came before. */
export function fill(
  template: Template,
  slots: Slots,
  text: { readonly role: SpokenRole; readonly term?: string } = { role: 'plain' },
): readonly SpokenPart[] {
  return template.flatMap((part): readonly SpokenPart[] => {
    if (part.kind === 'text') return [{ text: part.text, ...text }];
    if (part.kind === 'term') return [{ text: part.text, role: 'abbreviation', term: part.term }];
    const value = slots[part.name];
    if (!value) throw new BrokenInvariant(`no value for {{${part.name}}}`);
    return value;
  });
}

export const spoken = (text: string, role: SpokenRole = 'plain'): readonly SpokenPart[] =>
  text === '' ? [] : [{ text, role }];

/** Puts a separator between lists of parts. */
export function joinParts(
  lists: readonly (readonly SpokenPart[])[],
  separator: string,
): readonly SpokenPart[] {
  return lists
    .filter((list) => list.length > 0)
    .flatMap((list, index) => (index === 0 ? list : [...spoken(separator), ...list]));
}
