/** The drawings of a pattern: charts with their rows in words beside them, and the schematics. */
import { present } from '../../base/assert.ts';
import { chartText, type Language } from '../../language/index.ts';
import { catalogueFor } from '../../pattern/stitches/index.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import { toSvg } from '../../press/drawing/index.ts';
import { type EditionOrder, namesOf } from '../../press/edition/order.ts';
import { chartViews, type Drawn, newDrawn } from '../../press/edition/view/drawings.ts';
import { schematicView } from '../../press/edition/view/schematics.ts';
import { type Answer, page } from '../answer.ts';
import { languageFor } from '../names.ts';
import type { Asked, Desk } from '../desk.ts';
import { frameOf } from './frame.ts';

export async function showDrawings(desk: Desk, { words, wording }: Asked): Promise<Answer> {
  const name = words['name'] ?? '';
  const looked = await desk.look(name);
  const { checked } = looked;
  const offered = looked.bundle?.data.languages;
  const language = languageFor(wording.language, await desk.languages(), offered);
  const drawn = checked ? drawingsOf(checked, language) : { charts: [], schematics: [] };
  const view = {
    ...frameOf(looked, name, 'drawings', wording.say),
    ...drawn,
    none: drawn.charts.length + drawn.schematics.length === 0,
    readable: checked !== undefined,
  };
  return page(wording.render('drawings', view));
}

function drawingsOf(checked: CheckedPattern, language: Language) {
  const order: EditionOrder = { checked, language, kind: 'standard', pictures: new Map() };
  const drawn = newDrawn();
  const { stitches } = checked.pattern.bundle.data;
  const catalogue = catalogueFor(stitches);
  const otherSide = (stitch: string) => catalogue.lookup(stitch)?.otherSide ?? stitch;
  const charts = chartViews(order, drawn).map(({ id, title, figures }) => {
    const chart = present(checked.pattern.charts.get(id), `chart ${id}`);
    const rows = chartText(language, chart, otherSide, namesOf(order));
    return { title, rows, figures: figures.map((each) => svgOf(each, drawn, language)) };
  });
  const schematics = schematicView(order, drawn).map((each) => svgOf(each, drawn, language));
  return { charts, schematics };
}

interface Figure {
  readonly id: string;
  readonly alt: string;
  readonly caption: string;
}

function svgOf({ id, alt, caption }: Figure, { figures }: Drawn, language: Language) {
  const content = figures.get(id);
  if (content?.kind !== 'drawing') return { svg: '', caption };
  const text = { title: caption || id, description: alt, language: language.tag, idPrefix: id };
  return { svg: toSvg(content.drawing, text), caption };
}
