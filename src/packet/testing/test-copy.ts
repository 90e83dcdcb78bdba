/**
 * A test copy: the edition of one size, marked on every page, with what the knitter is asked before it
 * and the report to fill in behind it. Takes an order for one size and the plan of its questions; gives a
 * document for the press in the knitter's language.
 */
import { sayGrams, sayNumber, plainText } from '../../language/index.ts';
import { sizedValue } from '../../pattern/bundle/sized-data.ts';
import { sizedOf } from '../../pattern/bundle/size-list.ts';
import { YARN_ALLOWANCE } from '../../pattern/grading/yarn.ts';
import type { Block, Document } from '../../press/document.ts';
import { withContents } from '../../press/edition/contents.ts';
import { buildEdition } from '../../press/edition/edition.ts';
import { readMarkup } from '../../press/edition/markup.ts';
import { dataOf, type EditionOrder, wordsOf } from '../../press/edition/order.ts';
import type { Templates } from '../../press/edition/templates.ts';
import { openProse } from '../../press/edition/view/prose.ts';
import { type CellView, type TableView, textCell } from '../../press/edition/view/table.ts';
import type { ReturnPlan, ReturnRow } from './plan.ts';
import { sayStated } from './return-sheet.ts';

export function buildTestCopy(
  order: EditionOrder,
  plan: ReturnPlan,
  templates: Templates,
): Document {
  const { document } = buildEdition(order, templates);
  const words = wordsOf(order);
  const view = viewOf(order, plan);
  const blocksOf = (template: string): readonly Block[] =>
    readMarkup(
      templates.write(template, view, (key) => words(key)),
      {
        figures: new Map(),
        drawings: new Map(),
      },
    );
  const [cover, ...rest] = document.blocks.filter(({ kind }) => kind !== 'contents');
  const all = [
    ...(cover ? [cover] : []),
    ...blocksOf('test-intro'),
    ...rest,
    ...blocksOf('test-report'),
  ];
  return {
    ...document,
    title: view.title,
    mark: `${words('stage.test')} ${view.title}`,
    blocks: withContents(all, words('heading.contents')),
  };
}

/** "Test knitting: Breakwater Hat, size M" */
export function testTitle(order: EditionOrder): string {
  const { id, sizes } = dataOf(order);
  const title = openProse(order).line('title') ?? id;
  return wordsOf(order)('test.title', { title, size: sizes[order.size ?? 0] ?? '' });
}

function viewOf(order: EditionOrder, plan: ReturnPlan) {
  const { studio } = dataOf(order);
  const words = wordsOf(order);
  const contact = studio.contact ?? studio.web;
  const amounts = yarnAmounts(order);
  return {
    title: testTitle(order),
    yarn: amounts === '' ? '' : words('test.yarnNeed', { amounts }),
    spare: words('test.spare', { percent: YARN_ALLOWANCE * 100 }),
    send: contact === undefined ? '' : words('test.send', { contact }),
    parts: partTables(order, plan),
  };
}

/** "Slate 60 g (2)": every colour with its weight in this size, and the balls. */
function yarnAmounts(order: EditionOrder): string {
  const size = order.size ?? 0;
  const { language } = order;
  const words = wordsOf(order);
  const said = dataOf(order).yarns.flatMap(({ name, colours }) =>
    colours.flatMap((colour) => {
      const [grams, balls] = [colour.grams, colour.balls].map((each) => sizedValue(each, size));
      if (typeof grams !== 'number' && typeof balls !== 'number') return [];
      const weight = typeof grams === 'number' ? plainText(sayGrams(language, sizedOf(grams))) : '';
      const count =
        typeof balls === 'number'
          ? `${words('label.balls')}: ${plainText(sayNumber(language, sizedOf(balls)))}`
          : '';
      const amount = [weight, count].filter((each) => each !== '').join(', ');
      return [`${name} ${colour.name} (${amount})`];
    }),
  );
  return said.join(language.settings.separators.list);
}

// ---------------------------------------------------------------- the report

/** One table for each heading; rows about the sheet itself stand without one, first and last. */
function partTables(order: EditionOrder, { rows }: ReturnPlan) {
  const general = wordsOf(order)('test.sheet');
  const groups: ReturnRow[][] = [];
  for (const row of rows) {
    const last = groups.at(-1);
    if (last?.[0]?.part === row.part) last.push(row);
    else groups.push([row]);
  }
  return groups.map((own, at) => {
    const id = `report-${at + 1}`;
    const title = own[0]?.part ?? '';
    return {
      id,
      title: title === general ? '' : title,
      table: tableOf(order, `${id}-table`, own),
    };
  });
}

/** High enough for a pen. */
const BLANK: CellView = { html: '\u00a0<br>\u00a0', header: false, span: undefined };
const ROOM: CellView = {
  html: '\u00a0<br>\u00a0<br>\u00a0<br>\u00a0',
  header: false,
  span: undefined,
};

function tableOf(order: EditionOrder, id: string, rows: readonly ReturnRow[]): TableView {
  const words = wordsOf(order);
  const { language } = order;
  const unitOf = ({ unit }: ReturnRow): string =>
    unit === 'in' || unit === 'cm' || unit === 'g' ? words(`unit.${unit}`) : '';
  const head = [
    words('test.what'),
    words('test.stated'),
    words('test.unit'),
    // Wide enough for a pen.
    words('test.measured') + '\u00a0'.repeat(24),
  ];
  return {
    id,
    caption: '',
    columns: head.map((_, column) => ({
      align: column === 1 ? 'end' : 'start',
      stretch: column === 3 ? 1 : 0,
    })),
    head: [head.map((text) => textCell(text, true))],
    rows: rows.map((row) => [
      textCell(row.isNeeded ? `${row.asks} *` : row.asks, true),
      textCell(sayStated(row, language)),
      textCell(unitOf(row)),
      row.key === 'unclear' || row.key === 'remark' ? ROOM : BLANK,
    ]),
  };
}
