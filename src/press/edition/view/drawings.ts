/**
 * Charts: drawings for the page and their words. The drawing room draws from the chart; the alternative
 * texts read it out row by row.
 */
import {
  chartText,
  decimal,
  sayChartName,
  sayYarn,
  stitchMeaning,
  plainText,
  type Spoken,
} from '../../../language/index.ts';
import type { Chart } from '../../../pattern/pattern.ts';
import { catalogueFor } from '../../../pattern/stitches/index.ts';
import type { FigureContent } from '../../document.ts';
import type { Drawing } from '../../drawing/drawing.ts';
import { type ChartOptions, chartKey, drawChart } from '../../drawing/index.ts';
import { type EditionOrder, dataOf, namesOf, wordsOf } from '../order.ts';
import { toMarkup } from '../spoken-markup.ts';
import type { FigureView } from './cover.ts';
import { type ChartRoom, chartRoom } from './rooms.ts';

/** Drawings by id, for the reader of the markup. */
export interface Drawn {
  readonly figures: Map<string, FigureContent>;
  readonly drawings: Map<string, Drawing>;
}

export const newDrawn = (): Drawn => ({ figures: new Map(), drawings: new Map() });

/** Rows and columns that the numbers round a chart take. */
const NUMBERS = 2.6;

/** Cells as large as the page allows, in the text column if they may be of a usual size there. */
function cellPoints({ columns, rows }: Chart, room: ChartRoom): number {
  const { smallest, usual, largest } = room.cells;
  const cellIn = (width: number): number => {
    const height = room.maxHeightPoints / (rows.length + NUMBERS);
    return Math.floor(Math.min(width / (columns + NUMBERS), height) * 2) / 2;
  };
  const inText = cellIn(room.textWidthPoints);
  if (inText >= smallest) return Math.min(inText, largest);
  const onPage = cellIn(room.maxWidthPoints);
  return onPage >= smallest ? Math.min(onPage, usual) : usual;
}

export type ChartView = ReturnType<typeof chartView>;

export function chartViews(order: EditionOrder, drawn: Drawn): readonly ChartView[] {
  const charts = [...order.checked.pattern.charts.values()];
  return charts.map((chart) => chartView(order, chart, drawn));
}

export const chartTarget = (id: string): string => `#chart-${id}-heading`;

function chartView(order: EditionOrder, chart: Chart, drawn: Drawn) {
  const words = wordsOf(order);
  const room = chartRoom(order.kind);
  const options = chartOptions(order, room, cellPoints(chart, room));
  const keyOptions = { ...options, cellPoints: Math.min(options.cellPoints, room.cells.key) };
  const { columns } = chart;
  const rows = chart.rows.length;
  const { id } = chart.data;
  const title = sayChartName(order.language, namesOf(order), chart.data.id, 'title');
  const read = chartText(order.language, chart, otherSideOf(order), namesOf(order)).join(' ');
  const figures = drawChart(chart, options).map((drawing, index) => {
    const name = `chart-${id}-${index + 1}`;
    drawn.figures.set(name, { kind: 'drawing', drawing });
    const alt =
      index === 0 ? words('chart.alternative', { chart: title, columns, rows, text: read }) : title;
    return { id: name, size: 'natural', alt, caption: '' } satisfies FigureView;
  });
  const key = chartKey(chart, keyOptions).map((entry, index) => {
    const name = `key-${id}-${index + 1}`;
    drawn.drawings.set(name, entry.drawing);
    const meaning = meaningOf(order, chart, entry);
    return { drawing: name, alt: plainText(meaning), meaning: toMarkup(meaning) };
  });
  const reading = words(chart.data.form === 'round' ? 'chart.readRound' : 'chart.readFlat');
  return { id, title, figures, key, reading };
}

function meaningOf(
  order: EditionOrder,
  chart: Chart,
  entry: { readonly stitch: string; readonly colour?: string },
): Spoken {
  const { language } = order;
  const flat = chart.data.form === 'flat';
  const stitch = stitchMeaning(language, entry.stitch, flat, otherSideOf(order));
  if (entry.colour === undefined) return stitch;
  const colour = plainText(sayYarn(language, namesOf(order), entry.colour));
  return [...stitch, { text: `, ${colour}`, role: 'plain' }];
}

function chartOptions(order: EditionOrder, room: ChartRoom, cell: number): ChartOptions {
  const data = dataOf(order);
  const catalogue = catalogueFor(data.stitches);
  const colours = data.yarns.flatMap((yarn) =>
    yarn.colours.map((each) => [each.id, each] as const),
  );
  return {
    maxWidthPoints: room.maxWidthPoints,
    maxHeightPoints: room.maxHeightPoints,
    ...(room.numberPoints !== undefined && { numberPoints: room.numberPoints }),
    cellPoints: cell,
    stitchOf: (name) => catalogue.lookup(name),
    colours: new Map(colours),
    numberText: (value) => decimal(order.language, value),
    partText: (part, parts) => `${part} / ${parts}`,
  };
}

function otherSideOf(order: EditionOrder): (stitch: string) => string {
  const catalogue = catalogueFor(dataOf(order).stitches);
  return (stitch) => catalogue.lookup(stitch)?.otherSide ?? stitch;
}
