/**
 * Texts of the designer that read otherwise than before. Takes two checked patterns and a language;
 * looks only at texts that a document prints, and tells those that say how to work (notes, finishing,
 * special stitches) from those that do not.
 */
import { type Language, proseFor } from '../../language/index.ts';
import type { BundleData } from '../../pattern/bundle/schema.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';

export interface TextChange {
  readonly kind: 'text';
  readonly key: string;
  /** `work`: the text tells what to do; `wording`: nothing to knit differently. */
  readonly effect: 'work' | 'wording';
  readonly was: string;
  readonly is: string;
}

const INSTRUCTIVE = /^(finishing|notes)$|^special\./;
const PRINTED = /^(title|subtitle|summary|story|care)$/;

export function compareTexts(
  old: CheckedPattern,
  now: CheckedPattern,
  { tag }: Language,
): readonly TextChange[] {
  const [was, is] = [old, now].map((each) => proseFor(each.pattern.bundle.prose, tag));
  const [before, after] = [old, now].map((each) => keysOf(each.pattern.bundle.data));
  const keys = [...new Set([...(is?.keys() ?? []), ...(was?.keys() ?? [])])];
  return keys.flatMap((key): readonly TextChange[] => {
    const isWork = [before, after].some((each) => each?.work.has(key)) || INSTRUCTIVE.test(key);
    const isPrinted = isWork || [before, after].some((each) => each?.printed.has(key));
    if (!isPrinted && !PRINTED.test(key)) return [];
    const texts = { was: was?.get(key)?.join('\n') ?? '', is: is?.get(key)?.join('\n') ?? '' };
    if (texts.was === texts.is) return [];
    return [{ kind: 'text', key, effect: isWork ? 'work' : 'wording', ...texts }];
  });
}

/** Keys the bundle itself refers to: those beside a line or a stitch, and the names that are printed. */
function keysOf(data: BundleData): {
  readonly work: ReadonlySet<string>;
  readonly printed: ReadonlySet<string>;
} {
  const sections = data.pieces.flatMap((piece) => piece.sections);
  const notes = sections.flatMap(({ intro, lines }) => [
    intro,
    ...lines.map((line) => (typeof line === 'string' ? undefined : line.note)),
  ]);
  const described = data.stitches.map(({ describe }) => describe);
  const names = [
    ...data.pieces.map(({ title }) => title),
    ...sections.map(({ title }) => title),
    ...data.measurements.map(({ name }) => name),
    ...data.stitchPatterns.map(({ name }) => name),
    ...data.photos.map(({ caption }) => caption),
  ];
  return { work: setOf([...notes, ...described]), printed: setOf(names) };
}

const setOf = (keys: readonly (string | undefined)[]): ReadonlySet<string> =>
  new Set(keys.filter((key) => key !== undefined));
