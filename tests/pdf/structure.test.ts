/**
 * The tag tree of finished files: every piece of content belongs to one tag, tags say what a screen
 * reader needs, and the order of reading is that of the tags (ISO 32000-1, 14.7 and 14.8; ISO 14289-1).
 */
import { type PDFNumber, PDFDict, PDFName, type PDFObject } from 'pdf-lib';
import { beforeAll, describe, expect, it } from 'vitest';
import { writePdf } from '../../src/press/pdf/write.ts';
import { factsFor, fonts, greyJpeg, HandSet, pictures, sampleBook } from './hand-set.ts';
import { type Node, Objects, readWithViewer, spoken } from './reading.ts';

const resources = { fonts, pictures: pictures(greyJpeg()) };
const bytesOf = (book: HandSet) => writePdf(book.laid(), factsFor(book.language), resources);

let bytes: Uint8Array;
let objects: Objects;
beforeAll(async () => {
  bytes = bytesOf(sampleBook('de'));
  objects = await Objects.read(bytes);
});

/** Every element of the tree below an object, in order. */
function elementsBelow(from: PDFObject | undefined): PDFDict[] {
  const kids = objects.at(from, 'K');
  const list = kids instanceof PDFDict ? [kids] : objects.list(kids);
  return list
    .filter((kid): kid is PDFDict => kid instanceof PDFDict && kid.has(PDFName.of('S')))
    .flatMap((kid) => [kid, ...elementsBelow(kid)]);
}
const treeRoot = () => objects.at(objects.document.catalog, 'StructTreeRoot');
const roleOf = (element: PDFDict) => String(objects.at(element, 'S')).slice(1);

describe('the structure tree', () => {
  it('owns each piece of marked content exactly once', () => {
    for (const page of [0, 1]) {
      const opened = [...objects.content(page).matchAll(/\/(\w+) <<\/MCID (\d+)>> BDC/g)];
      const numbers = opened.map(([, , number]) => Number(number));
      expect(numbers).toEqual(numbers.map((_, place) => place));
      const owners = objects.list(parentTreeEntry(page));
      expect(owners).toHaveLength(numbers.length);
      opened.forEach(([, role], place) => expect(roleOf(owners[place] as PDFDict)).toBe(role));
      const claimed = elementsBelow(treeRoot()).flatMap((element) => piecesOf(element, page));
      expect(claimed.toSorted((a, b) => a - b)).toEqual(numbers);
    }
  });

  function parentTreeEntry(key: number): PDFObject | undefined {
    const pairs = objects.list(objects.at(treeRoot(), 'ParentTree', 'Nums'));
    const place = pairs.findIndex(
      (item, at) => at % 2 === 0 && (item as PDFNumber).asNumber() === key,
    );
    return pairs[place + 1];
  }

  function piecesOf(element: PDFDict, page: number): number[] {
    const home = objects.dict(objects.at(element, 'Pg') ?? objects.page(page));
    const kids = objects.at(element, 'K');
    const list = kids === undefined ? [] : objects.list(kids).length ? objects.list(kids) : [kids];
    return list.flatMap((kid) => {
      if (kid instanceof PDFDict) {
        if (String(objects.at(kid, 'Type')) !== '/MCR') return [];
        const there = objects.at(kid, 'Pg') === objects.page(page);
        return there ? [(objects.at(kid, 'MCID') as PDFNumber).asNumber()] : [];
      }
      return home === objects.page(page) ? [(kid as PDFNumber).asNumber()] : [];
    });
  }

  it('leaves nothing outside of tags and artifacts', () => {
    for (const page of [0, 1]) {
      const content = objects.content(page);
      const depth = (content.match(/BDC/g) ?? []).length - (content.match(/EMC/g) ?? []).length;
      expect(depth).toBe(0);
      const outside = content.replace(/BDC[\s\S]*?EMC/g, '').replace(/^\/.*$/gm, '');
      expect(outside.trim()).toBe('');
    }
  });

  it('says what each figure shows and where', () => {
    const figures = elementsBelow(treeRoot()).filter((element) => roleOf(element) === 'Figure');
    expect(figures).toHaveLength(2);
    for (const figure of figures) {
      expect(objects.at(figure, 'Alt')).toBeDefined();
      const box = objects
        .list(objects.at(figure, 'A', 'BBox'))
        .map(String)
        .map(Number);
      const [left = 0, bottom = 0, right = 0, top = 0] = box;
      expect([left, right - left > 50, top - bottom > 50, bottom > 0, top < 842]).toEqual([
        56, true, true, true, true,
      ]); // prettier-ignore
    }
  });

  it('gives heads of tables their scope and ordered lists their numbering', () => {
    const elements = elementsBelow(treeRoot());
    const scopes = elements
      .filter((element) => roleOf(element) === 'TH')
      .map((element) => String(objects.at(element, 'A', 'Scope')));
    expect(scopes).toEqual([...Array(4).fill('/Column'), '/Row', '/Row']);
    const list = elements.find((element) => roleOf(element) === 'L');
    expect(String(objects.at(list, 'A', 'ListNumbering'))).toBe('/Decimal');
  });

  it('marks words of another language', async () => {
    const { pages } = await readWithViewer(bytes);
    const foreign = JSON.stringify(pages[0]?.tree).match(/"lang":"[^"]*"/g);
    expect(foreign).toEqual(['"lang":"en-GB"']);
    expect(String(objects.at(objects.document.catalog, 'Lang'))).toBe('<6465>');
  });
});

describe('the order of reading', () => {
  it('is that of the tags where the page is painted in another', async () => {
    const book = new HandSet('en');
    const [first, second] = [book.tag('P'), book.tag('P')];
    book.line('painted first', second);
    book.line('read first', first);
    book.newPage();
    book.line('and read on', first);
    const { pages } = await readWithViewer(bytesOf(book));
    const said = spoken(pages[0]?.tree ?? {}, pages[0]?.texts ?? new Map<string, string>());
    expect(said.map(([, text]) => text.trim())).toEqual(['read first', 'painted first']);
    const next = spoken(pages[1]?.tree ?? {}, pages[1]?.texts ?? new Map<string, string>());
    expect(next.map(([, text]) => text.trim())).toEqual(['and read on']);
  });

  it('reads a tag’s own words before those of its children', async () => {
    const book = new HandSet('en');
    const paragraph = book.tag('P');
    const span = book.tag('Span', paragraph, { language: 'de' });
    book.line('child', span);
    book.line('own', paragraph);
    const { pages } = await readWithViewer(bytesOf(book));
    const said = spoken(pages[0]?.tree ?? {}, pages[0]?.texts ?? new Map<string, string>());
    expect(said.map(([role, text]) => [role, text.trim()])).toEqual([
      ['P', 'own'],
      ['Span', 'child'],
    ]);
  });

  it('passes over page furniture', async () => {
    const { pages } = await readWithViewer(bytes);
    const spokenText = spoken(pages[1]?.tree ?? {}, pages[1]?.texts ?? new Map<string, string>());
    expect(spokenText.map(([, text]) => text)).not.toContain('2 / 2');
    expect(objects.content(1)).toContain('/Artifact <</Type /Pagination>> BDC');
    expect(objects.content(1)).toContain('/Artifact <</Type /Layout>> BDC');
  });
});

describe('links', () => {
  it('are annotations inside their tags and lead to a page or an address', async () => {
    const { pages } = await readWithViewer(bytes);
    const [inside, outside] = pages[1]?.annotations ?? [];
    expect(inside?.['dest']).toMatchObject([{ gen: 0 }, { name: 'XYZ' }, 0, 789.89, 0]);
    expect(outside?.['url']).toBe('https://northfold.example/hats?size=a%20b&%C3%BC=1');
    for (const annotation of objects.ofType('Annot')) {
      expect((objects.at(annotation, 'F') as PDFNumber).asNumber()).toBe(4);
      expect(objects.at(annotation, 'Contents')).toBeDefined();
    }
    const links: Node[] = [];
    const walk = (node: Node): void => {
      if (node.role === 'Link') links.push(node);
      node.children?.forEach(walk);
    };
    walk(pages[1]?.tree ?? {});
    expect(links.map((link) => link.children?.map(({ type }) => type))).toEqual([
      ['content', 'object'],
      ['content', 'object'],
    ]);
  });

  it('that lead nowhere are a broken invariant', () => {
    const book = new HandSet('en');
    book.link('nowhere', '#lost');
    expect(() => bytesOf(book)).toThrow(/the place #lost/);
  });
});

describe('finding one’s way', () => {
  it('has bookmarks nested as the headings are', async () => {
    const book = new HandSet('en');
    for (const [text, level] of [['A', 1], ['B', 2], ['C', 3], ['D', 2], ['E', 1], ['F', 3]] as const) {
      book.heading(text, level);
    } // prettier-ignore
    const { outline } = await readWithViewer(bytesOf(book));
    type Item = (typeof outline)[number];
    const shape = (items: readonly Item[]): unknown[] =>
      items.map(({ title, items: below }) => (below.length ? [title, shape(below)] : title));
    expect(shape(outline)).toEqual([
      ['A', [['B', ['C']], 'D']],
      ['E', ['F']],
    ]);
  });

  it('has page labels, a shown title and a tab order', async () => {
    const { labels, mark } = await readWithViewer(bytes);
    expect(labels).toEqual(['1', '2']);
    expect(mark).toMatchObject({ Marked: true, Suspects: false });
    const preferences = objects.at(objects.document.catalog, 'ViewerPreferences');
    expect(String(objects.at(preferences, 'DisplayDocTitle'))).toBe('true');
    expect(String(objects.at(objects.page(0), 'Tabs'))).toBe('/S');
  });
});

describe('notes', () => {
  it('have names of their own, which the tree can look up', async () => {
    const book = new HandSet('en');
    for (const text of ['one', 'two']) book.line(text, book.tag('Note'));
    const read = await Objects.read(bytesOf(book));
    const root = read.at(read.document.catalog, 'StructTreeRoot');
    const names = read.list(read.at(root, 'IDTree', 'Names'));
    const keys = names.filter((_, place) => place % 2 === 0).map(String);
    expect(keys).toHaveLength(2);
    expect(keys).toEqual([...new Set(keys)].sort());
    names.forEach((element, place) => {
      if (place % 2) expect(String(read.at(element, 'ID'))).toBe(keys[(place - 1) / 2]);
    });
  });
});
