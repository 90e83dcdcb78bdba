/**
 * The press as one machine: a checked pattern, a language and pictures in, a finished PDF out, and the
 * finished PDF proved against what it had to say. Opened once per process: fonts, languages and
 * templates stay open. Reads no disk; what it needs is passed in.
 */
import { assert, present } from '../base/assert.ts';
import type { Finding } from '../findings/finding.ts';
import { finding } from '../findings/register.ts';
import type { Language } from '../language/index.ts';
import type { CheckedPattern } from '../pattern/pattern.ts';
import type { Paper } from './document.ts';
import { buildEdition } from './edition/edition.ts';
import type { EditionKind, EditionOrder, PlacedPicture } from './edition/order.ts';
import type { Templates } from './edition/templates.ts';
import { BoundedCache } from './fonts/bounded-cache.ts';
import type { PrintFonts } from './fonts/face.ts';
import { layMark } from './layout/lay-out.ts';
import { pageStyle } from './layout/style.ts';
import { stampPdf } from './pdf/stamp.ts';
import { writePdf } from './pdf/write.ts';
import { expectedTexts } from './proof/expected.ts';
import { type ProofCopy, proveDocument } from './proof/prove.ts';
import { type SetDocument, setDocument } from './print.ts';
import { lookOf, typefacesOf } from './theme.ts';

export interface PressOrder {
  readonly checked: CheckedPattern;
  readonly language: string;
  readonly kind: EditionKind;
  /** The name of the size, for a one-size edition. */
  readonly size?: string;
  readonly paper?: Paper;
  /** What changed since the version before, where the designer wrote nothing of it. */
  readonly history?: string;
}

/** A photograph ready for print: JPEG, sRGB, upright. */
export type PrintPicture = PlacedPicture & { readonly bytes: Uint8Array };

export interface Press {
  /** Characters that no font of the press has, before anything is set. */
  legible(order: PressOrder): readonly Finding[];
  compose(
    order: PressOrder,
    pictures: ReadonlyMap<string, PrintPicture>,
  ): { readonly bytes: Uint8Array; readonly pages: number };
  /** A finished file with a mark on every page, such as that it is a proof; its bytes stay as they are. */
  mark(order: PressOrder, bytes: Uint8Array, mark: string): Promise<Uint8Array>;
  /** Findings where the finished file does not say what the pattern says, or could not be set. */
  proof(
    order: PressOrder,
    pictures: ReadonlyMap<string, PlacedPicture>,
    bytes: Uint8Array,
    mark?: string,
  ): Promise<readonly Finding[]>;
}

export interface PressEquipment {
  readonly languages: ReadonlyMap<string, Language>;
  readonly templates: Templates;
  readonly fonts: PrintFonts;
}

/** Proof copies kept between setting a document and proving it; both are made soon after each other. */
const COPIES_KEPT = 8;

export function openPress(equipment: PressEquipment): Press {
  const copies = new WeakMap<CheckedPattern, BoundedCache<string, ProofCopy>>();
  const keep = (order: PressOrder, pictures: Pictures, copy: ProofCopy): void => {
    const kept = copies.get(order.checked) ?? new BoundedCache<string, ProofCopy>(COPIES_KEPT);
    copies.set(order.checked, kept);
    kept.set(copyName(order, pictures), copy);
  };
  return {
    legible: (order) => missingGlyphs(order, equipment),
    compose(order, pictures) {
      const { copy, laid } = set(order, pictures, equipment);
      keep(order, pictures, copy);
      const byHash = new Map([...pictures.values()].map((each) => [each.hash, pressPicture(each)]));
      const resources = { fonts: fontsFor(order, equipment), pictures: byHash };
      return { bytes: writePdf(laid, copy.document, resources), pages: copy.pages };
    },
    mark: (order, bytes, mark) => markPages(order, bytes, mark, equipment),
    proof(order, pictures, bytes, mark) {
      const kept = copies.get(order.checked)?.get(copyName(order, pictures));
      const copy = kept ?? set(order, pictures, equipment).copy;
      const document = mark === undefined ? copy.document : { ...copy.document, mark };
      return proveDocument({ ...copy, document }, bytes);
    },
  };
}

type Pictures = ReadonlyMap<string, PlacedPicture>;

/** Names a document among those of one checked pattern. */
const copyName = (
  { language, kind, size, paper, history }: PressOrder,
  pictures: Pictures,
): string =>
  JSON.stringify([language, kind, size, paper, history, ...[...pictures].map(([file, { hash, widthPixels }]) => [file, hash, widthPixels])]); // prettier-ignore

function set(order: PressOrder, pictures: Pictures, equipment: PressEquipment): SetDocument {
  const { document } = buildEdition(
    editionOrder(order, pictures, equipment),
    equipment.templates,
    order.paper,
  );
  return setDocument(document, fontsFor(order, equipment));
}

/** Where a document that is set with its mark has it, and in the same type. */
function markPages(
  order: PressOrder,
  bytes: Uint8Array,
  mark: string,
  equipment: PressEquipment,
): Promise<Uint8Array> {
  const { tag, settings } = present(equipment.languages.get(order.language), order.language);
  const { colours } = lookOf(order.checked.pattern.bundle.data.theme);
  const fonts = fontsFor(order, equipment);
  const { direction } = settings;
  const document = { language: tag, direction, paper: order.paper ?? settings.paper };
  const stamp = layMark(mark, document, pageStyle(order.kind, colours), fonts);
  assert(stamp.trouble.length === 0, `the mark fits on one line: ${mark}`);
  return stampPdf(bytes, stamp, fonts);
}

/** The fonts with the typefaces the designer chose. */
const fontsFor = ({ checked }: PressOrder, { fonts }: PressEquipment): PrintFonts =>
  fonts.themed(typefacesOf(checked.pattern.bundle.data.theme));

const pressPicture = ({ bytes, widthPixels, heightPixels }: PrintPicture) => ({
  jpeg: bytes,
  widthPixels,
  heightPixels,
});

function editionOrder(
  order: PressOrder,
  pictures: ReadonlyMap<string, PlacedPicture>,
  { languages }: PressEquipment,
): EditionOrder {
  const { checked, kind } = order;
  const language = present(languages.get(order.language), `language ${order.language}`);
  const size = order.size === undefined ? -1 : checked.pattern.sizes.indexOf(order.size);
  const more = {
    ...lookOf(checked.pattern.bundle.data.theme, kind),
    ...(size >= 0 && { size }),
    ...(order.history !== undefined && { history: order.history }),
  };
  return { checked, language, kind, pictures, ...more };
}

/** Every text of the document asked of the fonts; pictures play no part and are left out. */
function missingGlyphs(order: PressOrder, equipment: PressEquipment): readonly Finding[] {
  const { photos } = order.checked.pattern.bundle.data;
  const blank = { hash: '', widthPixels: 1, heightPixels: 1 };
  const pictures = new Map(photos.map(({ file }) => [file, blank]));
  const edition = editionOrder(order, pictures, equipment);
  const { document } = buildEdition(edition, equipment.templates, order.paper);
  const fonts = fontsFor(order, equipment);
  const style = { weight: 'regular', italic: false, language: document.language } as const;
  return expectedTexts(document).flatMap((expected) => {
    const { place } = expected;
    const text = expected.kind === 'text' ? expected.text : expected.cells.join(' ');
    const lacking = new Set(
      (['text', 'display'] as const).flatMap((family) => fonts.missing(text, { ...style, family })),
    );
    if (lacking.size === 0) return [];
    const problem = `no font has ${[...lacking].join(' ')}, in “${text.slice(0, 60)}”`;
    const where = { file: `${order.language}.pdf`, pointer: `/${place}`, label: place };
    return [finding('press/missing-glyph', where, { problem })];
  });
}
