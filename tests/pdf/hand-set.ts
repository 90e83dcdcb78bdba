/**
 * Pages set by hand for the tests of the PDF room: a small book of headings, paragraphs, a table, a
 * list, a picture, a chart and links, with no layout in between. Each line of text is one paragraph or
 * cell; what stands where is plain to see.
 */
import type { Drawing, Shape } from '../../src/press/drawing/drawing.ts';
import type { TextStyle } from '../../src/press/fonts/face.ts';
import { openFonts } from '../../src/press/fonts/fonts.ts';
import type { Laid, Mark, OutlineEntry, Tag, TagRole } from '../../src/press/layout/frames.ts';
import {
  directionOf,
  embeddingLevels,
  visualOrder,
} from '../../src/press/layout/lines/direction.ts';
import type { DocumentFacts, Picture } from '../../src/press/pdf/write.ts';

export const fonts = openFonts();
const INK = '#1d1c1a';
const [WIDTH, HEIGHT] = [595.28, 841.89];

export const factsFor = (language: string, more: Partial<DocumentFacts> = {}): DocumentFacts => ({
  title: 'Breakwater Hat <3 & more',
  author: 'Northfold',
  subject: 'A hat with cables',
  keywords: ['hat', 'cables'],
  language,
  direction: directionOf(language),
  issued: '2025-03-14',
  ...more,
});

/** A grey JPEG of one block: the smallest picture there is, made by hand from the tables of B.2. */
export const GREY_SQUARE = 'a'.repeat(64);
export const pictures = (jpeg: Uint8Array): ReadonlyMap<string, Picture> =>
  new Map([[GREY_SQUARE, { jpeg, widthPixels: 8, heightPixels: 8 }]]);

/** Baseline DCT, one component, one 8 × 8 block of middle grey. */
export function greyJpeg(): Uint8Array {
  const quantisation = [0xff, 0xdb, 0, 67, 0, ...Array<number>(64).fill(1)];
  const frame = [0xff, 0xc0, 0, 11, 8, 0, 8, 0, 8, 1, 1, 0x11, 0];
  const lengths = [1, ...Array<number>(15).fill(0)];
  const direct = [0xff, 0xc4, 0, 20, 0x00, ...lengths, 0];
  const alternating = [0xff, 0xc4, 0, 20, 0x10, ...lengths, 0];
  const scan = [0xff, 0xda, 0, 8, 1, 1, 0x00, 0, 63, 0, 0b00111111];
  const start = [0xff, 0xd8];
  const end = [0xff, 0xd9];
  return Uint8Array.from([start, quantisation, frame, direct, alternating, scan, end].flat());
}

interface LineOptions {
  readonly size?: number;
  readonly x?: number;
  readonly style?: Partial<TextStyle>;
  readonly language?: string;
}

/** Collects pages, marks and tags. */
export class HandSet {
  readonly language: string;
  readonly tags: { role: TagRole; children: number[]; [detail: string]: unknown }[] = [
    { role: 'Document', children: [] },
  ];
  readonly pages: Mark[][] = [[]];
  readonly outline: OutlineEntry[] = [];
  readonly destinations = new Map<string, { page: number; y: number }>();
  y = 72;

  constructor(language: string) {
    this.language = language;
  }

  tag(role: TagRole, parent = 0, details: Omit<Partial<Tag>, 'children'> = {}): number {
    this.tags.push({ role, children: [], ...details });
    const index = this.tags.length - 1;
    this.tags[parent]?.children.push(index);
    return index;
  }

  mark(mark: Mark): void {
    this.pages.at(-1)?.push(mark);
  }

  newPage(): void {
    this.pages.push([]);
    this.y = 72;
  }

  /** One line, with the directions in it put in order; gives its width. */
  line(text: string, tag: number | 'artifact', options: LineOptions = {}): number {
    const { size = 11, language = this.language } = options;
    const style: TextStyle = {
      family: 'text', weight: 'regular', italic: false, language, ...options.style,
    }; // prettier-ignore
    const direction = directionOf(this.language);
    const levels = embeddingLevels({
      text, direction, language, stretches: [], unbroken: [], isolates: [],
    }); // prettier-ignore
    const parts: { text: string; level: number }[] = [];
    Array.from(text).reduce((at, character) => {
      const level = levels[at] ?? 0;
      const last = parts.at(-1);
      if (last?.level === level) last.text += character;
      else parts.push({ text: character, level });
      return at + character.length;
    }, 0);
    const runs = parts.flatMap((part) =>
      fonts.shape(part.text, style, part.level).map((run) => ({ run, level: part.level })),
    );
    const width = (runs.reduce((sum, { run }) => sum + run.width, 0) * size) / 1000;
    let x = options.x ?? (direction === 'rtl' ? WIDTH - 56 - width : 56);
    const places = runs.map(() => x);
    for (const part of visualOrder(runs.map(({ level }) => level))) {
      places[part] = x;
      x += ((runs[part]?.run.width ?? 0) * size) / 1000;
    }
    runs.forEach(({ run }, part) =>
      this.mark({
        kind: 'run', x: places[part] ?? x, y: this.y, sizePoints: size, run, colour: INK, tag,
      }),
    ); // prettier-ignore
    this.y += size * 1.5;
    return width;
  }

  heading(text: string, level: 1 | 2 | 3): number {
    const tag = this.tag(`H${level}`);
    this.outline.push({ title: text, level, page: this.pages.length - 1, y: this.y - 20, tag });
    this.destinations.set(text, { page: this.pages.length - 1, y: this.y - 20 });
    this.line(text, tag, { size: 22 - 4 * level, style: { family: 'display', weight: 'bold' } });
    return tag;
  }

  paragraph(text: string, options?: LineOptions & Partial<Tag>): number {
    const tag = this.tag('P', 0, options?.language ? { language: options.language } : {});
    this.line(text, tag, options);
    return tag;
  }

  /** First row and first column are heads. */
  table(rows: readonly (readonly string[])[]): void {
    const table = this.tag('Table');
    rows.forEach((cells, row) => {
      const part = row === 0 ? this.tag('THead', table) : (this.tags[table]?.children[1] ?? -1);
      const body = row === 1 ? this.tag('TBody', table) : part;
      const line = this.tag('TR', row === 0 ? part : body);
      const top = this.y;
      cells.forEach((text, column) => {
        const scope = row === 0 ? 'Column' : column === 0 ? 'Row' : undefined;
        const cell = this.tag(scope ? 'TH' : 'TD', line, scope ? { scope } : {});
        this.y = top;
        this.line(text, cell, { x: 56 + column * 110 });
      });
      const rule = { widthPoints: 0.4, colour: '#8a8a8a', tag: 'artifact' } as const;
      this.mark({ kind: 'rule', x1: 56, y1: top + 4, x2: 540, y2: top + 4, ...rule });
    });
  }

  list(items: readonly string[]): void {
    const list = this.tag('L', 0, { ordered: true });
    items.forEach((text, place) => {
      const item = this.tag('LI', list);
      const top = this.y;
      this.line(`${place + 1}.`, this.tag('Lbl', item));
      this.y = top;
      this.line(text, this.tag('LBody', item), { x: 80 });
    });
  }

  link(text: string, target: string): void {
    const paragraph = this.tag('P');
    const tag = this.tag('Link', paragraph, { alternative: text });
    const y = this.y;
    const width = this.line(text, tag);
    this.mark({ kind: 'link', x: 56, y: y - 10, width, height: 14, target, tag });
  }

  figure(mark: 'picture' | Drawing, alternative: string): void {
    const tag = this.tag('Figure', 0, { alternative });
    const place = { x: 56, y: this.y, tag };
    if (mark === 'picture') {
      this.mark({ kind: 'picture', ...place, width: 96, height: 96, hash: GREY_SQUARE });
      this.y += 120;
      return;
    }
    this.mark({ kind: 'drawing', ...place, scale: 1.5, drawing: mark, language: this.language });
    this.y += mark.heightPoints * 1.5 + 24;
  }

  laid(): Laid {
    const pages = this.pages.map((marks) => ({
      widthPoints: WIDTH,
      heightPoints: HEIGHT,
      marks,
    }));
    const { tags, outline, destinations } = this;
    return {
      paper: 'A4',
      pages,
      tags: tags as unknown as Tag[],
      outline,
      destinations,
      trouble: [],
    };
  }
}

/** A chart of knit and purl cells with one cable, and row numbers. */
export function smallChart(columns: number, rows: number): Drawing {
  const cell = 8;
  const stroke = { widthPoints: 0.4, colour: '#333333' };
  const shapes: Shape[] = [];
  const grid: ['M' | 'L', number, number][] = [];
  for (let x = 0; x <= columns; x++) grid.push(['M', x * cell, 0], ['L', x * cell, rows * cell]);
  for (let y = 0; y <= rows; y++) grid.push(['M', 0, y * cell], ['L', columns * cell, y * cell]);
  shapes.push({ kind: 'path', steps: grid, stroke });
  for (let y = 0; y < rows; y++) {
    for (let x = 0; x < columns; x++) {
      const symbol = (x * 7 + y * 3) % 5 === 0 ? 'slant' : 'dot';
      if ((x + y) % 2) shapes.push({ kind: 'use', symbol, x: x * cell, y: y * cell });
    }
    const text = String(rows - y);
    const at = { x: columns * cell + 3, y: y * cell + 6.5, sizePoints: 6 };
    shapes.push({ kind: 'text', text, ...at, anchor: 'start', weight: 'regular' });
  }
  return {
    widthPoints: columns * cell + 16,
    heightPoints: rows * cell,
    symbols: {
      slant: [{ kind: 'path', steps: [['M', 1, 7], ['L', 7, 1]], stroke: { ...stroke, widthPoints: 1, cap: 'round' } }],
      dot: [
        { kind: 'path', steps: [['M', 3, 3], ['L', 5, 3], ['L', 5, 5], ['L', 3, 5], ['Z']], fill: '#333333' },
      ],
    },
    shapes,
  }; // prettier-ignore
}

/** What each language's sample page says, line by line. */
export const SAMPLES: Readonly<Record<string, { readonly title: string; readonly lines: readonly string[] }>> = {
  'en-US': {
    title: 'Breakwater Hat',
    lines: [
      'Cast on 96 (104, 112, 124) sts; join and work in the round.',
      'AVA To We: well-known K2–p1, office waffle, 1½ in, ¾ × ⅛, → ≥ 10.',
    ],
  },
  de: { title: 'Wellenbrecher', lines: ['96 M anschlagen. Maschenprobe: 20 M × 28 R = 10 × 10 cm.', 'Größe „S“ – Übergänge straßenweise.'] },
  pl: { title: 'Czapka Falochron', lines: ['Nabierz 96 oczek; łącznie 12 cm. Zażółć gęślą jaźń.', 'ściągacz: 1 op., 1 ol. — powtarzaj'] },
  ja: { title: '防波堤の帽子', lines: ['作り目は96目、「輪」に編む。', 'ゲージ：20目×28段＝10cm（メリヤス編み）。', '減らし目…①裏編み'] },
  ko: { title: '방파제 모자', lines: ['96코를 잡아 원형으로 뜬다 (2코 고무뜨기).', '게이지: 20코 28단 = 10cm'] },
  he: { title: 'כובע שובר גלים', lines: ['להעלות 96 עיניים (104, 112) ולחבר למעגל.', 'מידה: 20 ס״מ, סוג k2tog [דוגמה] סוף', 'שָׁלוֹם לְכֻלָּם'] },
  'zh-Hans': { title: '防波堤帽', lines: ['起96针，环形编织。', '密度：20针×28行＝10cm“平针”'] },
  tr: { title: 'Dalgakıran Şapka', lines: ['96 ilmek atın; kazı işi, çift iğne.'] },
  uk: { title: 'Шапка', lines: ['Набрати 96 петель, з’єднати по колу — їжак ґанок.'] },
  el: { title: 'Σκούφος', lines: ['Ρίξτε 96 πόντους και πλέξτε κυκλικά.'] },
}; // prettier-ignore

/** The whole small book in one language. */
export function sampleBook(language: string): HandSet {
  const { title, lines } = SAMPLES[language] ?? { title: language, lines: [] };
  const book = new HandSet(language);
  book.heading(title, 1);
  for (const line of lines) book.paragraph(line);
  book.paragraph('Breakwater, the original', { language: 'en-GB', style: { italic: true } });
  book.figure('picture', `${title} (1)`);
  book.table([
    ['', 'S', 'M', 'L'],
    ['cm', '50', '54½', '58'],
    ['in', '19¾', '21½', '22¾'],
  ]);
  book.list(lines);
  book.newPage();
  book.heading(`${title} 2`, 2);
  book.figure(smallChart(12, 10), `${title} (2)`);
  book.link(title, `#${title}`);
  book.link('northfold.example', 'https://northfold.example/hats?size=a b&ü=1');
  book.mark({
    kind: 'box',
    x: 56,
    y: 780,
    width: 480,
    height: 2,
    fill: '#cccccc',
    tag: 'artifact',
  });
  book.y = 800;
  book.line('2 / 2', 'artifact', { size: 9 });
  return book;
}
