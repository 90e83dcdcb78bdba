/**
 * What a release holds besides its documents and pictures: listings, accessible pages, correction
 * sheets, parcels for shops, the record of the bundle. Takes a checked pattern and what was made for it;
 * gives files that are made only when their recipe leads nowhere yet. Stores nothing itself.
 */
import { present } from '../base/assert.ts';
import { Fault } from '../base/fault.ts';
import { printFindings } from '../findings/text.ts';
import type { Language } from '../language/index.ts';
import type { CheckedPattern } from '../pattern/pattern.ts';
import type { EditionOrder } from '../press/edition/order.ts';
import { lookOf } from '../press/theme.ts';
import type { PressEquipment } from '../press/press.ts';
import { writeErrata } from './errata/errata.ts';
import { gatherListing } from './listing/listing.ts';
import { productOf, writeProduct } from './listing/json-ld.ts';
import { descriptionHtml, listingText } from './listing/write.ts';
import type { ReleasedFile } from './manifest.ts';
import { writePage } from './page.ts';
import { printedData } from './printed-data.ts';
import { markOf, type MarkedStage } from './stage.ts';
import { packParcel, type ParcelPicture } from './shop/parcel.ts';
import type { ShopProfile } from './shop/profile.ts';

/** A file of a release that is not made yet. */
export interface Companion {
  /** Inside the folder of the version. */
  readonly path: string;
  readonly mediaType: string;
  readonly role: ReleasedFile['role'];
  readonly language?: string;
  /** All that decides its bytes, as plain JSON. */
  readonly inputs: unknown;
  make(): Promise<Uint8Array>;
}

export interface CompanionOrder {
  readonly checked: CheckedPattern;
  readonly languages: readonly string[];
  /** Earlier versions, the one this release follows first. */
  readonly earlier: readonly CheckedPattern[];
  /** What changed since the version before, by language, where the designer wrote nothing of it. */
  readonly history: Readonly<Record<string, string>>;
  /** Photographs in every size that was made. */
  readonly pictures: readonly ParcelPicture[];
  /** Documents of the release, by path. */
  readonly documents: readonly ReleasedFile[];
  /** Set where the release is not for sale. */
  readonly stage?: MarkedStage;
  /** Begins the name of every file that belongs to this release. */
  readonly name: string;
  fetch(artifact: string, mediaType: string): Promise<Uint8Array>;
}

export interface Studio extends PressEquipment {
  readonly profiles: readonly ShopProfile[];
  /** Names the program and its data, as part of every recipe. */
  readonly program: string;
}

/** The size a page shows pictures in; a profile of every installation makes it. */
const SCREEN_SIZE = 'whole-1200';
const PRINT_SIZE = 'print';

/** Listings, pages and correction sheets, language by language. */
export function companionsOf(order: CompanionOrder, studio: Studio): readonly Companion[] {
  return order.languages.flatMap((tag) => {
    const language = present(studio.languages.get(tag), `language ${tag}`);
    return [
      pageOf(order, language, studio),
      ...listingsOf(order, language, studio),
      // Only buyers are sent corrections.
      ...(order.stage === undefined ? errataOf(order, language, studio) : []),
    ];
  });
}

const encode = (text: string): Uint8Array => new TextEncoder().encode(text);

/** What decides the texts of one language: not the prose of the others. */
function inputsOf({ checked }: CompanionOrder, { tag }: Language, { program }: Studio) {
  const { data: all, prose } = checked.pattern.bundle;
  const data = printedData(all, tag);
  return { program, data, prose: prose.get(tag), language: tag };
}

function editionOf(
  { checked, pictures, history }: CompanionOrder,
  language: Language,
): EditionOrder {
  const line = history[language.tag];
  const placed = pictures
    .filter(({ size }) => size === PRINT_SIZE)
    .map(({ file, artifact, widthPixels, heightPixels }) => {
      return [file, { hash: artifact, widthPixels, heightPixels }] as const;
    });
  const more = line === undefined ? {} : { history: line };
  const look = lookOf(checked.pattern.bundle.data.theme);
  return { checked, language, kind: 'standard', pictures: new Map(placed), ...look, ...more };
}

function pageOf(order: CompanionOrder, language: Language, studio: Studio): Companion {
  const screen = order.pictures.filter(({ size }) => size === SCREEN_SIZE);
  const inputs = inputsOf(order, language, studio);
  const mark = order.stage && markOf(language, order.stage);
  return {
    path: `${language.tag}/${order.name}-${language.tag}.html`,
    mediaType: 'text/html',
    role: 'page',
    language: language.tag,
    inputs: {
      step: 'page',
      ...inputs,
      history: order.history[language.tag],
      mark,
      pictures: screen.map(({ file, artifact }) => [file, artifact]),
    },
    async make() {
      const pictures = new Map(
        await Promise.all(
          screen.map(async ({ file, artifact, mediaType }) => {
            const bytes = await order.fetch(artifact, mediaType);
            return [file, { bytes, mediaType }] as const;
          }),
        ),
      );
      return encode(writePage(editionOf(order, language), pictures, studio.templates, mark));
    },
  };
}

// ---------------------------------------------------------------- listings

function listingsOf(
  order: CompanionOrder,
  language: Language,
  studio: Studio,
): readonly Companion[] {
  const edition = editionOf(order, language);
  const listing = gatherListing(edition, offeredBy(order, studio));
  const inputs = inputsOf(order, language, studio);
  const documents = order.documents.filter((each) => each.language === language.tag);
  const companion = (name: string, mediaType: string, text: () => string): Companion => ({
    path: `${language.tag}/${name}`,
    mediaType,
    role: 'listing',
    language: language.tag,
    inputs: { step: 'listing', name, ...inputs, languages: order.languages },
    make: () => Promise.resolve(encode(text())),
  });
  return [
    companion('listing.txt', 'text/plain', () => listingText(listing, language, studio.templates)),
    companion('listing.html', 'text/html', () =>
      descriptionHtml(listing, language, studio.templates),
    ),
    companion('product.jsonld', 'application/ld+json', () =>
      writeProduct(
        productOf({
          edition,
          listing,
          pictures: [],
          documents: documents.map(({ path, mediaType }) => ({
            path: path.split('/').at(-1) ?? path,
            mediaType,
          })),
        }),
      ),
    ),
  ];
}

/** Names of the languages on offer, each in itself. */
const offeredBy = (order: CompanionOrder, { languages }: Studio): readonly string[] =>
  order.languages.map((tag) => languages.get(tag)?.settings.name ?? tag);

// ---------------------------------------------------------------- corrections

/** Where a version follows another one that was said in this language, and prints otherwise. */
function errataOf(order: CompanionOrder, language: Language, studio: Studio): readonly Companion[] {
  const { tag } = language;
  const earlier = order.earlier.filter(({ pattern }) =>
    pattern.bundle.data.languages.includes(tag),
  );
  if (earlier[0] !== order.earlier[0] || earlier.length === 0) return [];
  const errata = writeErrata({ now: order.checked, language, earlier }, studio.templates);
  if (!errata) return [];
  let printing: ReturnType<typeof errata.print> | undefined;
  const hashes = earlier.map(({ pattern }) => pattern.bundle.hash);
  const companion = (name: string, mediaType: string): Companion => ({
    path: `${tag}/${order.name}-${tag}-${name}`,
    mediaType,
    role: 'errata',
    language: tag,
    inputs: { step: 'errata', name, ...inputsOf(order, language, studio), earlier: hashes },
    async make() {
      printing ??= errata.print(studio.fonts);
      const { files, findings } = await printing;
      if (findings.length > 0) throw new Fault('input', printFindings(findings), { place: name });
      return present(
        files.find((each) => each.name === name),
        name,
      ).bytes;
    },
  });
  return [
    companion('errata.pdf', 'application/pdf'),
    companion('errata.html', 'text/html'),
    companion('errata.txt', 'text/plain'),
    companion('notice.txt', 'text/plain'),
  ];
}

// ---------------------------------------------------------------- parcels

/** One parcel a profile, and its upload list beside it. `files`: everything the release holds so far. */
export function parcelsOf(
  order: CompanionOrder,
  files: readonly ReleasedFile[],
  studio: Studio,
): readonly Companion[] {
  const { bundle } = order.checked.pattern;
  const documents = files.flatMap((file) =>
    (file.role === 'document' || file.role === 'page') && file.language !== undefined
      ? [{ ...file, language: file.language }]
      : [],
  );
  const languages = order.languages.map((tag) => present(studio.languages.get(tag), tag));
  return studio.profiles.flatMap((profile) => {
    const source = present(studio.languages.get(bundle.data.language), bundle.data.language);
    const pictures = order.pictures.filter(({ size }) => size !== PRINT_SIZE);
    const offered = offeredBy(order, studio);
    const rest = { profile, languages, offered, source, documents, pictures };
    let packing: ReturnType<typeof packParcel> | undefined;
    const pack = () =>
      (packing ??= packParcel(
        {
          ...rest,
          checked: order.checked,
          fetch: (artifact, mediaType) => order.fetch(artifact, mediaType),
        },
        studio.templates,
        studio.fonts,
      ));
    const inputs = {
      step: 'parcel',
      program: studio.program,
      bundle: bundle.hash,
      profile,
      languages: order.languages,
      documents: documents.map(({ path, artifact }) => [path, artifact]),
      pictures: pictures.map(({ file, size, artifact }) => [file, size, artifact]),
    };
    const of = (name: string, mediaType: string, part: 'zip' | 'list'): Companion => ({
      path: `shop/${name}`,
      mediaType,
      role: 'shop',
      inputs: { ...inputs, part },
      make: async () => (await pack())[part],
    });
    return [
      of(`${profile.name}.zip`, 'application/zip', 'zip'),
      of(`${profile.name}-upload-list.pdf`, 'application/pdf', 'list'),
    ];
  });
}
