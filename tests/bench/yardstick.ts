/**
 * The document that speed is measured on: some twenty pages, about 5,000 words, 4 tables, 4 charts of
 * 40 × 60 cells, 2 drawings, 6 photographs already sized. Words are invented and drawn from a fixed
 * sequence, about 750 different ones.
 */
import sharp from 'sharp';
import type { Block, Document, Inline } from '../../src/press/document.ts';
import type { Drawing, Shape } from '../../src/press/drawing/drawing.ts';
import type { Picture } from '../../src/press/pdf/write.ts';

/** A sequence that is the same everywhere (Park and Miller's minimal standard, 1988). */
export function sequence(seed: number): () => number {
  let state = seed;
  return () => (state = (state * 48271) % 2147483647) / 2147483647;
}

/** Parts of knitting words, by primary language. */
const SYLLABLES: Readonly<Record<string, readonly string[]>> = {
  en: 'cast on knit purl row inc dec sleeve body yoke gauge mar ker slip turn work edge loop rib ca ble'.split(' '),
  de: 'Ma schen an schlag rechts links rei he zu nah me ab ket teln Är mel Pas se Kan te Bünd chen'.split(' '),
  cs: 'ře ta oka hlad ce ob rub jeh li ce při dat ubrat ru káv pře děl žeb ro vý'.split(' '),
  da: 'ma ske ret vrang pind slå op luk ke ær me bær e styk kant rib mær ke tag ud'.split(' '),
  es: 'pun to de re cho re vés vuel ta au men tar cer rar man ga ca ne sú ho ja lla'.split(' '),
  fi: 'sil mu kka oi kein nu rin ker ros li säys ka ven nus hi ha kaar ro ke reu na'.split(' '),
  fr: 'mail le en droit en vers rang aug men ter ra battre man che em piè ce mar queur cô te'.split(' '),
  he: 'עין ימ נית שמא לית שו רה הו ספה שר וול גוף סי מן צוו ארון'.split(' '),
  is: 'lykk ja slétt brugð in um ferð auka út fell a erm i berust ykki merk i stroff'.split(' '),
  it: 'ma glia di rit to ro ve scio fer ro au men to ma ni ca spro ne bor do co sta'.split(' '),
  ja: Array.from('編目段表裏増減針糸袖身頃輪作伏止模様交差色替'),
  ko: Array.from('겉뜨기안단코늘림줄소매몸판요크마커둘레무늬'),
  nb: 'mas ke rett vrang pin ne ut ta felle er me bol bære stykk e kant rib be mer ke'.split(' '),
  nl: 'ste ken recht aver echt toer meer der min deren mouw pas boord rand mar keer der'.split(' '),
  pl: 'ocz ko pra we le we rząd do dać za mknąć rę kaw kar czek ścią gacz zna cznik brzeg'.split(' '),
  pt: 'pon to mei a tri cô car rei ra au men to ar re ma tar man ga pa la bar ra mar ca'.split(' '),
  sv: 'ma ska rät av ig varv öka min ska ärm ok bål re sår kant mar kör av ma ska upp'.split(' '),
  zh: Array.from('下针上加减圈行袖身片育克记号起收边罗纹麻花换色线'),
}; // prettier-ignore

const primary = (language: string): string => language.split('-')[0] ?? language;
const SPACELESS: readonly string[] = ['ja', 'zh'];

function vocabulary(language: string, next: () => number): readonly string[] {
  const syllables = SYLLABLES[primary(language)] ?? [];
  const words = new Set<string>();
  while (words.size < 750) {
    const length = 1 + Math.floor(next() * 3);
    const pick = () => syllables[Math.floor(next() * syllables.length)] ?? '';
    words.add(Array.from({ length }, pick).join(''));
  }
  return [...words];
}

const text = (content: string): Inline => ({ kind: 'text', text: content, role: 'plain' });

function chart(columns: number, rows: number): Drawing {
  const cell = 9;
  const pen = { widthPoints: 0.4, colour: '#444444' };
  const line = (x1: number, y1: number, x2: number, y2: number) =>
    [['M', x1 * cell, y1 * cell], ['L', x2 * cell, y2 * cell]] as const; // prettier-ignore
  const grid = [
    ...Array.from({ length: columns + 1 }, (_, x) => line(x, 0, x, rows)).flat(),
    ...Array.from({ length: rows + 1 }, (_, y) => line(0, y, columns, y)).flat(),
  ];
  const shapes: Shape[] = [{ kind: 'path', steps: grid, stroke: pen }];
  for (let y = 0; y < rows; y++) {
    for (let x = 0; x < columns; x++) {
      const symbol = ['purl', 'left', 'right', 'over'][(x * 3 + y * 5 + ((x * y) % 7)) % 5];
      if (symbol) shapes.push({ kind: 'use', symbol, x: x * cell, y: y * cell });
    }
    const at = { x: columns * cell + 2, y: (y + 0.8) * cell, sizePoints: 6 };
    shapes.push({
      kind: 'text',
      text: String(rows - y),
      ...at,
      anchor: 'start',
      weight: 'regular',
    });
  }
  const stroke = { widthPoints: 1, colour: '#222222', cap: 'round' } as const;
  const symbols: Drawing['symbols'] = {
    purl: [{ kind: 'path', steps: [['M', 2, 4.5], ['L', 7, 4.5]], stroke }],
    left: [{ kind: 'path', steps: [['M', 2, 7], ['L', 7, 2]], stroke }],
    right: [{ kind: 'path', steps: [['M', 2, 2], ['L', 7, 7]], stroke }],
    over: [
      { kind: 'path', steps: [['M', 7, 4.5], ['C', 7, 8, 2, 8, 2, 4.5], ['C', 2, 1, 7, 1, 7, 4.5], ['Z']], stroke },
    ],
  }; // prettier-ignore
  return { widthPoints: columns * cell + 12, heightPoints: rows * cell, symbols, shapes };
}

function outline(): Drawing {
  const stroke = { widthPoints: 1, colour: '#222222' };
  const label = (x: number, y: number, words: string): Shape => ({
    kind: 'text', x, y, text: words, sizePoints: 9, anchor: 'middle', weight: 'regular',
  }); // prettier-ignore
  return {
    widthPoints: 300,
    heightPoints: 260,
    symbols: {},
    shapes: [
      { kind: 'path', steps: [['M', 40, 250], ['L', 40, 80], ['C', 60, 60, 80, 40, 110, 20], ['C', 130, 40, 170, 40, 190, 20], ['C', 220, 40, 240, 60, 260, 80], ['L', 260, 250], ['Z']], stroke },
      label(150, 245, '50 (54½, 58, 62) cm'),
      label(20, 150, 'A'),
      label(280, 150, 'B'),
    ],
  }; // prettier-ignore
}

/** Six photographs of about 200 kB: grain over a gradient, so that they pack as photographs do. */
export async function photographs(): Promise<ReadonlyMap<string, Picture>> {
  const [widthPixels, heightPixels] = [1200, 900];
  const pictures = new Map<string, Picture>();
  for (let photo = 0; photo < 6; photo++) {
    const next = sequence(photo + 1);
    const pixels = Buffer.alloc(widthPixels * heightPixels * 3);
    for (let at = 0; at < pixels.length; at++) {
      pixels[at] = 90 + photo * 15 + (at % (widthPixels * 3)) / 60 + next() * 36;
    }
    const raw = { width: widthPixels, height: heightPixels, channels: 3 } as const;
    const jpeg = await sharp(pixels, { raw }).jpeg({ quality: 86 }).toBuffer();
    pictures.set(`photo-${photo}`, { jpeg: new Uint8Array(jpeg), widthPixels, heightPixels });
  }
  return pictures;
}

const PARTS = 4;

export interface YardstickOptions {
  /** Another one gives other words in another order. */
  readonly seed?: number;
  readonly paper?: Document['paper'];
}

export function yardstick(
  language: string,
  { seed = 20250314, paper = 'A4' }: YardstickOptions = {},
): Document {
  const next = sequence(seed);
  const words = vocabulary(language, next);
  const gap = SPACELESS.includes(primary(language)) ? '' : ' ';
  const sentence = (length: number) =>
    Array.from({ length }, () => words[Math.floor(next() ** 2 * words.length)] ?? '').join(gap);
  const paragraph = (): Block => ({
    kind: 'paragraph', role: 'body', content: [text(`${sentence(58)} ${Math.floor(next() * 200)}.`)],
  }); // prettier-ignore
  const photo = (hash: string): Block => ({
    kind: 'figure',
    id: hash,
    content: { kind: 'picture', hash, widthPixels: 1200, heightPixels: 900 },
    alternative: sentence(8),
    caption: [text(sentence(6))],
    size: 'half',
  });
  const drawn = (id: string, drawing: Drawing): Block => ({
    kind: 'figure', id, content: { kind: 'drawing', drawing }, alternative: sentence(12), caption: [text(sentence(5))], size: 'natural',
  }); // prettier-ignore
  const table = (id: string): Block => ({
    kind: 'table',
    id,
    caption: [text(sentence(5))],
    columns: [{ align: 'start', stretch: 1 }, ...Array.from({ length: 6 }, () => ({ align: 'end', stretch: 0.3 }) as const)],
    head: [[{ content: [text('')], header: 'column' }, ...['S', 'M', 'L', 'XL', '2X', '3X'].map((name) => ({ content: [text(name)], header: 'column' }) as const)]],
    rows: Array.from({ length: 8 }, () => [
      { content: [text(sentence(2))], header: 'row' } as const,
      ...Array.from({ length: 6 }, () => ({ content: [text(String(Math.floor(next() * 200)))] })),
    ]),
  }); // prettier-ignore
  const blocks: Block[] = [];
  for (let part = 0; part < PARTS; part++) {
    blocks.push({ kind: 'heading', level: part === 0 ? 1 : 2, id: `part-${part}`, content: [text(sentence(3))] }); // prettier-ignore
    for (let at = 0; at < 20; at++) blocks.push(paragraph());
    blocks.push(table(`table-${part}`), drawn(`chart-${part}`, chart(40, 60)));
    blocks.push(photo(`photo-${part}`));
    if (part < 2) blocks.push(drawn(`drawing-${part}`, outline()), photo(`photo-${part + 4}`));
  }
  return {
    title: 'The yardstick', author: 'Northfold', subject: '', keywords: [], language,
    direction: primary(language) === 'he' ? 'rtl' : 'ltr', paper, issued: '2025-03-14', edition: 'standard', blocks,
    footer: { start: 'Yardstick', end: '{page} / {pages}' },
  }; // prettier-ignore
}
