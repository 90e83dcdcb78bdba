/**
 * The technical editor's packet as sheets: every number with what holds it, the grade, warnings, changes.
 * Takes the gathered packet, gives plain sheets; numbers stay numbers, and two columns are left to the
 * editor.
 */
import type { Cell, Column, Sheet } from '../sheets/sheet.ts';
import type { EditorEntry, EditorNumber } from './numbers.ts';
import type { EditorPacket } from './packet.ts';
import { aboutCode, headlineOf, placeOfFinding, sayChange } from './words.ts';

export function editorSheets(packet: EditorPacket): readonly Sheet[] {
  return [numbersSheet(packet), gradeSheet(packet), warningsSheet(packet), changesSheet(packet)];
}

const sizeColumns = ({ order }: EditorPacket, format: string): readonly Column[] =>
  order.checked.pattern.sizes.map((size) => ({ head: size, width: 9, format }));

const OFF = '+0.00;-0.00;0';

// ---------------------------------------------------------------- numbers

/** Numbers that nothing holds stand first, and the filter finds all others. */
function numbersSheet(packet: EditorPacket): Sheet {
  const rows = packet.entries.flatMap((entry) =>
    entry.numbers.map((number) => ({ number, row: numberRow(packet, entry, number) })),
  );
  const rank = { unheld: 0, held: 1, free: 1 } as const;
  return {
    name: 'Numbers',
    frozen: 4,
    columns: [
      { head: 'No.', width: 7 },
      { head: 'Part', width: 22 },
      { head: 'Place', width: 26 },
      { head: 'Number', width: 28 },
      ...sizeColumns(packet, '0.##'),
      { head: 'Largest deviation', width: 11, format: OFF },
      { head: 'Unit of deviation', width: 9 },
      { head: 'Holding', width: 16 },
      { head: 'Held by', width: 34 },
      { head: 'How it follows', width: 46 },
      { head: 'Would go unnoticed, or why', width: 34 },
      { head: 'Line', width: 60 },
      { head: 'Checked by', width: 14, toFill: true },
      { head: 'Remark', width: 40, toFill: true },
    ],
    rows: rows
      .sort((a, b) => rank[a.number.holding] - rank[b.number.holding])
      .map(({ row }) => row),
  };
}

const HOLDING_SAID = { held: 'held', free: 'free by nature', unheld: 'nothing holds it' } as const;

function numberRow(
  { order }: EditorPacket,
  { part, place, text }: EditorEntry,
  { number, what, values, holding, heldBy, missed, reason, derivation }: EditorNumber,
): readonly Cell[] {
  const { sizes } = order.checked.pattern;
  const off = derivation?.off;
  return [
    number,
    part,
    place,
    what,
    ...sizes.map((_, size) => (values.length === 1 ? values[0] : values[size]) ?? null),
    off ? farthest(off.values) : null,
    off?.unit ?? null,
    HOLDING_SAID[holding],
    heldBy.join(', '),
    derivation?.says ?? null,
    reason ?? missed.join(', '),
    text === '' ? null : text,
    null,
    null,
  ];
}

/** The deviation farthest from nothing, to the hundredth. */
function farthest(values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null);
  if (known.length === 0) return null;
  const most = known.reduce((far, value) => (Math.abs(value) > Math.abs(far) ? value : far), 0);
  return Math.round(most * 100) / 100;
}

// ---------------------------------------------------------------- grade

function gradeSheet(packet: EditorPacket): Sheet {
  return {
    name: 'Grade',
    frozen: 3,
    columns: [
      { head: 'Measurement', width: 28 },
      { head: 'What', width: 16 },
      { head: 'Unit', width: 7 },
      ...sizeColumns(packet, '0.00'),
    ],
    rows: packet.curves.flatMap(({ letter, name, unit, stated, exact, body }) => {
      const row = (what: string, values: readonly (number | null)[]): readonly Cell[] => [
        `${letter} ${name}`, what, unit, ...values,
      ]; // prettier-ignore
      const off = exact.map((value, at) => less(stated[at], value));
      const grown = stated.map((value, at) => (at === 0 ? null : less(value, stated[at - 1])));
      return [
        row('stated', stated),
        row('by the counts', exact.map(toThousandth)),
        row('off by', off.map(toThousandth)),
        row('step from the size before', grown),
        ...(body ? [row(`body: ${body.part}`, body.values)] : []),
        ...(body
          ? [
              row(
                'ease',
                stated.map((value, at) => less(value, body.values[at])),
              ),
            ]
          : []),
      ];
    }),
  };
}

const less = (one: number | null | undefined, other: number | null | undefined): number | null =>
  typeof one === 'number' && typeof other === 'number' ? one - other : null;

const toThousandth = (value: number | null): number | null =>
  value === null ? null : Math.round(value * 1000) / 1000;

// ---------------------------------------------------------------- warnings and changes

function warningsSheet({ open, accepted }: EditorPacket): Sheet {
  return {
    name: 'Warnings',
    frozen: 0,
    columns: [
      { head: 'State', width: 12 },
      { head: 'Kind', width: 10 },
      { head: 'Code', width: 24 },
      { head: 'What the check looks for', width: 44 },
      { head: 'What was found', width: 60 },
      { head: 'Where', width: 44 },
      { head: 'Sizes', width: 18 },
      { head: 'Accepted because', width: 50 },
      { head: 'Remark', width: 40, toFill: true },
    ],
    rows: [...open, ...accepted].map((each) => [
      each.accepted === undefined ? 'open' : 'accepted',
      each.severity,
      each.code,
      aboutCode(each.code),
      headlineOf(each),
      placeOfFinding(each),
      each.sizes.join(', '),
      each.accepted ?? null,
      null,
    ]),
  };
}

function changesSheet({ changes }: EditorPacket): Sheet {
  const say = (value: number | null | undefined) => (value ?? '–').toString();
  return {
    name: 'Changes',
    frozen: 0,
    columns: [
      { head: 'Change', width: 18 },
      { head: 'Where', width: 50 },
      { head: 'Sizes', width: 20 },
      { head: 'Was', width: 50 },
      { head: 'Is', width: 50 },
    ],
    rows:
      changes === undefined
        ? [['no earlier packet', null, null, null, null]]
        : changes.map((change) => {
            const { kind, place, sizes, was, is } = sayChange(change, say);
            return [kind, place, sizes, was, is];
          }),
  };
}
