/**
 * Schematics: one drawing for each piece, to one scale, and one with all sizes nested. A piece is drawn
 * from its worked rows wherever they tell its outline, else from its measurements. The alternative text
 * says every measurement in words, with its letter and in both units.
 */
import { plainText, sayLength } from '../../../language/index.ts';
import type { MeasurementData } from '../../../pattern/bundle/schema.ts';
import { valueFor } from '../../../pattern/bundle/size-list.ts';
import { outlineFromRows, type SchematicEntry } from '../../../pattern/outlines/index.ts';
import {
  commonScale,
  drawNested,
  drawnOutline,
  drawSchematic,
  type SchematicInput,
  toOneWidth,
} from '../../drawing/index.ts';
import {
  asHeading,
  type EditionOrder,
  dataOf,
  lengthFrom,
  shownSizes,
  sizeNameOf,
  wordsOf,
} from '../order.ts';
import { type FigureView, nameOf } from './cover.ts';
import type { Drawn } from './drawings.ts';
import { bothInches } from './lengths.ts';
import { schematicRoom } from './rooms.ts';

interface Role {
  readonly role: string;
  readonly measurement: MeasurementData;
}

/** Each piece in the size that is shown, or the one in the middle of the range, and in all sizes. */
export function schematicView(order: EditionOrder, drawn: Drawn): readonly FigureView[] {
  const { schematic } = dataOf(order);
  const sizes = shownSizes(order);
  const size = sizes[Math.floor((sizes.length - 1) / 2)] ?? 0;
  const inputs = schematic.map((entry) => inputOf(order, entry, size));
  const room = schematicRoom(order.kind);
  const pointsPerInch = commonScale(inputs, room);
  const drawings = toOneWidth(
    inputs.map((input) => drawSchematic(input, { ...room, pointsPerInch })),
  );
  const nested = nestedViews(order, drawn, sizes);
  return schematic.flatMap((entry, at): FigureView[] => {
    const id = `schematic-${at + 1}`;
    const drawing = drawings[at];
    if (!drawing) return [];
    drawn.figures.set(id, { kind: 'drawing', drawing });
    const title = titleOf(order, entry);
    const caption = sizes.length > 1 ? `${title} · ${sizeNameOf(order, size)}` : title;
    const alt = altText(order, entry, caption, size);
    const allSizes = nested.get(entry);
    // The piece in one size and in all of them stand side by side.
    return [{ id, size: room.size, alt, caption }, ...(allSizes ? [allSizes] : [])];
  });
}

const titleOf = (order: EditionOrder, { title }: SchematicEntry): string =>
  asHeading(order, nameOf(order, 'word', title));

function rolesOf(order: EditionOrder, entry: SchematicEntry): readonly Role[] {
  const { measurements } = dataOf(order);
  return Object.entries(entry.measurements).flatMap(([role, id]) => {
    const measurement = measurements.find((each) => each.id === id);
    return measurement ? [{ role, measurement }] : [];
  });
}

function inputOf(order: EditionOrder, entry: SchematicEntry, size: number): SchematicInput {
  const roles = rolesOf(order, entry);
  const inches = ({ measurement }: Role) =>
    valueFor(bothInches(lengthFrom(order, measurement.size)), size) ?? 0;
  const outline = outlineFromRows(order.checked, entry, size);
  // Every letter must be found on the drawing: where the rows leave one without a place, the
  // measurements draw the piece.
  const isWhole = roles.every(({ role }) => outline?.places.some((place) => place.role === role));
  return {
    outline: entry.outline,
    lengths: Object.fromEntries(roles.map((each) => [each.role, inches(each)])),
    letters: Object.fromEntries(roles.map(({ role, measurement }) => [role, measurement.letter])),
    ...(outline && isWhole && { drawn: drawnOutline(outline) }),
  };
}

/** `A, bust, 38 in / 96.5 cm; B, …`: in one size, or in all of them. */
function altText(
  order: EditionOrder,
  entry: SchematicEntry,
  piece: string,
  size: number | undefined,
): string {
  const words = wordsOf(order);
  const measurements = rolesOf(order, entry)
    .map(({ measurement: { letter, name, size: length } }) =>
      words('schematic.measurement', {
        letter,
        name: nameOf(order, 'measurement', name),
        size: plainText(sayLength(order.language, lengthFrom(order, length), size)),
      }),
    )
    .join('; ');
  return words('schematic.alternative', { piece, measurements });
}

// ---------------------------------------------------------------- all sizes

function nestedViews(
  order: EditionOrder,
  drawn: Drawn,
  sizes: readonly number[],
): ReadonlyMap<SchematicEntry, FigureView> {
  if (sizes.length < 2) return new Map();
  const room = schematicRoom(order.kind);
  const nested = dataOf(order).schematic.flatMap((entry) => {
    const outlines = sizes.flatMap((size) => {
      const outline = outlineFromRows(order.checked, entry, size);
      return outline ? [{ name: sizeNameOf(order, size), edge: outline.edge }] : [];
    });
    return outlines.length < sizes.length ? [] : [{ entry, drawing: drawNested(outlines, room) }];
  });
  const drawings = toOneWidth(nested.map(({ drawing }) => drawing));
  const views = new Map<SchematicEntry, FigureView>();
  nested.forEach(({ entry }, at) => {
    const drawing = drawings[at];
    if (!drawing) return;
    const id = `sizes-${at + 1}`;
    drawn.figures.set(id, { kind: 'drawing', drawing });
    const caption = `${titleOf(order, entry)} · ${wordsOf(order)('errata.allSizes')}`;
    const alt = altText(order, entry, caption, undefined);
    views.set(entry, { id, size: room.size, alt, caption });
  });
  return views;
}
