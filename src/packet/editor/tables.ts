/**
 * Every number of a part in one table: a row across for each written line, then its numbers over the
 * sizes, what they come to, how far they are off, the check that holds them and room for a remark.
 */
import { escapeMarkup } from '../../base/escape.ts';
import { type CellView, type TableView, textCell } from '../../press/edition/view/table.ts';
import type { Derivation } from './derivations.ts';
import type { EditorEntry, EditorNumber } from './numbers.ts';
import type { EditorPacket } from './packet.ts';
import { type Say, sayer, sayOff } from './words.ts';

/** Kept wide enough for a pen, whatever the figures beside it take. */
const REMARK = `Remark${'\u00a0'.repeat(22)}`;

/** As many checks as a narrow column shows; the workbook names them all. */
const CHECKS_SHOWN = 3;

export interface PartView {
  readonly id: string;
  readonly title: string;
  readonly table: TableView;
}

/** Codes of all checks that hold a number, in the order of the legend. */
export const checksOf = ({ entries }: EditorPacket): readonly string[] =>
  [...new Set(entries.flatMap(({ numbers }) => numbers.flatMap(({ heldBy }) => heldBy)))].sort();

export function numberTables(packet: EditorPacket): readonly PartView[] {
  const parts = [...new Set(packet.entries.map(({ part }) => part))];
  return parts.map((title, at) => {
    const id = `part-${at + 1}`;
    const entries = packet.entries.filter(({ part }) => part === title);
    return { id, title, table: tableOf(packet, `${id}-numbers`, entries) };
  });
}

function tableOf(packet: EditorPacket, id: string, entries: readonly EditorEntry[]): TableView {
  const { sizes } = packet.order.checked.pattern;
  const head = ['No.', 'Number', ...sizes, 'Held by', REMARK];
  return {
    id,
    caption: '',
    columns: head.map((_, column) => ({
      align: column > 1 && column < head.length - 2 ? 'figures' : 'start',
      stretch: column === head.length - 1 ? 1 : 0,
    })),
    head: [head.map((text) => textCell(text, true))],
    rows: entries.flatMap((entry) => entryRows(packet, entry, head.length)),
  };
}

const small = (text: string): string => `<small>${escapeMarkup(text)}</small>`;

function entryRows(
  packet: EditorPacket,
  { place, text, numbers }: EditorEntry,
  columns: number,
): readonly (readonly CellView[])[] {
  const says = numbers.map(({ derivation }) => derivation?.says);
  return [
    ...(text === '' ? [] : [[lineCell(place, text, columns)]]),
    ...numbers.flatMap((number, at) => [
      numberRow(packet, number, text === '' ? place : number.what),
      ...derivationRows(packet, number.derivation, says[at] !== says[at - 1], columns),
    ]),
  ];
}

const lineCell = (place: string, text: string, columns: number): CellView => ({
  html: `${place === '' ? '' : `${escapeMarkup(place)}: `}<em>${escapeMarkup(text)}</em>`,
  header: true,
  span: columns,
});

function numberRow(
  packet: EditorPacket,
  { number, values, heldBy, holding }: EditorNumber,
  what: string,
): readonly CellView[] {
  const { order } = packet;
  const say = sayer(order.language);
  const { sizes } = order.checked.pattern;
  const cells: CellView[] =
    values.length === 1 && sizes.length > 1
      ? [{ html: `${escapeMarkup(say(values[0]))} ${small('in all sizes')}`, header: false, span: sizes.length }]
      : sizes.map((_, size) => textCell(say(values[size]))); // prettier-ignore
  return [
    textCell(String(number)),
    textCell(what),
    ...cells,
    { html: small(holderOf(packet, heldBy, holding)), header: false, span: undefined },
    textCell(''),
  ];
}

/** Checks by their numbers in the legend, the foremost first. */
function holderOf(
  packet: EditorPacket,
  heldBy: readonly string[],
  holding: EditorNumber['holding'],
): string {
  if (holding === 'unheld') return 'nothing';
  if (holding === 'free') return 'free';
  const codes = checksOf(packet);
  const numbers = heldBy.slice(0, CHECKS_SHOWN).map((code) => codes.indexOf(code) + 1);
  return numbers.join(', ') + (heldBy.length > CHECKS_SHOWN ? ', …' : '');
}

function derivationRows(
  { order }: EditorPacket,
  derivation: Derivation | undefined,
  isNew: boolean,
  columns: number,
): readonly (readonly CellView[])[] {
  if (!derivation) return [];
  const { says, worked, off } = derivation;
  const blank = textCell('');
  const saidRow: readonly CellView[] = [
    blank,
    { html: small(says), header: false, span: columns - 1 },
  ];
  const rows: (readonly CellView[])[] = isNew ? [saidRow] : [];
  if (worked) rows.push(valueRow(order, worked.name, worked.values, sayer(order.language)));
  const isOff = off?.values.some((value) => value !== null && Math.abs(value) >= 0.005) === true;
  if (off && isOff)
    rows.push(valueRow(order, `off by, ${off.unit}`, off.values, sayOff(order.language)));
  return rows;
}

/** A row in small type below its number: one value for all sizes, or one for each. */
function valueRow(
  { checked }: EditorPacket['order'],
  name: string,
  values: readonly (number | null)[],
  say: Say,
): readonly CellView[] {
  const { sizes } = checked.pattern;
  const cell = (text: string, span?: number): CellView => ({
    html: small(text),
    header: false,
    span,
  });
  const cells =
    values.length === 1 && sizes.length > 1
      ? [cell(say(values[0]), sizes.length)]
      : sizes.map((_, size) => cell(say(values[size])));
  return [textCell(''), cell(name), ...cells, textCell(''), textCell('')];
}
