/**
 * Charts for those who do not see them: a chart read out row by row, in the order it is worked and with
 * the stitches as they are worked from the side that faces. Also what each symbol of a key means.
 */
import { sizedOf } from '../pattern/bundle/size-list.ts';
import type { StitchName } from '../pattern/notation/ast.ts';
import type { Chart, ChartCell, ChartRow } from '../pattern/pattern.ts';
import { sayText, text, type Language, type Spoken } from './language.ts';
import { joinParts, spoken } from './message.ts';
import { plainText } from './spoken.ts';
import { aloudStitch, findStitch, sayStitch, stitchText } from './stitch.ts';
import { type Names, sayYarn } from './words.ts';

/** The stitch that, worked on the wrong side, shows this one on the right side. */
export type OtherSide = (stitch: StitchName) => StitchName;

/**
 * `Row 1, right side: knit 2, purl 2.` One line for each row, row 1 first; where a chart has several
 * colours, each run names its own: `knit 2 (Foam)`.
 */
export function chartText(
  language: Language,
  chart: Chart,
  otherSide: OtherSide,
  names: Names,
): readonly string[] {
  const round = chart.data.form === 'round';
  const colours = new Set(chart.rows.flatMap(({ cells }) => cells.map(({ colour }) => colour)));
  colours.delete(undefined);
  return chart.rows.map((row) => {
    const cells = inWorkingOrder(row, round);
    const wrong = !round && row.side === 'WS';
    const said = runsOf(cells, wrong ? otherSide : (stitch) => stitch).map((run) => {
      const { stitch, colour, count } = run;
      if (stitch === 'none') return sayText(language, 'chart.noStitch', { n: count }, { count });
      const stitches = aloudStitch(language, stitch, count);
      if (colour === undefined || colours.size < 2) return stitches;
      const slots = { stitches, colour: sayYarn(language, names, colour) };
      return sayText(language, 'chart.inColour', slots);
    });
    const stitches = joinParts(said, language.settings.separators.actions);
    const side = round ? 'round' : row.side;
    return text(language, 'chart.row', { n: row.number, stitches }, { context: side });
  });
}

/** Right-side rows and rounds are read from right to left, wrong-side rows from left to right. */
const inWorkingOrder = (row: ChartRow, round: boolean): readonly ChartCell[] =>
  !round && row.side === 'WS' ? row.cells : row.cells.toReversed();

/** Neighbours of one stitch and colour; squares without a stitch have no colour. */
interface StitchRun {
  readonly stitch: StitchName;
  readonly colour: string | undefined;
  count: number;
}

function runsOf(cells: readonly ChartCell[], worked: OtherSide): readonly StitchRun[] {
  const runs: StitchRun[] = [];
  for (const cell of cells) {
    const stitch = cell.stitch === 'none' ? 'none' : worked(cell.stitch);
    const colour = stitch === 'none' ? undefined : cell.colour;
    const last = runs.at(-1);
    if (last?.stitch === stitch && last.colour === colour) last.count += 1;
    else runs.push({ stitch, colour, count: 1 });
  }
  return runs;
}

/**
 * What a symbol of a chart means: `knit on right side, purl on wrong side` where the two differ on
 * the sides and the chart has both, else the stitch's full name.
 */
export function stitchMeaning(
  language: Language,
  /** `none` for a cell without a stitch. */
  stitch: StitchName,
  flat: boolean,
  otherSide: OtherSide,
): Spoken {
  if (stitch === 'none') return sayText(language, 'chart.noStitchMeaning');
  const name = nameOf(language, stitch);
  const back = otherSide(stitch);
  if (!flat || back === stitch) return name;
  return sayText(language, 'chart.meaning', { right: name, wrong: nameOf(language, back) });
}

function nameOf(language: Language, stitch: StitchName): Spoken {
  const found = findStitch(language, stitch);
  const said = found && stitchText(language, found, 'name');
  return spoken(plainText(said ?? sayStitch(language, stitch, sizedOf(1))));
}
