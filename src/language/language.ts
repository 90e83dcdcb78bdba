/**
 * One language as the rooms see it: its settings, its messages, its glossary. Made from the four data
 * files of `locales/<tag>/` and nothing else; knows no pattern. A missing key is a broken invariant
 * here, because `checkLanguage` has refused an incomplete language before anything is said.
 */
import { BrokenInvariant } from '../base/assert.ts';
import type { FormKey, FormSlot } from './forms.ts';
import type { Glossary } from './glossary.ts';
import {
  fill,
  slotsOf,
  type Choice,
  type Messages,
  type MessageTree,
  type Template,
} from './message.ts';
import type { LanguageSettings } from './settings.ts';
import { plainText, type SpokenPart } from './spoken.ts';

export type Spoken = readonly SpokenPart[];

export interface Language {
  /** BCP 47, e.g. `de`, `en-US`. */
  readonly tag: string;
  readonly settings: LanguageSettings;
  readonly glossary: Glossary;
  readonly messages: Messages;
  /** The trees as read, for completeness and the translators' files. */
  readonly sources: {
    readonly rows: Readonly<Record<string, string>>;
    readonly messages: Readonly<Record<string, string>>;
    readonly glossary: MessageTree;
  };
}

/** Says one form of `rows.json` with its slots filled. */
export function sayForm<Key extends FormKey>(
  language: Language,
  key: Key,
  slots: Readonly<Record<FormSlot<Key>, Spoken>>,
  choice: Choice = {},
): Spoken {
  const template = language.messages.find('rows', key, choice);
  if (!template) throw new BrokenInvariant(`${language.tag}: rows.json lacks ${key}`);
  return fill(withNumber(language, key, template, 'n' in slots, choice), slots);
}

/**
 * A message may leave the number out ("to the last st") where it is exactly 1, or the number its context
 * names ("twice"). Languages whose category `one` holds more than 1 (French 0) take the plural instead.
 */
function withNumber(
  language: Language,
  key: FormKey,
  template: Template,
  numbered: boolean,
  choice: Choice,
): Template {
  const { count, context = '' } = choice;
  const silent = numbered && !slotsOf(template).includes('n');
  if (!silent || count === undefined || count === 1 || /\d$/.test(context)) return template;
  return language.messages.find('rows', key, { ...choice, count: 2 }) ?? template;
}

/** True where the language has words of its own for this key of `messages.json`. */
export const hasText = (language: Language, key: string, choice: Choice = {}): boolean =>
  language.messages.find('messages', key, choice) !== undefined;

/** Says a message of `messages.json`; values may be plain text or spoken parts. */
export function sayText(
  language: Language,
  key: string,
  values: Readonly<Record<string, string | number | Spoken>> = {},
  choice: Choice = {},
): Spoken {
  const template = language.messages.find('messages', key, choice);
  if (!template) throw new BrokenInvariant(`${language.tag}: messages.json lacks ${key}`);
  const slots = Object.fromEntries(
    Object.entries(values).map(([name, value]) => [
      name,
      typeof value === 'object' ? value : [{ text: String(value), role: 'plain' } as const],
    ]),
  );
  return fill(template, slots);
}

/** The same as plain text: for headings, alternative texts, file names. */
export const text = (
  language: Language,
  key: string,
  values: Readonly<Record<string, string | number | Spoken>> = {},
  choice: Choice = {},
): string => plainText(sayText(language, key, values, choice));
