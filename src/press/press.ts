/**
 * The press as one machine: a checked pattern, a language and pictures in, a finished PDF out, and the
 * finished PDF proved against what it had to say. Opened once per process: fonts, languages and
 * templates stay open. Reads no disk; what it needs is passed in.
 */
import { present } from '../base/assert.ts';
import type { Finding } from '../findings/finding.ts';
import { finding } from '../findings/register.ts';
import type { Language } from '../language/index.ts';
import type { CheckedPattern } from '../pattern/pattern.ts';
import type { Document, Paper } from './document.ts';
import { buildEdition } from './edition/edition.ts';
import type { EditionKind, EditionOrder, PlacedPicture } from './edition/order.ts';
import type { Templates } from './edition/templates.ts';
import { writeListing } from './edition/view/listing.ts';
import type { PrintFonts } from './fonts/face.ts';
import type { Laid, LayoutTrouble } from './layout/frames.ts';
import { layOut } from './layout/lay-out.ts';
import { pageStyle } from './layout/style.ts';
import { writePdf } from './pdf/write.ts';
import { compareTexts } from './proof/compare.ts';
import { expectedTexts } from './proof/expected.ts';
import { readPdf } from './proof/read-pdf.ts';

export interface PressOrder {
  readonly checked: CheckedPattern;
  readonly language: string;
  readonly kind: EditionKind;
  /** The name of the size, for a one-size edition. */
  readonly size?: string;
  readonly paper?: Paper;
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
  /** The text for the shop, plain, ready to paste. */
  listing(order: PressOrder): string;
  /** Findings where the finished file does not say what the pattern says, or could not be set. */
  proof(
    order: PressOrder,
    pictures: ReadonlyMap<string, PlacedPicture>,
    bytes: Uint8Array,
  ): Promise<readonly Finding[]>;
}

export interface PressEquipment {
  readonly languages: ReadonlyMap<string, Language>;
  readonly templates: Templates;
  readonly fonts: PrintFonts;
}

export function openPress(equipment: PressEquipment): Press {
  const set = (order: PressOrder, pictures: ReadonlyMap<string, PlacedPicture>) => {
    const { document } = buildEdition(
      editionOrder(order, pictures, equipment),
      equipment.templates,
      order.paper,
    );
    return { document, laid: layOut(document, pageStyle(document.edition), equipment.fonts) };
  };
  return {
    legible: (order) => missingGlyphs(order, equipment),
    compose(order, pictures) {
      const { document, laid } = set(order, pictures);
      const byHash = new Map([...pictures.values()].map((each) => [each.hash, pressPicture(each)]));
      const bytes = writePdf(laid, document, { fonts: equipment.fonts, pictures: byHash });
      return { bytes, pages: laid.pages.length };
    },
    listing(order) {
      const { languages, templates } = equipment;
      const offered = order.checked.pattern.bundle.data.languages.map(
        (tag) => languages.get(tag)?.settings.name ?? tag,
      );
      return writeListing(editionOrder(order, new Map(), equipment), templates, offered);
    },
    async proof(order, pictures, bytes) {
      const { document, laid } = set(order, pictures);
      return [...troubleFindings(order, laid), ...(await readBack(order, document, laid, bytes))];
    },
  };
}

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
  return { checked, language, kind, pictures, ...(size >= 0 && { size }) };
}

/** Every text of the document asked of the fonts; pictures play no part and are left out. */
function missingGlyphs(order: PressOrder, equipment: PressEquipment): readonly Finding[] {
  const { photos } = order.checked.pattern.bundle.data;
  const blank = { hash: '', widthPixels: 1, heightPixels: 1 };
  const pictures = new Map(photos.map(({ file }) => [file, blank]));
  const edition = editionOrder(order, pictures, equipment);
  const { document } = buildEdition(edition, equipment.templates, order.paper);
  const style = { weight: 'regular', italic: false, language: document.language } as const;
  return expectedTexts(document).flatMap(({ place, text }) => {
    const lacking = new Set(
      (['text', 'display'] as const).flatMap((family) =>
        equipment.fonts.missing(text, { ...style, family }),
      ),
    );
    if (lacking.size === 0) return [];
    const problem = `no font has ${[...lacking].join(' ')}, in “${text.slice(0, 60)}”`;
    return [finding('press/missing-glyph', documentPlace(order, `/${place}`, place), { problem })];
  });
}

// ---------------------------------------------------------------- what is found on the sheets

/** The place of a finding about a finished document. */
const documentPlace = (order: PressOrder, pointer: string, label?: string) => ({
  file: `${order.language}.pdf`,
  pointer,
  ...(label !== undefined && { label }),
});

function troubleFindings(order: PressOrder, laid: Laid): readonly Finding[] {
  return laid.trouble.map((trouble) => {
    const place = documentPlace(order, `/pages/${trouble.page + 1}`, `page ${trouble.page + 1}`);
    return finding(TROUBLE[trouble.kind], place, { problem: trouble.text });
  });
}

const TROUBLE = {
  overflow: 'press/overflow',
  'missing-glyph': 'press/missing-glyph',
  'picture-resolution': 'press/coarse-picture',
} as const satisfies Record<LayoutTrouble['kind'], string>;

async function readBack(
  order: PressOrder,
  document: Document,
  laid: Laid,
  bytes: Uint8Array,
): Promise<readonly Finding[]> {
  const read = await readPdf(bytes);
  const differences = compareTexts(expectedTexts(document), read.text);
  const findings = differences.map(({ place, expected, found }) =>
    finding('press/proof', documentPlace(order, `/${place}`, place), { expected, found }),
  );
  if (read.pages === laid.pages.length) return findings;
  const facts = { expected: `${laid.pages.length} pages`, found: `${read.pages} pages` };
  return [...findings, finding('press/proof', documentPlace(order, '/pages'), facts)];
}
