/** How the kinds of blocks stand on the page, reckoned in points with letters of half an em. */
import { describe, expect, it } from 'vitest';
import type { Block, TableCell } from '../../src/press/document.ts';
import type { Laid } from '../../src/press/layout/frames.ts';
import { layOut } from '../../src/press/layout/lay-out.ts';
import { pageStyle } from '../../src/press/layout/style.ts';
import { documentOf, heading, instruction, paragraph, text } from './documents.ts';
import { plainFonts } from './plain-fonts.ts';
import { type RunMark, runsOf } from './reading.ts';

const style = pageStyle('standard');
const A4_WIDTH = 595.28;
const textStart = style.margins.start + style.side.width + style.side.gutter;
const textEnd = A4_WIDTH - style.margins.end;

const lay = (blocks: readonly Block[], more = {}): Laid =>
  layOut(documentOf(blocks, more), pageStyle('standard'), plainFonts);

/** The first run with this text, spaces at its end aside. */
function run(laid: Laid, content: string): RunMark {
  const found = runsOf(laid).find(({ mark }) => mark.run.text.trim() === content);
  if (found === undefined) throw new Error(`no run says “${content}”`);
  return found.mark;
}

const widthOf = ({ run, sizePoints }: RunMark): number => (run.width * sizePoints) / 1000;

describe('a row of instructions', () => {
  const laid = lay([
    instruction('Row 1', 'Knit to end.', '80 (88) sts'),
    instruction('Row 2', 'Purl all stitches of the row, and slip the last one as if to purl with the yarn in front of the work.', ''),
  ]); // prettier-ignore

  it('hangs its label in the side column', () => {
    expect(run(laid, 'Row 1').x).toBe(style.margins.start);
    expect(run(laid, 'Knit to end.').x).toBe(textStart);
  });

  it('sets the count at the end of the same line', () => {
    const count = run(laid, '80 (88) sts');
    expect(count.y).toBeCloseTo(run(laid, 'Knit to end.').y, 6);
    expect(count.x + widthOf(count)).toBeCloseTo(textEnd, 2);
  });

  it('is an item of one list with its neighbours, label first', () => {
    const lists = laid.tags.filter(({ role }) => role === 'L');
    expect(lists.map(({ children }) => children.length)).toEqual([2]);
    const [item] = lists[0]!.children;
    const parts = laid.tags[item!]!.children.map((child) => laid.tags[child]!.role);
    expect(parts).toEqual(['Lbl', 'LBody']);
  });

  it('divides a label only where a word is longer than the side column', () => {
    const long = 'Undirbúningsumferð:';
    const divided = lay([instruction(long, 'Prjónið.')], { language: 'is' });
    const whole = lay([instruction('Úrtökuumferð:', 'Prjónið.')], { language: 'is' });
    expect([divided.trouble, whole.trouble]).toEqual([[], []]);
    expect(runsOf(divided).some(({ mark }) => mark.run.text.trim() === long)).toBe(false);
    expect(run(whole, 'Úrtökuumferð:').x).toBe(style.margins.start);
  });

  it.each([
    ['Next round (wrong side):', 'Next round', '(wrong side):', 'en'],
    ['增し目の段（裏側）：', '增し目の段', '（裏側）：', 'ja'],
    ['השורה הבאה (צד שמאל):', 'השורה הבאה', '(צד שמאל):', 'he'],
  ])('divides %s before its side, not in it', (label, first, second, language) => {
    const direction = language === 'he' ? 'rtl' : 'ltr';
    const laid = lay([instruction(label, '1')], { language, direction });
    const lines = new Map<number, string>();
    for (const { mark } of runsOf(laid)) {
      if (mark.tag !== 'artifact' && mark.run.text !== '1') {
        lines.set(mark.y, (lines.get(mark.y) ?? '') + mark.run.text);
      }
    }
    const ink = (content: string): string =>
      content.replaceAll(/\s/gu, '').split('').sort().join('');
    expect([...lines.values()].map(ink)).toEqual([ink(first), ink(second)]);
  });

  it('gives a long count lines of its own', () => {
    const sizes = Array.from({ length: 12 }, (_, size) => 100 + 10 * size).join(', ');
    const long = lay([instruction('Row 1', 'Knit to end.', `90 (${sizes}) sts`)]);
    const lines = runsOf(long).filter(({ mark }) => mark.tag !== 'artifact');
    const content = run(long, 'Knit to end.');
    const counts = lines.filter(({ mark }) => mark.y > content.y);
    expect(counts.length).toBeGreaterThan(0);
    const last = counts.at(-1)!.mark;
    expect(last.x + widthOf(last)).toBeCloseTo(textEnd, 1);
  });

  it('runs the label into the line in large print', () => {
    const large = layOut(
      documentOf([instruction('Row 1', 'Knit to end.')], { edition: 'large' }),
      pageStyle('large'),
      plainFonts,
    );
    expect(run(large, 'Knit to end.').y).toBeCloseTo(run(large, 'Row 1').y, 6);
    expect(run(large, 'Knit to end.').x).toBeGreaterThan(run(large, 'Row 1').x);
  });
});

describe('headings', () => {
  it('never stand at the foot of a page', () => {
    for (let lines = 20; lines < 60; lines++) {
      const before = Array.from({ length: lines }, () => paragraph('A line.'));
      const laid = lay([...before, heading('Crown'), paragraph('one two '.repeat(60))]);
      const [title] = runsOf(laid).filter(({ mark }) => mark.run.text === 'Crown');
      const below = runsOf(laid).filter(
        ({ mark, page }) =>
          page === title!.page && mark.y > title!.mark.y && mark.tag !== 'artifact',
      );
      expect(below.length).toBeGreaterThanOrEqual(2);
    }
  });

  it('keep a word of katakana whole, where a line could be filled with half of it', () => {
    const laid = lay([heading('小さなにわか雨のとびきりのカーディガン', 1)], { language: 'ja' });
    const lines = runsOf(laid).filter(({ mark }) => mark.tag !== 'artifact');
    const halves = new Map<number, string>();
    for (const { mark } of lines) {
      halves.set(mark.y, (halves.get(mark.y) ?? '') + mark.run.text);
    }
    expect([...halves.values()]).toEqual(['小さなにわか雨のとびきりの', 'カーディガン']);
  });

  it('are bookmarks and places to go', () => {
    const laid = lay([heading('Skerry', 1, 'top'), paragraph('…'), heading('Brim', 2, 'brim')]);
    expect(laid.outline.map(({ title, level, page }) => [title, level, page])).toEqual([
      ['Skerry', 1, 0],
      ['Brim', 2, 0],
    ]);
    expect([...laid.destinations.keys()]).toEqual(['top', 'brim']);
  });
});

describe('sections', () => {
  it('end where pages end, if that costs little white', () => {
    const lengths = [28, 4, 8];
    const laid = lay(
      lengths.map((lines, at) => ({
        kind: 'section', id: `s${at}`, start: 'flow',
        children: Array.from({ length: lines }, () => paragraph(`Section ${at}`)),
      })),
    ); // prettier-ignore
    const pages = lengths.map((_, at) =>
      runsOf(laid).flatMap(({ mark, page }) => (mark.run.text === `Section ${at}` ? [page] : [])),
    );
    expect(pages.map((own) => [...new Set(own)])).toEqual([[0], [1], [1]]);
  });

  it('of two blocks are no left-over lines of the section before', () => {
    const content = { kind: 'picture', hash: 'a', widthPixels: 1200, heightPixels: 840 } as const;
    const figure: Block = { kind: 'figure', id: 'f', size: 'full', content, alternative: 'A hat.', caption: [] }; // prettier-ignore
    const section = (id: string, start: 'flow' | 'page', children: Block[]): Block =>
      ({ kind: 'section', id, start, children: [heading(id), ...children] }); // prettier-ignore
    const lines = Array.from({ length: 14 }, () => paragraph('A line.'));
    const laid = lay([
      section('Sizes', 'flow', [...lines, tableOf(4, 6)]),
      section('Schematic', 'flow', [figure]),
      section('Rows', 'page', [...lines, ...lines]),
    ]);
    const page = (content: string): number =>
      runsOf(laid).find(({ mark }) => mark.run.text === content)!.page;
    expect(['H0', 'Schematic', 'Rows'].map(page)).toEqual([0, 1, 2]);
  });
});

describe('lists', () => {
  it('of a few items stay on one page', () => {
    for (let lines = 16; lines < 34; lines++) {
      const before = Array.from({ length: lines }, () => paragraph('A line.'));
      const items = ['one', 'two', 'three', 'four'].map((item) => [paragraph(item)]);
      const after = Array.from({ length: 20 }, () => paragraph('A line.'));
      const laid = lay([...before, { kind: 'list', ordered: false, items }, ...after]);
      const pages = runsOf(laid).filter(({ mark }) => /^(?:one|two|three|four)$/u.test(mark.run.text)); // prettier-ignore
      expect(new Set(pages.map(({ page }) => page)).size).toBe(1);
    }
  });
});

describe('the last page', () => {
  it('holds more than a few lines', () => {
    for (let lines = 60; lines < 90; lines++) {
      const laid = lay(Array.from({ length: lines }, () => paragraph('A line.')));
      const own = runsOf(laid).filter(({ mark }) => mark.run.text === 'A line.');
      const last = own.filter(({ page }) => page === laid.pages.length - 1);
      expect(last.length).toBeGreaterThan(5);
    }
  });
});

describe('paragraphs', () => {
  it('leave no single line on either page', () => {
    for (let lines = 30; lines < 46; lines++) {
      const before = Array.from({ length: lines }, () => paragraph('A line.'));
      const laid = lay([...before, paragraph('one two three four five '.repeat(20))]);
      const own = runsOf(laid).filter(({ mark }) => mark.run.text.includes('three'));
      const perPage = laid.pages.map((_, page) => own.filter((each) => each.page === page).length);
      expect(perPage.filter((count) => count === 1)).toEqual([]);
    }
  });

  it('keep the space at the end of a line, so that words are found apart', () => {
    const laid = lay([paragraph('one two three four five '.repeat(20))]);
    const words = runsOf(laid)
      .filter(({ mark }) => mark.tag !== 'artifact')
      .map(({ mark }) => mark.run.text);
    expect(words.length).toBeGreaterThan(2);
    expect(words.join('')).toBe('one two three four five '.repeat(20).trim());
  });

  it('end a broken word with a hyphen that is read as a soft one', () => {
    const laid = lay([paragraph('Donaudampfschifffahrt'.repeat(12))], { language: 'de' });
    const ends = runsOf(laid).filter(({ mark }) => mark.run.text.endsWith('\u00ad'));
    expect(ends.length).toBeGreaterThan(2);
    for (const { mark } of ends) expect(mark.run.glyphs.at(-1)?.id).toBe('-'.codePointAt(0));
  });

  it('give each language and link a tag of its own', () => {
    const laid = lay([
      { kind: 'paragraph', role: 'body', content: [
        text('See '),
        { kind: 'link', target: '#brim', children: [text('the brim')] },
        text(' or '),
        text('編み目', 'plain', 'ja'),
      ] },
    ]); // prettier-ignore
    const block = laid.tags.find(({ role }) => role === 'P')!;
    const kinds = block.children.map((child) => [
      laid.tags[child]!.role,
      laid.tags[child]!.language,
    ]);
    expect(kinds).toEqual([['Span', undefined], ['Link', undefined], ['Span', undefined], ['Span', 'ja']]); // prettier-ignore
    const link = laid.pages[0]!.marks.find((mark) => mark.kind === 'link')!;
    const words = run(laid, 'the brim');
    expect(link.x).toBeCloseTo(words.x, 2);
    expect(link.width).toBeCloseTo(widthOf(words), 2);
    expect(link.tag).toBe(words.tag);
  });
});

const cell = (content: string, header?: 'row' | 'column', span?: number): TableCell => ({
  content: [text(content)],
  ...(header === undefined ? {} : { header }),
  ...(span === undefined ? {} : { span }),
});

const tableOf = (columns: number, rows: number): Block => ({
  kind: 'table',
  id: 't',
  caption: [text('Sizes')],
  columns: Array.from({ length: columns }, (_, at) => ({ align: at === 0 ? 'start' : 'end', stretch: 0 })),
  head: [Array.from({ length: columns }, (_, at) => cell(`H${at}`, 'column'))],
  rows: Array.from({ length: rows }, (_, row) =>
    Array.from({ length: columns }, (_, at) => cell(`${row}.${at}`, at === 0 ? 'row' : undefined)),
  ),
}); // prettier-ignore

describe('tables', () => {
  it('repeat their heads on each page, once for the ear and always for the eye', () => {
    const laid = lay([tableOf(4, 120)]);
    const heads = runsOf(laid).filter(({ mark }) => mark.run.text === 'H2');
    expect(heads.map(({ page }) => page)).toEqual(laid.pages.map((_, page) => page));
    expect(heads.map(({ mark }) => mark.tag === 'artifact')).toEqual(
      laid.pages.map((_, page) => page > 0),
    );
  });

  it('have every cell of a row on one line', () => {
    const laid = lay([tableOf(5, 80)]);
    for (let row = 0; row < 80; row++) {
      const cells = runsOf(laid).filter(({ mark }) => mark.run.text.startsWith(`${row}.`));
      expect(cells).toHaveLength(5);
      expect(new Set(cells.map(({ mark, page }) => `${page} ${mark.y}`)).size).toBe(1);
    }
  });

  it('keep a short table on one page', () => {
    for (let lines = 30; lines < 44; lines++) {
      const before = Array.from({ length: lines }, () => paragraph('A line.'));
      const laid = lay([...before, tableOf(4, 6)]);
      const pages = runsOf(laid).filter(({ mark }) => /^\d\.\d$/.test(mark.run.text));
      expect(new Set(pages.map(({ page }) => page)).size).toBe(1);
    }
  });

  it('align columns as asked, heads with their numbers', () => {
    const laid = lay([tableOf(3, 2)]);
    const end = (content: string): number => run(laid, content).x + widthOf(run(laid, content));
    expect(end('H1')).toBeCloseTo(end('0.1'), 2);
    expect(run(laid, 'H0').x).toBe(run(laid, '0.0').x);
  });

  it('tag heads with their scope and spans with their number of columns', () => {
    const laid = lay([
      { kind: 'table', id: 't', caption: [], columns: [],
        head: [[cell('', 'column'), cell('Body', 'column', 2)]],
        rows: [[cell('Bust', 'row'), cell('90'), cell('98')]] },
    ]); // prettier-ignore
    const heads = laid.tags.filter(({ role }) => role === 'TH');
    expect(heads.map(({ scope, columnSpan }) => [scope, columnSpan])).toEqual([
      ['Column', undefined],
      ['Column', 2],
      ['Row', undefined],
    ]);
  });
});

describe('right-to-left pages', () => {
  const turn = { language: 'he', direction: 'rtl' };

  it('begin at the right', () => {
    const laid = lay([instruction('שורה 1', 'לסרוג.', '80')], turn);
    const label = run(laid, 'שורה 1'.slice(0, 4));
    expect(label.x + widthOf(label)).toBeGreaterThan(A4_WIDTH - style.margins.start - 4);
    expect(run(laid, '80').x).toBeCloseTo(style.margins.end, 1);
  });

  it('keep a measure in its own order', () => {
    const laid = lay([paragraph('רוחב 20 cm בסך הכול')], turn);
    const marks = runsOf(laid).filter(({ mark }) => /20|cm/.test(mark.run.text));
    const [first] = marks.map(({ mark }) => mark);
    expect(first!.run.text).toBe('20 cm');
    expect(first!.run.direction).toBe('ltr');
  });

  it('run the columns of a table from right to left', () => {
    const laid = lay([tableOf(3, 1)], turn);
    expect(run(laid, 'H0').x).toBeGreaterThan(run(laid, 'H1').x);
    expect(run(laid, 'H1').x).toBeGreaterThan(run(laid, 'H2').x);
  });
});

describe('the foot of a page', () => {
  it('takes a second line for a long name, and tells of one that is endless', () => {
    const foot = (start: string): Laid =>
      lay([paragraph('A line.')], { footer: { start, end: '' } });
    const long = foot(
      'Northfold, the harbour light cardigan with a very long name indeed. '.repeat(2),
    );
    const lines = runsOf(long).filter(({ mark }) => mark.tag === 'artifact');
    expect(lines.length).toBe(2);
    expect(long.trouble).toEqual([]);
    expect(foot('Northfold, the harbour light cardigan. '.repeat(30)).trouble).toHaveLength(1);
  });

  it('numbers the pages, and is no part of the text', () => {
    const laid = lay(Array.from({ length: 120 }, () => paragraph('A line.')));
    const feet = laid.pages.map(({ marks }) =>
      marks.flatMap((mark) =>
        mark.kind === 'run' && mark.tag === 'artifact' ? [mark.run.text] : [],
      ),
    );
    const count = laid.pages.length;
    expect(feet).toEqual(laid.pages.map((_, page) => ['Skerry', `${page + 1} / ${count}`]));
  });
});
