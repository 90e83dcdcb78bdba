/**
 * One edition of a checked pattern in one language: the semantic document. Takes the pattern, the
 * language, the pictures and the templates; gives blocks without geometry. The views gather, the
 * templates arrange, `markup.ts` reads the result; a template never sees a stitch.
 */
import { sayGauge } from '../../language/index.ts';
import type { Document, FigureContent, Paper } from '../document.ts';
import { withContents } from './contents.ts';
import { readMarkup } from './markup.ts';
import { type EditionOrder, dataOf, namesOf, wordsOf } from './order.ts';
import { toMarkup } from './spoken-markup.ts';
import type { Templates } from './templates.ts';
import { closingView, versionLine } from './view/closing.ts';
import { coverView, pictureViews, titleOf } from './view/cover.ts';
import { chartViews, type Drawn, newDrawn } from './view/drawings.ts';
import { schematicView } from './view/schematics.ts';
import { instructionsView, sayOrder, termsView } from './view/instructions.ts';
import { materialsView } from './view/materials.ts';
import { openProse } from './view/prose.ts';
import { sizesView } from './view/sizes.ts';

export interface BuiltEdition {
  readonly document: Document;
  /** The markup the document was read from: the accessible page is made of it. */
  readonly markup: string;
}

export function buildEdition(
  order: EditionOrder,
  templates: Templates,
  paper?: Paper,
): BuiltEdition {
  const drawn = newDrawn();
  const view = viewOf(order, drawn);
  const words = wordsOf(order);
  const markup = templates.write('pattern', view, (key) => words(key));
  if (order.logo) drawn.drawings.set('logo', order.logo);
  for (const [file, picture] of order.pictures)
    drawn.figures.set(`photo-${file}`, { kind: 'picture', ...pictureContent(picture) });
  const blocks = withContents(readMarkup(markup, drawn), words('heading.contents'));
  const data = dataOf(order);
  const prose = openProse(order);
  const { settings } = order.language;
  const document: Document = {
    title: view.title,
    author: data.studio.designer,
    subject: prose.line('summary') ?? '',
    keywords: prose.all('listing.tags'),
    language: order.language.tag,
    direction: settings.direction,
    paper: paper ?? settings.paper,
    issued: data.issued,
    edition: order.kind,
    ...(order.colours && { colours: order.colours }),
    footer: {
      start: footOf(order, titleOf(order, prose)),
      end: words('document.page', { page: '{page}', pages: '{pages}' }),
    },
    blocks,
  };
  return { document, markup };
}

/** Who, what and which version; in large print what fits on one line. */
function footOf(order: EditionOrder, title: string): string {
  const { studio, version } = dataOf(order);
  if (order.kind === 'large') return `${title} · ${version}`;
  return `${studio.name} · ${title} · ${versionLine(order)}`;
}

function viewOf(order: EditionOrder, drawn: Drawn) {
  const prose = openProse(order);
  const said = sayOrder(order);
  const names = namesOf(order);
  return {
    ...coverView(order, prose),
    sizes: sizesView(order),
    ...materialsView(order),
    gauges: dataOf(order).gauges.map((gauge) => toMarkup(sayGauge(order.language, names, gauge))),
    notes: prose.all('notes'),
    details: pictureViews(order, prose, ['detail', 'back', 'flat', 'step']),
    ...termsView(order, prose, said),
    schematic: schematicView(order, drawn),
    ...instructionsView(order, prose, said, chartViews(order, drawn)),
    ...closingView(order, prose),
  };
}

const pictureContent = ({
  hash,
  widthPixels,
  heightPixels,
}: Omit<Extract<FigureContent, { kind: 'picture' }>, 'kind'>) => ({
  hash,
  widthPixels,
  heightPixels,
});
