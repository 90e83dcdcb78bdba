/**
 * The texts of one language as one shop takes them: title, short text, tags and description, each within
 * the limits of the profile. Takes a listing, gives small files ready to paste and what had to be cut.
 */
import type { Language } from '../../language/index.ts';
import type { Templates } from '../../press/edition/templates.ts';
import { fitTags, fitText, lettersOf } from '../listing/fitted.ts';
import type { Listing } from '../listing/listing.ts';
import { descriptionHtml, descriptionText } from '../listing/write.ts';
import type { ShopProfile } from './profile.ts';

export interface ShopText {
  /** `title.txt`, `short.txt`, `tags.txt`, `description.txt`, `description.html`. */
  readonly name: string;
  readonly text: string;
  /** For the upload list: "84 of 120 letters". */
  readonly note: string;
}

export function shopTexts(
  listing: Listing,
  { texts, formats }: ShopProfile,
  language: Language,
  templates: Templates,
): readonly ShopText[] {
  const fitted = (name: string, whole: string, most: number): ShopText => {
    const { text, shortened } = fitText(whole.trim(), most, language.tag);
    const cut = shortened ? `, shortened from ${lettersOf(whole.trim())}` : '';
    return { name, text: `${text}\n`, note: `${lettersOf(text)} of ${most} letters${cut}` };
  };
  const { tags, left } = fitTags(listing.tags, texts);
  const leftOut = left.length > 0 ? `, left out: ${left.join('; ')}` : '';
  return [
    fitted('title.txt', listing.title, texts.title),
    fitted('short.txt', listing.short, texts.short),
    {
      name: 'tags.txt',
      text: `${tags.join(', ')}\n`,
      note: `${tags.length} of ${texts.tags} tags${leftOut}`,
    },
    ...(formats.includes('text')
      ? [
          fitted(
            'description.txt',
            descriptionText(listing, language, templates),
            texts.description,
          ),
        ]
      : []),
    ...(formats.includes('html')
      ? [pageText(listing, texts.description, language, templates)]
      : []),
  ];
}

/** A page is not cut in the middle of its tags: it is kept whole, and told where it is too long. */
function pageText(
  listing: Listing,
  most: number,
  language: Language,
  templates: Templates,
): ShopText {
  const text = descriptionHtml(listing, language, templates);
  const over = lettersOf(text) > most ? ': TOO LONG, shorten listing.description' : '';
  return { name: 'description.html', text, note: `${lettersOf(text)} of ${most} letters${over}` };
}
