/**
 * What each line of a piece is worked in: the gauge its fabric has, and the colour of the yarn. Takes a
 * piece, gives one answer for each line. The rows seldom say it; it follows from the needles they change
 * to and the fabric they name, and is the piece's own gauge where nothing else is said.
 */
import type { GaugeData } from '../bundle/schema.ts';
import type { Line, Sentence } from '../notation/ast.ts';
import type { Bundle, Piece } from '../pattern.ts';

export interface WorkedIn {
  readonly gauge: GaugeData | undefined;
  /** Id of the colour; the first of the bundle until another is named. */
  readonly colour: string | undefined;
}

type Data = Bundle['data'];
type Need = Data['needles'][number];

export function workedInOf(data: Data, piece: Piece): readonly WorkedIn[] {
  const own = data.gauges.find(({ id }) => id === piece.data.gauge);
  let needle: string | undefined = own?.needle;
  let colour = data.yarns[0]?.colours[0]?.id;
  return piece.sections
    .flatMap(({ lines }) => lines)
    .map(({ line }) => {
      let fabric: string | undefined;
      for (const sentence of line ? sentencesOf(line) : []) {
        needle = needleOf(data.needles, needleIn(sentence)) ?? needle;
        colour = colourOf(data, yarnIn(sentence)) ?? colour;
        fabric ??= fabricIn(sentence);
      }
      return { gauge: gaugeFor(data, own, needle, fabric), colour };
    });
}

/** Sentences of a line, those worked at the same time and step by step among them. */
function sentencesOf({ sentences }: Line): readonly Sentence[] {
  return sentences.flatMap((sentence) =>
    sentence.kind === 'atTheSameTime' || sentence.kind === 'steps'
      ? [sentence, ...sentence.sentences]
      : [sentence],
  );
}

/** The fabric named; else the gauge of these needles, the piece's own before others. */
function gaugeFor(
  { gauges, stitchPatterns }: Data,
  own: GaugeData | undefined,
  needle: string | undefined,
  fabric: string | undefined,
): GaugeData | undefined {
  // A chart is named where its stitch pattern has the gauge.
  const charted = stitchPatterns.find(({ chart }) => chart !== undefined && chart === fabric)?.id;
  const named = gauges.filter(({ pattern }) => pattern === fabric || pattern === charted);
  const fitting = named.find((each) => each.needle === needle) ?? named[0];
  if (fitting) return fitting;
  if (!own || own.needle === needle) return own;
  return gauges.find((each) => each.needle === needle) ?? own;
}

const needleIn = (sentence: Sentence): string | undefined =>
  sentence.kind === 'needle' || sentence.kind === 'castOn' ? sentence.needle : undefined;

function fabricIn(sentence: Sentence): string | undefined {
  if (sentence.kind === 'workEven') return sentence.fabric;
  return sentence.kind === 'repeatRows' ? sentence.of?.replace(/^chart /, '') : undefined;
}

/** `smaller`, `larger circular`, `double-pointed`: by id, then by purpose, kind or a word of the id. */
function needleOf(needles: readonly Need[], words: string | undefined): string | undefined {
  if (words === undefined) return undefined;
  const wanted = words.toLowerCase().split(/[\s-]+/);
  const exact = needles.find(({ id }) => id === words.toLowerCase().replaceAll(' ', '-'));
  const by = (names: (each: Need) => readonly (string | undefined)[]) =>
    needles.find((each) =>
      names(each).some((name) => name?.split('-').some((word) => wanted.includes(word))),
    );
  return (exact ?? by(({ id }) => [id]) ?? by(({ purpose, kind }) => [purpose, kind]))?.id;
}

// ---------------------------------------------------------------- colours

function yarnIn(sentence: Sentence): string | undefined {
  if (sentence.kind === 'castOn' || sentence.kind === 'yarn') return sentence.yarn;
  if (sentence.kind !== 'actions') return undefined;
  return sentence.actions.flatMap((action) => (action.kind === 'yarn' ? [action.yarn] : []))[0];
}

const SHORT_NAMES: Readonly<Record<string, string>> = {
  mc: 'main', cc: 'contrast1', cc1: 'contrast1', cc2: 'contrast2', cc3: 'contrast3', cc4: 'contrast4',
}; // prettier-ignore

function colourOf({ yarns }: Data, words: string | undefined): string | undefined {
  if (words === undefined) return undefined;
  const wanted = words.trim().toLowerCase();
  const role = SHORT_NAMES[wanted];
  const colours = yarns.flatMap((yarn) => yarn.colours);
  return colours.find(
    ({ id, name, ...each }) =>
      id === wanted || name.toLowerCase() === wanted || (role !== undefined && each.role === role),
  )?.id;
}
