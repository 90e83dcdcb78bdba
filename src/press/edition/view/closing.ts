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
      ...(isReviewed(order) ? [] : [words('document.unreviewed')]),
    ],
    history: historyOf(order, prose),
  };
}

/** By the house for its words, or by the designer's own reader for this pattern. */
function isReviewed(order: EditionOrder): boolean {
  const { tag, settings } = order.language;
  const own = dataOf(order).reviewed?.some(({ language }) => language === tag) ?? false;
  return own || settings.review.state !== 'unreviewed';
}

/** The designer's own line for a version, else the one that follows from what changed. */
function historyOf(order: EditionOrder, prose: Prose): readonly string[] {
  const data = dataOf(order);
  const say = (version: string, issued: string, change: string) =>
    wordsOf(order)('document.change', { version, date: sayDate(order.language, issued), change });
  const written = data.history.map(({ version, issued, change }) =>
    say(version, issued, prose.line(change) ?? ''),
  );
  const isWritten = data.history.some(({ version }) => version === data.version);
  if (order.history === undefined || isWritten) return written;
  return [...written, say(data.version, data.issued, order.history)];
}

export function versionLine(order: EditionOrder): string {
  const { version, issued } = dataOf(order);
  return wordsOf(order)('document.versionIssued', {
    version,
    date: sayDate(order.language, issued),
  });
}
