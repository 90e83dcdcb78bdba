/**
 * One parcel for one kind of shop: texts that fit its forms, pictures in its sizes, the documents, and
 * the list to work down. Takes the files of a release and a profile, gives a zip: the same bytes for the
 * same release, with names that every disk takes.
 */
import { zipSync, type Zippable } from 'fflate';
import { Fault } from '../../base/fault.ts';
import { printFindings } from '../../findings/text.ts';
import type { Language } from '../../language/index.ts';
import { cautionsFor } from '../../pattern/cautions.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import { dataOf, type EditionOrder, wordsOf } from '../../press/edition/order.ts';
import type { Templates } from '../../press/edition/templates.ts';
import { openProse } from '../../press/edition/view/prose.ts';
import type { PrintFonts } from '../../press/fonts/face.ts';
import { printDocument } from '../../press/print.ts';
import { writeText } from '../../press/text/write-text.ts';
import { extensionOf } from '../keys.ts';
import { gatherListing } from '../listing/listing.ts';
import { productOf, writeProduct } from '../listing/json-ld.ts';
import { safeFolder, safeName } from './names.ts';
import type { ShopProfile } from './profile.ts';
import { shopTexts } from './texts.ts';
import { type ListedPicture, uploadListDocument } from './upload-list.ts';

/** A file of the release that a parcel may hold. */
export interface ParcelFile {
  readonly path: string;
  readonly artifact: string;
  readonly mediaType: string;
  readonly sizeBytes: number;
  readonly language: string;
}

export interface ParcelPicture {
  /** File name in the bundle. */
  readonly file: string;
  readonly size: string;
  readonly artifact: string;
  readonly mediaType: string;
  readonly sizeBytes: number;
  readonly widthPixels: number;
  readonly heightPixels: number;
}

export interface ParcelOrder {
  readonly profile: ShopProfile;
  readonly checked: CheckedPattern;
  readonly languages: readonly Language[];
  /** Names of all languages on offer, each in itself. */
  readonly offered: readonly string[];
  /** The language of the upload list's own descriptions. */
  readonly source: Language;
  readonly documents: readonly ParcelFile[];
  readonly pictures: readonly ParcelPicture[];
  fetch(artifact: string, mediaType: string): Promise<Uint8Array>;
}

export interface Parcel {
  readonly zip: Uint8Array;
  /** The upload list by itself, to print before the parcel is opened. */
  readonly list: Uint8Array;
}

/** Local time of the earliest day a zip can name, so that its bytes are the same in every zone. */
const ZIP_DAY = new Date(1980, 0, 1);

export async function packParcel(
  order: ParcelOrder,
  templates: Templates,
  fonts: PrintFonts,
): Promise<Parcel> {
  const parts = new Map<string, Uint8Array>();
  const pictures = chosenPictures(order);
  for (const each of pictures)
    parts.set(each.place, await order.fetch(each.artifact, each.mediaType));
  const sections = [];
  for (const language of order.languages) {
    const { tag, settings } = language;
    const { files, heading } = textsOf(order, language, pictures, templates);
    for (const { place, text } of files) parts.set(place, encode(text));
    const documents = documentsOf(order, language);
    for (const each of documents)
      parts.set(each.place, await order.fetch(each.artifact, each.mediaType));
    const listed = [...files, ...documents].map(({ place, note }) => ({ name: place, note }));
    sections.push({ tag, name: `${settings.englishName} (${tag})`, heading, files: listed });
  }
  const list = { ...listHead(order), pictures, languages: sections };
  const document = uploadListDocument(list, templates);
  const printed = await printDocument(document, fonts);
  if (printed.findings.length > 0)
    throw new Fault('input', printFindings(printed.findings), { place: 'upload-list.pdf' });
  parts.set('upload-list.pdf', printed.bytes);
  parts.set('upload-list.txt', encode(writeText(document)));
  return { zip: zipOf(parts), list: printed.bytes };
}

/** The documents of one language, where the profile wants them in the parcel. */
function documentsOf({ profile, documents }: ParcelOrder, { tag }: Language) {
  if (!profile.documents) return [];
  return documents
    .filter(({ language }) => language === tag)
    .map((each) => ({
      ...each,
      place: `${safeFolder(tag)}/${safeName(each.path)}`,
      note: `${Math.ceil(each.sizeBytes / 1000)} kB`,
    }));
}

function listHead(order: ParcelOrder) {
  const edition = editionOf(order, order.source);
  const data = dataOf(edition);
  const { name, about } = order.profile;
  return {
    title: `Upload list: ${openProse(edition).line('title') ?? data.id} ${data.version}, ${name}`,
    about,
    issued: data.issued,
    studio: data.studio.name,
    cautions: cautionsFor(data).map((id) => wordsOf(edition)(`caution.${id}`)),
  };
}

const editionOf = ({ checked }: ParcelOrder, language: Language): EditionOrder => ({
  checked,
  language,
  kind: 'standard',
  pictures: new Map(),
});

// ---------------------------------------------------------------- pictures

interface PlacedPicture extends ListedPicture, ParcelPicture {
  readonly place: string;
}

/** The cover first, then as the bundle has them, each in the sizes of the profile. */
function chosenPictures(order: ParcelOrder): readonly PlacedPicture[] {
  const edition = editionOf(order, order.source);
  const prose = openProse(edition);
  const { photos } = dataOf(edition);
  const ordered = [...photos].sort(
    (a, b) => Number(b.role === 'cover') - Number(a.role === 'cover'),
  );
  return ordered.slice(0, order.profile.mostPictures).flatMap((photo, index) =>
    order.profile.pictures.flatMap(({ name: size }) => {
      const made = order.pictures.find((each) => each.file === photo.file && each.size === size);
      if (!made) return [];
      const stem = photo.file.replace(/\.[^.]*$/, '');
      const number = String(index + 1).padStart(2, '0');
      const name = safeName(`${number}-${stem}-${size}.${extensionOf(made.mediaType)}`);
      const place = `pictures/${name}`;
      return [{ ...made, name: place, place, alternative: prose.line(photo.alt) ?? '' }];
    }),
  );
}

// ---------------------------------------------------------------- texts of one language

interface TextPart {
  readonly place: string;
  readonly text: string;
  readonly note: string;
}

function textsOf(
  order: ParcelOrder,
  language: Language,
  pictures: readonly PlacedPicture[],
  templates: Templates,
): { readonly files: readonly TextPart[]; readonly heading: string } {
  const edition = editionOf(order, language);
  const listing = gatherListing(edition, order.offered);
  const folder = safeFolder(language.tag);
  const texts = shopTexts(listing, order.profile, language, templates);
  const files = texts.map(({ name, ...rest }) => ({ place: `${folder}/${name}`, ...rest }));
  const described = { text: describe(edition, pictures), note: 'what each picture shows' };
  files.push({ place: `${folder}/pictures.txt`, ...described });
  if (order.profile.formats.includes('json-ld')) {
    const product = productOf({
      edition,
      listing,
      pictures: pictures.map(({ place }) => `../${place}`),
      documents: documentsOf(order, language).map(({ path, mediaType }) => ({
        path: safeName(path),
        mediaType,
      })),
    });
    const linked = { text: writeProduct(product), note: 'linked data for the page' };
    files.push({ place: `${folder}/product.jsonld`, ...linked });
  }
  return { files, heading: listing.title };
}

/** One line a picture: its name and what it shows, in this language. */
function describe(edition: EditionOrder, pictures: readonly PlacedPicture[]): string {
  const prose = openProse(edition);
  const { photos } = dataOf(edition);
  const lines = pictures.map(({ name, file }) => {
    const photo = photos.find((each) => each.file === file);
    return `${name}: ${(photo && prose.line(photo.alt)) ?? ''}`;
  });
  return `${lines.join('\n')}\n`;
}

// ---------------------------------------------------------------- the zip

/** Beyond this a text is a page that carries its pictures, which are packed already. */
const LONGEST_TEXT = 64 * 1024;

/** Texts are packed, what is packed already is only stored. */
function zipOf(parts: ReadonlyMap<string, Uint8Array>): Uint8Array {
  const files: Zippable = {};
  for (const [place, bytes] of [...parts].sort(([a], [b]) => (a < b ? -1 : 1))) {
    const isText = /\.(txt|html|jsonld)$/.test(place) && bytes.length < LONGEST_TEXT;
    const level = isText ? 6 : 0;
    files[place] = [bytes, { level, mtime: ZIP_DAY }];
  }
  return zipSync(files);
}

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);
