/**
 * The one style file: paper, margins, sizes of type, leading, spaces, rules and colours, and what the
 * editions change of them. Lengths are points. Data only; the rooms that set lines and blocks read it
 * and hold no measure of their own, so that the whole look is decided on this page.
 */
import type { Document, Paper, ParagraphRole } from '../document.ts';
import type { Family, Weight } from '../fonts/face.ts';

/** Two colours are the designer's; the rest are shades of them on white paper. */
export interface ColourTheme {
  readonly ink: string;
  readonly accent: string;
}

export type ColourName = 'ink' | 'soft' | 'accent' | 'hairline' | 'tint';
export type Colours = Readonly<Record<ColourName, string>>;

export interface TypeStyle {
  readonly family: Family;
  readonly weight: Weight;
  readonly italic: boolean;
  readonly size: number;
  readonly leading: number;
  readonly colour: ColourName;
}

/** How much a paragraph may use the hyphen: never, where a line would gape, or freely. */
export type Hyphenation = 'none' | 'sparing' | 'usual';

export interface ParagraphStyle {
  readonly type: TypeStyle;
  readonly before: number;
  readonly after: number;
  readonly justified: boolean;
  readonly hyphenation: Hyphenation;
  /** Sits in the whole width instead of the text column. */
  readonly wide: boolean;
  /** A bar at the start, for paragraphs that must be seen. */
  readonly bar?: { readonly width: number; readonly gap: number; readonly colour: ColourName };
}

export interface HeadingStyle {
  readonly type: TypeStyle;
  readonly before: number;
  readonly after: number;
  readonly wide: boolean;
  /** Width of a rule over the heading; 0 for none. */
  readonly rule: number;
  readonly ruleGap: number;
}

export interface PageStyle {
  readonly papers: Readonly<Record<Paper, { readonly width: number; readonly height: number }>>;
  readonly margins: {
    readonly top: number;
    readonly bottom: number;
    readonly start: number;
    readonly end: number;
  };
  /** The column at the start that labels hang in; 0 where labels run into the text. */
  readonly side: { readonly width: number; readonly gutter: number };
  readonly colours: Colours;
  /** Whether parts that ask for a new page get one. */
  readonly newPages: boolean;
  /** No type is set smaller, whatever the script. */
  readonly leastSize: number;
  /** The same for letters in drawings. */
  readonly leastDrawnSize: number;
  /** Size of the role `small` against the text around it. */
  readonly smallScale: number;
  readonly headings: Readonly<Record<1 | 2 | 3 | 4, HeadingStyle>>;
  readonly paragraphs: Readonly<Record<ParagraphRole, ParagraphStyle>>;
  readonly instruction: {
    readonly type: TypeStyle;
    readonly label: TypeStyle;
    readonly count: TypeStyle;
    readonly between: number;
    /** White space before the first of several rows and after the last. */
    readonly around: number;
    readonly countGap: number;
    readonly rule: number;
    readonly hyphenation: Hyphenation;
  };
  readonly list: { readonly indent: number; readonly between: number; readonly around: number };
  readonly definitions: {
    readonly term: TypeStyle;
    readonly description: TypeStyle;
    readonly columns: 1 | 2;
    readonly columnGap: number;
    readonly termGap: number;
    /** Terms take at most this share of a column. */
    readonly termShare: number;
    readonly between: number;
    readonly around: number;
  };
  /** The table of contents of long documents. */
  readonly contents: {
    readonly first: TypeStyle;
    readonly second: TypeStyle;
    readonly columns: 1 | 2;
    readonly columnGap: number;
    readonly indent: number;
    readonly padding: number;
    readonly rule: number;
    readonly around: number;
  };
  readonly table: {
    readonly head: TypeStyle;
    readonly body: TypeStyle;
    readonly caption: TypeStyle;
    readonly cellGap: number;
    readonly rowPadding: number;
    readonly headRule: number;
    readonly rowRule: number;
    /** Type may shrink to this share before columns are split off. */
    readonly smallestScale: number;
    readonly hyphenation: Hyphenation;
    readonly around: number;
    readonly captionGap: number;
  };
  readonly figure: {
    readonly around: number;
    readonly captionGap: number;
    /** The first picture may shrink to this share of its height, other figures to the second. */
    readonly coverShrink: number;
    readonly shrink: number;
    readonly coverHeightShare: number;
    /** Share of its usual width that a photograph after the first takes. */
    readonly photographShare: number;
    readonly largestDrawingScale: number;
    /** What a drawing's own size is multiplied by where it keeps it. */
    readonly naturalScale: number;
    readonly smallestDotsPerInch: number;
  };
  readonly footer: { readonly type: TypeStyle; readonly gap: number; readonly rule: number };
}

const PAPERS = {
  A4: { width: 595.28, height: 841.89 }, // ISO 216: 210 x 297 mm
  Letter: { width: 612, height: 792 }, // ANSI/ASME Y14.1: 8.5 x 11 in
} as const;

export const HOUSE_COLOURS: ColourTheme = { ink: '#1d1c1a', accent: '#1f5560' };

const plain: TypeStyle = {
  family: 'text',
  weight: 'regular',
  italic: false,
  size: 11.5,
  leading: 16.2,
  colour: 'ink',
};
const type = (changes: Partial<TypeStyle>): TypeStyle => ({ ...plain, ...changes });

const body: ParagraphStyle = {
  type: plain,
  before: 0,
  after: 7,
  justified: false,
  hyphenation: 'sparing',
  wide: false,
};
const bar = (colour: ColourName, width: number) => ({ width, gap: 10, colour });
const fine = type({ size: 8.8, leading: 12, colour: 'soft' });

const STANDARD: Omit<PageStyle, 'colours'> = {
  papers: PAPERS,
  margins: { top: 56, bottom: 72, start: 54, end: 54 },
  side: { width: 97, gutter: 15 },
  newPages: true,
  leastSize: 8,
  leastDrawnSize: 7,
  smallScale: 0.86,
  headings: {
    1: {
      type: type({ family: 'display', weight: 'bold', size: 31, leading: 38 }),
      before: 6, after: 6, wide: false, rule: 0, ruleGap: 0,
    }, // prettier-ignore
    2: {
      type: type({ family: 'display', weight: 'bold', size: 17, leading: 22 }),
      before: 26, after: 9, wide: true, rule: 1.1, ruleGap: 7,
    }, // prettier-ignore
    3: {
      type: type({ weight: 'bold', size: 12.5, leading: 16.5, colour: 'accent' }),
      before: 15, after: 5, wide: false, rule: 0, ruleGap: 0,
    }, // prettier-ignore
    4: {
      type: type({ weight: 'bold' }),
      before: 10, after: 3, wide: false, rule: 0, ruleGap: 0,
    }, // prettier-ignore
  },
  paragraphs: {
    body,
    lead: { ...body, type: type({ size: 13.5, leading: 19.5 }), after: 9 },
    note: { ...body, before: 5, after: 9, bar: bar('accent', 1.2) },
    caution: { ...body, before: 6, after: 10, bar: bar('ink', 3) },
    caption: { ...body, type: type({ size: 9.4, leading: 12.8, colour: 'soft' }), after: 9 },
    byline: { ...body, type: type({ size: 12, leading: 16.5, colour: 'accent' }), wide: false, after: 12 },
    fine: { ...body, type: fine, after: 5 },
  }, // prettier-ignore
  instruction: {
    type: plain,
    label: type({ weight: 'bold', colour: 'accent' }),
    count: type({ weight: 'bold' }),
    between: 6,
    around: 9,
    countGap: 18,
    rule: 0.35,
    hyphenation: 'sparing',
  },
  list: { indent: 15, between: 3, around: 7 },
  definitions: {
    term: type({ weight: 'bold', size: 10.5, leading: 14 }),
    description: type({ size: 10.5, leading: 14 }),
    columns: 2,
    columnGap: 24,
    termGap: 10,
    termShare: 0.4,
    between: 2.5,
    around: 8,
  },
  contents: {
    first: type({ size: 10.5, leading: 14 }),
    second: type({ size: 10.5, leading: 14, colour: 'soft' }),
    columns: 2,
    columnGap: 24,
    indent: 12,
    padding: 1.6,
    rule: 0.35,
    around: 10,
  },
  table: {
    head: type({ weight: 'bold', size: 10.5, leading: 13 }),
    body: type({ size: 10.5, leading: 13 }),
    caption: type({ weight: 'bold', size: 11, leading: 14.5 }),
    cellGap: 13,
    rowPadding: 1.5,
    headRule: 0.9,
    rowRule: 0.35,
    smallestScale: 0.82,
    hyphenation: 'sparing',
    around: 11,
    captionGap: 5,
  },
  figure: {
    around: 12,
    captionGap: 6,
    coverShrink: 0.5,
    shrink: 0.8,
    coverHeightShare: 0.78,
    photographShare: 1,
    largestDrawingScale: 1.3,
    naturalScale: 1,
    smallestDotsPerInch: 200,
  },
  footer: { type: fine, gap: 23, rule: 0.35 },
};

/** 18 pt is the least size of large print; nothing on the page is smaller, nothing is italic. */
const LARGE_SIZE = 18;

function enlarged(style: TypeStyle): TypeStyle {
  const size = Math.max(LARGE_SIZE, style.size * 1.4);
  return { ...style, italic: false, size, leading: size * 1.36, colour: strong(style.colour) };
}
const strong = (colour: ColourName): ColourName => (colour === 'soft' ? 'ink' : colour);

/** Every type style inside a value, changed in place of its copy. */
function mapType<Value>(value: Value, change: (style: TypeStyle) => TypeStyle): Value {
  if (typeof value !== 'object' || value === null) return value;
  if ('leading' in value && 'family' in value)
    return change(value as unknown as TypeStyle) as Value;
  const entries = Object.entries(value).map(([key, inner]) => [key, mapType(inner, change)]);
  return Object.fromEntries(entries) as Value;
}

function largePrint(style: typeof STANDARD): typeof STANDARD {
  const large = mapType(style, enlarged);
  const ragged = Object.entries(large.paragraphs).map(([role, paragraph]) => [
    role,
    { ...paragraph, justified: false, hyphenation: 'none', after: paragraph.after * 1.5 },
  ]);
  return {
    ...large,
    margins: { top: 48, bottom: 74, start: 48, end: 48 },
    side: { width: 0, gutter: 0 },
    leastSize: LARGE_SIZE,
    leastDrawnSize: LARGE_SIZE,
    smallScale: 1,
    paragraphs: Object.fromEntries(ragged) as typeof large.paragraphs,
    instruction: { ...large.instruction, between: 9, rule: 0.7, hyphenation: 'none' },
    list: { indent: 24, between: 6, around: 10 },
    definitions: { ...large.definitions, columns: 1, between: 6 },
    contents: { ...large.contents, columns: 1, indent: 24, padding: 4, rule: 0.7 },
    table: {
      ...large.table,
      smallestScale: 1,
      hyphenation: 'none',
      rowPadding: 2.6,
      rowRule: 0.7,
      headRule: 1.4,
    },
    figure: { ...large.figure, shrink: 1, largestDrawingScale: 1, naturalScale: 1 },
    footer: { ...large.footer, gap: 20, rule: 0.7 },
  };
}

/** Smaller pictures, narrower margins, no colour, and no page that is begun without need. */
function inkSaving(style: typeof STANDARD): typeof STANDARD {
  const small = mapType(style, (each) => ({
    ...each,
    size: Math.max(8.5, each.size * 0.92),
    leading: Math.max(11.5, each.leading * 0.9),
    weight: each.size > 20 ? 'regular' : each.weight,
    colour: each.colour === 'accent' ? 'ink' : each.colour,
  }));
  return {
    ...small,
    newPages: false,
    margins: { top: 42, bottom: 62, start: 46, end: 46 },
    figure: { ...small.figure, coverHeightShare: 0.3, photographShare: 0.5, around: 9 },
    table: { ...small.table, rowPadding: 1.1, headRule: 0.6, rowRule: 0.25 },
    footer: { ...small.footer, gap: 17 },
  };
}

/** The style of an edition in the designer's two colours. */
export function pageStyle(
  edition: Document['edition'],
  theme: ColourTheme = HOUSE_COLOURS,
): PageStyle {
  const colours: Colours = {
    ink: theme.ink,
    accent: theme.accent,
    soft: '#55524d',
    hairline: '#b9b5ad',
    tint: '#f3f1ec',
  };
  switch (edition) {
    case 'standard':
    case 'one-size':
      return { ...STANDARD, colours };
    case 'large':
      return { ...largePrint(STANDARD), colours: { ...colours, hairline: '#77736c' } };
    case 'ink-saving':
      return { ...inkSaving(STANDARD), colours: { ...colours, accent: theme.ink } };
  }
}

/** Han, kana and hangul fill their square: a smaller size is as large, and lines need more air. */
const SQUARE_SCRIPTS: Readonly<Record<string, SquareScript>> = {
  ja: { size: 0.93, leading: 1.06, full: true },
  zh: { size: 0.94, leading: 1.06, full: true },
  ko: { size: 0.95, leading: 1.03, full: false },
};

interface SquareScript {
  readonly size: number;
  readonly leading: number;
  /** Lines are filled; Korean has spaces between words and is set like letters. */
  readonly full: boolean;
}

/**
 * The style as the script of a language wants it. Han and kana are set in full lines, because they
 * stand on a grid; letters are set ragged, because the gaps of full lines disturb the eye that looks
 * for its place in a row. Large print stays as large as it says.
 */
export function styleForLanguage(style: PageStyle, language: string): PageStyle {
  const change = SQUARE_SCRIPTS[language.split('-')[0] ?? ''];
  if (change === undefined) return style;
  const { paragraphs } = style;
  const filled = (role: ParagraphRole): ParagraphStyle => ({
    ...paragraphs[role],
    justified: change.full,
    hyphenation: change.full ? 'usual' : paragraphs[role].hyphenation,
  });
  const own = {
    ...paragraphs,
    body: filled('body'),
    lead: filled('lead'),
    note: filled('note'),
    caution: filled('caution'),
  };
  return mapType({ ...style, paragraphs: own }, (each) => ({
    ...each,
    italic: false,
    size: Math.max(Math.min(each.size, style.leastSize), each.size * change.size),
    leading: each.leading * change.leading,
  }));
}
