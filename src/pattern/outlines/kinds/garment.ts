/**
 * Outlines of a body worked in one piece and of a sleeve, from their rows. A body is drawn folded at
 * the sides, half its stitches wide; where sleeves are worked with it, only the stitches of the body
 * count: those between the markers that are not a sleeve's, or their share where no marker tells.
 */
import { bandsOf, flatStrips, foldedStrips, type Strip, symmetricEdge, widest } from '../bands.ts';
import { heightOf, isWorkedFromTop } from '../direction.ts';
import { across, beside, type Draft, turnedOver } from '../outline.ts';
import type { PanelRow } from '../panels.ts';
import type { FabricMove } from '../../pattern.ts';
import type { OutlineSource } from '../source.ts';
import { outlineOfPanels } from '../trace.ts';
import { given, rangePlace } from './plain.ts';

export function bodyRound(source: OutlineSource): Draft | undefined {
  const [main] = source.worked.panels;
  if (!main) return undefined;
  const ownStitches = bodyStitches(source, main.rows);
  const strips = foldedStrips(main.rows, 1 / 2, ownStitches, stepRows(source));
  const [first, last] = [strips[0], strips.at(-1)];
  const wide = widest(strips.filter(({ gauge }) => gauge === source.ownGauge));
  if (!first || !last || !wide) return undefined;
  const ends = {
    lower: ['hemDepth', 'sideLength', 'hem'],
    upper: ['armhole', 'neckDepth', 'neck'],
  };
  const fromTop = isWorkedFromTop(source, ends, first.right < last.right);
  const height = heightOf(source);
  const [hem, neck] = fromTop ? [last, first] : [first, last];
  const [foot, top] = fromTop ? [height, 0] : [0, height];
  const underarm = source.range('sideLength') ?? { low: foot, high: foot };
  const level = fromTop
    ? underarm.high - (underarm.high - underarm.low) * 0.3
    : underarm.low + (underarm.high - underarm.low) * 0.3;
  const body = source.row('circumference');
  const measured = body ? (strips.find(({ high }) => high >= body.high - 1e-9) ?? wide) : wide;
  const hasHem = source.has('hem') || Math.abs(hem.right - measured.right) > 0.15;
  const edge = symmetricEdge(strips);
  const draft: Draft = {
    edge,
    lines: [],
    bands: bandsOf(strips, source.ownGauge),
    places: given(source, [
      across(
        'circumference',
        { ...edges(measured), y: hasHem ? level : foot },
        hasHem ? 'inside' : below(fromTop),
        true,
      ),
      across('hem', { ...edges(hem), y: foot }, below(fromTop), true),
      across('neck', { ...edges(neck), y: top }, fromTop ? 'below' : 'above'),
      ...rangePlace(source, 'length', 'right', edge),
      ...rangePlace(source, 'sideLength', 'left', edge),
      ...rangePlace(source, 'armhole', 'left', edge),
      ...rangePlace(source, 'raglan', 'left', edge),
      ...rangePlace(source, 'hemDepth', 'left', edge),
    ]),
  };
  return fromTop ? turnedOver(draft) : draft;
}

const edges = ({ left, right }: Strip) => ({ left, right });
const below = (fromTop: boolean) => (fromTop ? 'above' : 'below');

/** Rows in whose course stitches joined or left: the edge steps there. */
const stepRows = ({ trace, size }: OutlineSource): ReadonlySet<number> =>
  new Set((trace.moves[size] ?? []).flatMap(({ inRow, after }) => (inRow ? [after] : [])));

// ---------------------------------------------------------------- which stitches are the body's

/** Stitches of the body in each row: all of them where no sleeve is on the needle. */
function bodyStitches(
  { trace, size, worked }: OutlineSource,
  rows: readonly PanelRow[],
): (row: PanelRow) => number {
  const fabric = trace.fabric[size] ?? [];
  const moves = trace.moves[size] ?? [];
  const isOther = ({ from }: FabricMove) => from !== undefined && from !== trace.piece.data.id;
  const joined = moves.filter((move) => move.kind === 'resume' && move.inRow && isOther(move));
  const left = moves.filter(
    ({ kind, inRow, after }) => kind === 'hold' && inRow && after > 0 && after < fabric.length,
  );
  const all = (row: PanelRow) => row.stitches;
  if (worked.panels.length > 1) return all;
  if (joined.length >= 2) return fromJoin(rows, joined);
  const before = fabric[(left[0]?.after ?? 0) - 1]?.stitches ?? 0;
  const held = left.reduce((sum, { count }) => sum + count, 0);
  // Underarms left on holders are the body's own; sleeves are a good part of the round.
  return left.length >= 2 && held > before / 4 ? untilDivided(rows, left) : all;
}

/** Worked from below: sleeves are on the needle from the joining row on. */
function fromJoin(rows: readonly PanelRow[], joined: readonly FabricMove[]) {
  const at = joined[0]?.after ?? 0;
  const joining = rows.find((row) => row.at === at);
  const sleeves = joined.map((move) => ({ from: move.at, to: move.at + move.count }));
  return (row: PanelRow): number =>
    row.at < at || !joining ? row.stitches : bodyPart(row, joining, sleeves);
}

/** Worked from above: sleeves are on the needle until the row that divides. */
function untilDivided(rows: readonly PanelRow[], left: readonly FabricMove[]) {
  const at = left[0]?.after ?? 0;
  const dividing = rows.find((row) => row.at === at - 1);
  const sleeves = left.map((move) => ({ from: move.at, to: move.at + move.count }));
  // Above the row where markers are placed their share stays the same.
  const marked = rows.find((row) => row.marks.length >= 3);
  return (row: PanelRow): number => {
    if (row.at >= at || !dividing) return row.stitches;
    if (row.marks.length >= 3) return bodyPart(row, dividing, sleeves);
    const whole = marked ? bodyPart(marked, dividing, sleeves) / marked.stitches : 1;
    return row.stitches * whole;
  };
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** Sections between the markers that are not a sleeve's; else the share that the body has of all. */
function bodyPart(row: PanelRow, known: PanelRow, sleeves: readonly Stretch[]): number {
  const sections = sectionsOf(row);
  const knownSections = sectionsOf(known);
  const isSleeve = ({ from, to }: Stretch) =>
    sleeves.some(
      (sleeve) => Math.min(to, sleeve.to) - Math.max(from, sleeve.from) > (to - from) / 2,
    );
  if (row.marks.length >= 3 && sections.length === knownSections.length)
    return sections
      .filter((_, at) => !isSleeve(knownSections[at] ?? { from: 0, to: 0 }))
      .reduce((sum, { from, to }) => sum + to - from, 0);
  const held = sleeves.reduce((sum, { from, to }) => sum + to - from, 0);
  return row.stitches * (1 - held / known.stitches);
}

function sectionsOf({ marks, stitches }: PanelRow): Stretch[] {
  const ends = [...marks.filter((mark) => mark > 0 && mark < stitches), stitches];
  return ends.map((to, at) => ({ from: at === 0 ? 0 : (ends[at - 1] ?? 0), to }));
}

// ---------------------------------------------------------------- sleeve

export function sleeve(source: OutlineSource): Draft | undefined {
  const [panel] = source.worked.panels;
  if (!panel || panel.gapped) return undefined;
  const round = source.trace.piece.data.form === 'round';
  // Underarm stitches left for a graft are the last thing a sleeve in the round does.
  const end = round ? panel.open.find(({ after }) => after < panel.rows.length)?.after : undefined;
  const rows =
    end !== undefined && end > panel.rows.length - 3 ? panel.rows.slice(0, end) : panel.rows;
  const strips = round ? foldedStrips(rows, 1) : flatStrips(rows);
  const [first, last, wide] = [strips[0], strips.at(-1), widest(strips)];
  if (!first || !last || !wide) return undefined;
  const ends = { lower: ['cuffDepth', 'cuff'], upper: ['capDepth', 'upperArm', 'capTop'] };
  const fromTop = isWorkedFromTop(source, ends, round && first.right > last.right);
  const height = last.high;
  const bound = round ? undefined : capStart(strips);
  // A row or two above the bound-off stitches are no cap: the sleeve goes on in a yoke.
  const cap = bound !== undefined && height - bound > 0.5 ? bound : undefined;
  const cuff = fromTop ? last : first;
  const arm = bound ?? height;
  const [foot, upper] = fromTop ? [height, 0] : [0, arm];
  const edge = round ? symmetricEdge(strips) : outlineOfPanels([{ ...panel, rows }]);
  const armSide = fromTop ? 'below' : 'above';
  const upperArm =
    cap === undefined
      ? across('upperArm', { ...edges(wide), y: upper }, armSide)
      : across('upperArm', { ...edges(wide), y: arm - 0.5 }, 'inside');
  const capPlaces =
    cap === undefined
      ? []
      : [
          beside('capDepth', { low: arm, high: height }, 'right', edge),
          across('capTop', { ...edges(last), y: height }, 'above'),
        ];
  const draft: Draft = {
    edge,
    lines: [],
    bands: bandsOf(strips, source.ownGauge),
    places: given(source, [
      across('cuff', { ...edges(cuff), y: foot }, below(fromTop)),
      upperArm,
      beside('length', { low: 0, high: arm }, 'right', edge),
      ...rangePlace(source, 'cuffDepth', 'left', edge),
      ...capPlaces,
    ]),
  };
  return fromTop ? turnedOver(draft) : draft;
}

/** Where stitches are bound off at both edges and the piece never is as wide again. */
function capStart(strips: readonly Strip[]): number | undefined {
  const at = strips.findIndex((strip, index) => {
    const before = strips[index - 1];
    const next = strips[index + 1];
    if (!before || before.gauge !== strip.gauge) return false;
    const both = (to: Strip) =>
      before.right - to.right > to.stitch * 1.5 && to.left - before.left > to.stitch * 1.5;
    return both(strip) || (next !== undefined && both(next));
  });
  return at < 0 ? undefined : strips[at]?.low;
}
