/** The last page: where the design comes from, care, and who answers for it since when. */
import { sayDate } from '../../../language/index.ts';
import { type EditionOrder, dataOf, wordsOf } from '../order.ts';
import type { Prose } from './prose.ts';

export function closingView(order: EditionOrder, prose: Prose) {
  const data = dataOf(order);
  const words = wordsOf(order);
  const { studio } = data;
  const contact = [studio.contact, studio.web].filter((each) => each !== undefined).join(' · ');
  return {
    story: prose.all('story'),
    care: prose.all('care'),
    imprint: [
      versionLine(order),
      ...(contact === '' ? [] : [words('document.contact', { contact })]),
      studio.copyright,
      ...(order.language.settings.review.state === 'unreviewed'
        ? [words('document.unreviewed')]
        : []),
    ],
    history: data.history.map((entry) =>
      words('document.change', {
        version: entry.version,
        date: sayDate(order.language, entry.issued),
        change: prose.line(entry.change) ?? '',
      }),
    ),
  };
}

export function versionLine(order: EditionOrder): string {
  const { version, issued } = dataOf(order);
  return wordsOf(order)('document.versionIssued', {
    version,
    date: sayDate(order.language, issued),
  });
}
