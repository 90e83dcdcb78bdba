/**
 * A listing as a shop takes it: plain text, or a piece of page to paste. Takes a gathered listing and
 * the templates; what a shop will not have too long is shortened before, not here.
 */
import type { Language } from '../../language/index.ts';
import { text } from '../../language/index.ts';
import type { Templates } from '../../press/edition/templates.ts';
import type { Listing } from './listing.ts';

/** Everything in reading order, the tags last. Ends with a newline. */
export function listingText(listing: Listing, language: Language, templates: Templates): string {
  const view = { ...listing, tags: listing.tags.join(language.settings.separators.list) };
  return tidied(templates.write('listing', view, (key) => text(language, key)));
}

/** The description alone, for a form that asks for title and tags apart. */
export function descriptionText(
  listing: Listing,
  language: Language,
  templates: Templates,
): string {
  return tidied(templates.write('description', { ...listing }, (key) => text(language, key)));
}

/** The description as paragraphs and lists, with its language and direction; no style and no script. */
export function descriptionHtml(
  listing: Listing,
  language: Language,
  templates: Templates,
): string {
  const { tag, settings } = language;
  const view = { ...listing, tag, direction: settings.direction };
  return tidied(templates.write('description-page', view, (key) => text(language, key)));
}

/** Empty lists leave runs of empty lines behind. */
const tidied = (written: string): string => written.replace(/\n{3,}/g, '\n\n').trim() + '\n';
