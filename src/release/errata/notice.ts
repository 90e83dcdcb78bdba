/**
 * The two short texts of a correction: the notice a buyer is sent, and the line that stands in the
 * history of the document. Takes what changed, gives plain text in the language of the order.
 */
import { sayDate } from '../../language/index.ts';
import { dataOf, type EditionOrder, wordsOf } from '../../press/edition/order.ts';
import type { Templates } from '../../press/edition/templates.ts';
import { titleOf } from '../../press/edition/view/cover.ts';
import { openProse } from '../../press/edition/view/prose.ts';
import { type Change, isCorrection } from './changes.ts';
import { briefOf, reasonsFor } from './places.ts';
import type { SheetOrder } from './sheet.ts';

/** More places than these are counted, not named. */
const NOTICE_PLACES = 12;
const HISTORY_PLACES = 4;

/** First line: the subject; then an empty line and the text. Ends with a newline. */
export function writeNotice(
  { edition, old, changes, affected }: SheetOrder,
  templates: Templates,
): string {
  const words = wordsOf(edition);
  const data = dataOf(edition);
  const prose = openProse(edition);
  const corrections = changes.filter(isCorrection);
  const title = titleOf(edition, prose);
  const version = { title, version: data.version };
  const dated = { ...version, date: sayDate(edition.language, data.issued) };
  const { whole } = reasonsFor(data);
  const why = whole === undefined ? undefined : prose.line(whole);
  const have = affected.length > 0 ? affected : [old];
  const view = {
    subject: words('notice.subject', version),
    opening: words(corrections.length > 0 ? 'notice.correction' : 'notice.wording', dated),
    places: placesOf(edition, corrections, NOTICE_PLACES),
    reason: why === undefined ? '' : words('errata.reason', { reason: why }),
    get:
      corrections.length === 0
        ? ''
        : words('notice.get', { versions: have.join(edition.language.settings.separators.list) }),
    signature: [data.studio.designer, data.studio.name].join(', '),
  };
  const written = templates.write('notice', view, (key) => words(key));
  return written.replace(/\n{3,}/g, '\n\n').trim() + '\n';
}

/** `Corrected: Hat · Crown, Rnd 7 (M).`: for a version the designer wrote no history of. */
export function sayHistory(edition: EditionOrder, changes: readonly Change[]): string {
  const words = wordsOf(edition);
  const corrections = changes.filter(isCorrection);
  if (corrections.length === 0) return words('errata.historyWording');
  const places = placesOf(edition, corrections, HISTORY_PLACES);
  return words('errata.history', { places: places.join('; ') });
}

function placesOf(
  edition: EditionOrder,
  changes: readonly Change[],
  most: number,
): readonly string[] {
  const places = [...new Set(changes.map((change) => briefOf(edition, change)))];
  const rest = places.length - most;
  if (rest <= 0) return places;
  return [...places.slice(0, most), wordsOf(edition)('errata.more', { n: rest })];
}
