/**
 * The technical editor's packet as a document for the press: the numbers that nothing holds first, then
 * findings, changes, grade curves and every number with how it follows and room for a remark. A working
 * paper in English with the figures of the pattern's own language.
 */
import { escapeMarkup } from '../../base/escape.ts';
import type { Document, FigureContent } from '../../press/document.ts';
import { drawPlot } from '../../press/drawing/index.ts';
import { readMarkup } from '../../press/edition/markup.ts';
import type { Templates } from '../../press/edition/templates.ts';
import { titleOf } from '../../press/edition/view/cover.ts';
import { openProse } from '../../press/edition/view/prose.ts';
import { sayDate } from '../../language/index.ts';
import { checksOf, numberTables } from './tables.ts';
import { blankRows, textTable } from './plain-tables.ts';
import type { EditorPacket } from './packet.ts';
import { aboutCode, headlineOf, placeOfFinding, sayChange, sayer, sayValues } from './words.ts';

export function editorDocument(packet: EditorPacket, templates: Templates): Document {
  const { checked, language } = packet.order;
  const { data } = checked.pattern.bundle;
  const title = titleOf(packet.edition, openProse(packet.edition));
  const name = `Technical edit · ${title}`;
  const figures = new Map<string, FigureContent>();
  const view = { ...viewOf(packet, figures), name };
  const markup = templates.write('editor', view, (key) => key);
  return {
    title: name,
    author: data.studio.designer,
    subject: `Version ${data.version}`,
    keywords: [],
    language: 'en',
    direction: 'ltr',
    paper: language.settings.paper,
    issued: data.issued,
    edition: 'ink-saving',
    footer: {
      start: `${data.studio.name} · ${name} · version ${data.version} · ${packet.record.bundle.slice(0, 8)}`,
      end: 'Page {page} of {pages}',
    },
    blocks: readMarkup(markup, { figures, drawings: new Map() }),
  };
}

function viewOf(packet: EditorPacket, figures: Map<string, FigureContent>) {
  const { checked, language } = packet.order;
  const { data } = checked.pattern.bundle;
  return {
    about: `Version ${data.version}, ${sayDate(language, data.issued)} · sizes ${data.sizes.join(', ')} · ${data.studio.designer}, ${data.studio.name}`,
    summary: summaryOf(packet),
    unheld: unheldTable(packet),
    open: findingTable('open', packet.open, ['', 'What does not follow', 'Where']),
    accepted: acceptedTable(packet),
    isFirst: packet.changes === undefined,
    changes: changeTable(packet),
    curves: curveFigures(packet, figures),
    parts: numberTables(packet),
    free: freeTable(packet),
    checks: checkTable(packet),
    cautions: packet.cautions.map(({ text, source }) => `${text} (${source})`),
    sign: blankRows('sign', ['Edited by', 'Date', 'Signature', 'Remarks on the whole']),
  };
}

function summaryOf({ tally, open, accepted, entries }: EditorPacket): readonly string[] {
  const { total, held, free } = tally;
  const loose = total - held - free;
  const lists = entries.reduce((sum, { numbers }) => sum + numbers.length, 0);
  return [
    `${total} numbers in ${lists} places: ${held} are held by a check, which would tell if one of them were different; ${free} come from outside the pattern or change no count; ${loose === 0 ? 'none is left that nothing holds' : `${loose} are held by nothing and need an eye`}.`,
    `Findings that are open: ${open.length}. Warnings that were accepted with a reason: ${accepted.length}.`,
  ];
}

// ---------------------------------------------------------------- what needs an eye

function unheldTable({ entries, order }: EditorPacket) {
  const say = sayer(order.language);
  const rows = entries.flatMap(({ part, place, numbers }) =>
    numbers
      .filter(({ holding }) => holding === 'unheld')
      .map((each) => [
        String(each.number),
        [part, place, each.what].filter((text) => text !== '').join(', '),
        sayValues(each.values, say) + (each.sizes.length > 0 ? `; in ${each.sizes.join(', ')}` : ''),
        each.missed.join(', '),
        '',
      ]),
  ); // prettier-ignore
  const head = ['No.', 'Number', 'Value', 'Would go unnoticed', 'Remark'];
  return rows.length === 0 ? [] : [textTable('unheld', head, rows)];
}

function freeTable({ entries, order }: EditorPacket) {
  const say = sayer(order.language);
  const rows = entries.flatMap(({ part, place, numbers }) =>
    numbers
      .filter(({ holding }) => holding === 'free')
      .map((each) => [
        String(each.number),
        [part, place, each.what].filter((text) => text !== '').join(', '),
        sayValues(each.values, say),
        each.reason ?? '',
        '',
      ]),
  );
  const head = ['No.', 'Number', 'Value', 'Why no check can hold it', 'Remark'];
  return rows.length === 0 ? [] : [textTable('free', head, rows)];
}

function findingTable(id: string, findings: EditorPacket['open'], head: readonly string[]) {
  const rows = findings.map((each) => [each.severity, headlineOf(each), placeOfFinding(each)]);
  return rows.length === 0 ? [] : [textTable(id, head, rows)];
}

function acceptedTable({ accepted }: EditorPacket) {
  const rows = accepted.map((each) => [
    `${headlineOf(each)} (${each.code})`,
    placeOfFinding(each),
    each.accepted ?? '',
    '',
  ]);
  const head = ['Warning', 'Where', 'Accepted because', 'Remark'];
  return rows.length === 0 ? [] : [textTable('accepted', head, rows)];
}

function changeTable({ changes, order }: EditorPacket) {
  const say = sayer(order.language);
  const rows = (changes ?? []).map((change) => {
    const { kind, place, was, is, sizes } = sayChange(change, say);
    return [kind, sizes === '' ? place : `${place} (${sizes})`, was, is];
  });
  const head = ['', 'Where', 'Was', 'Is'];
  return rows.length === 0 ? [] : [textTable('changes', head, rows)];
}

/** The checks by the numbers that the tables name them by. */
function checkTable(packet: EditorPacket) {
  const rows = checksOf(packet).map((code, at) => [String(at + 1), code, aboutCode(code)]);
  return rows.length === 0 ? [] : [textTable('checks', ['', 'Check', 'What it looks for'], rows)];
}

// ---------------------------------------------------------------- grade curves

const PLOT = { widthPoints: 246, heightPoints: 150 };

function curveFigures({ curves, order }: EditorPacket, figures: Map<string, FigureContent>) {
  const { sizes } = order.checked.pattern;
  const say = sayer(order.language);
  return curves.map(({ id, letter, name, unit, stated, body }) => {
    const series = [
      ...(body ? [{ name: `body: ${body.part}`, values: body.values, look: 'dashed', isLabelled: false } as const] : []),
      { name: 'finished', values: stated, look: 'solid', isLabelled: true } as const,
    ]; // prettier-ignore
    const drawing = drawPlot({ sizes, unit, series, numberText: say, ...PLOT });
    const figure = `curve-${id}`;
    figures.set(figure, { kind: 'drawing', drawing });
    const told = (values: readonly (number | null)[]) =>
      sizes.map((size, at) => `${size} ${say(values[at])}`).join(', ');
    const under = body ? `; body ${body.part}: ${told(body.values)}` : '';
    return {
      id: figure,
      size: 'half',
      alt: `${letter}, ${name}, in ${unit}: ${told(stated)}${under}`,
      caption: escapeMarkup(`${letter}  ${name}`),
    };
  });
}
