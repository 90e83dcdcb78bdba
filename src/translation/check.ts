/**
 * Whether the translations of a bundle still say what the source says: an outdated or missing text of a
 * language that records its sources blocks that language; one without a record is told of in a note.
 * Takes a bundle, gives findings; what a language needs to say the rows is the language room's.
 */
import type { Finding } from '../findings/finding.ts';
import { finding } from '../findings/register.ts';
import { proseKeys } from '../language/index.ts';
import { pointerTo } from '../base/span.ts';
import { proseFile } from '../pattern/bundle/load.ts';
import type { BundleData } from '../pattern/bundle/schema.ts';
import type { Bundle } from '../pattern/pattern.ts';
import { countStandings, standingOf, type StandingSegment, textsFor } from './standing.ts';

/** What stands in the way of one language; nothing for the language the designer wrote in. */
export function checkTranslation(bundle: Bundle, language: string): readonly Finding[] {
  if (language === bundle.data.language) return [];
  const texts = textsFor(bundle, language);
  const segments = standingOf(texts);
  const { untied } = countStandings(segments);
  const needed = new Set(proseKeys(bundle.data));
  // The language room tells of needed texts that are not there at all.
  const told = (key: string) => needed.has(key) && !Object.hasOwn(texts.translation, key);
  const work = segments.filter((each) =>
    each.standing === 'missing'
      ? !told(each.key) && (texts.record !== undefined || each.translation === '')
      : each.standing === 'outdated',
  );
  return [
    ...work.map((each) => workFinding(language, each)),
    ...movedKeys(segments).map((key) =>
      finding('translation/moved', { file: proseFile(language), pointer: pointerTo('', key) }, { language, key }),
    ),
    ...(untied === 0
      ? []
      : [finding('translation/untied', { file: proseFile(language), pointer: '' }, { language, texts: untied })]),
  ];
} // prettier-ignore

function workFinding(
  language: string,
  { id, pointer, standing, text, translation = '' }: StandingSegment,
): Finding {
  const where = { file: proseFile(language), pointer };
  const facts = { language, segment: id, source: text };
  return standing === 'outdated'
    ? finding('translation/outdated', where, { ...facts, translation })
    : finding('translation/missing', where, facts);
}

/** Lists whose paragraphs all hold and stand in another order. */
function movedKeys(segments: readonly StandingSegment[]): readonly string[] {
  const moved = new Set(segments.filter(({ standing }) => standing === 'moved').map(({ key }) => key)); // prettier-ignore
  for (const { key, standing } of segments)
    if (standing === 'outdated' || standing === 'missing') moved.delete(key);
  return [...moved];
}

/** Languages that wait for a later version, each told with its reason. */
export const checkHeldOver = ({ heldOver = [], languages }: BundleData): readonly Finding[] =>
  heldOver.map(({ language, reason }, at) => {
    const where = { file: 'pattern.json', pointer: `/heldOver/${at}/language` };
    return languages.includes(language)
      ? finding('translation/held-over', where, { language, reason })
      : finding('translation/held-over-unknown', where, { language, languages });
  });
