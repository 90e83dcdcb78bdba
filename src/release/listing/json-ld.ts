/**
 * The listing as linked data: a Product of the schema.org vocabulary, in JSON-LD 1.1, for the page of a
 * studio's own shop. Takes a gathered listing and the pattern, gives a record; no price and no
 * availability, since only the shop knows them. The types of the vocabulary check every property.
 */
import type { DigitalDocument, Product, PropertyValue, WithContext } from 'schema-dts';
import { plainText, sayGauge, sayNeedle } from '../../language/index.ts';
import { dataOf, type EditionOrder, namesOf, wordsOf } from '../../press/edition/order.ts';
import { openProse } from '../../press/edition/view/prose.ts';
import { type Listing, yarnsOf } from './listing.ts';

export interface ProductOrder {
  readonly edition: EditionOrder;
  readonly listing: Listing;
  /** Relative addresses of pictures, the cover first. */
  readonly pictures: readonly string[];
  /** Relative addresses of the document in this language, by media type. */
  readonly documents: readonly { readonly path: string; readonly mediaType: string }[];
}

/** Strings are in the language that the context names (JSON-LD 1.1, 4.2.4). */
export function productOf(order: ProductOrder): WithContext<Product> {
  const { edition, listing, pictures } = order;
  const data = dataOf(edition);
  const product: Product = {
    '@type': 'Product',
    name: listing.title,
    description: listing.paragraphs.join('\n\n'),
    sku: `${data.id}-${edition.language.tag}`,
    productID: data.id,
    brand: { '@type': 'Brand', name: data.studio.name },
    manufacturer: { '@type': 'Organization', name: data.studio.name },
    releaseDate: data.issued,
    ...(pictures.length > 0 && { image: [...pictures] }),
    keywords: listing.tags.join(', '),
    material: [...yarnsOf(edition)],
    size: [...data.sizes],
    additionalProperty: [...propertiesOf(edition, listing)],
    subjectOf: order.documents.map((document) => documentOf(order, document)),
  };
  // The type of a context knows only one address; JSON-LD allows a list of them.
  const context = ['https://schema.org', { '@language': edition.language.tag }];
  return { '@context': context, ...product } as unknown as WithContext<Product>;
}

function documentOf(
  { edition, listing }: ProductOrder,
  { path, mediaType }: ProductOrder['documents'][number],
): DigitalDocument {
  const data = dataOf(edition);
  return {
    '@type': 'DigitalDocument',
    name: openProse(edition).line('title') ?? listing.title,
    url: path,
    encodingFormat: mediaType,
    inLanguage: edition.language.tag,
    version: data.version,
    dateModified: data.issued,
    author: { '@type': 'Person', name: data.studio.designer },
    copyrightNotice: data.studio.copyright,
  };
}

function propertiesOf(edition: EditionOrder, listing: Listing): readonly PropertyValue[] {
  const data = dataOf(edition);
  const { language } = edition;
  const words = wordsOf(edition);
  const names = namesOf(edition);
  const property = (name: string, value: string): PropertyValue => ({
    '@type': 'PropertyValue',
    name,
    value,
  });
  return [
    ...data.gauges.map((gauge) =>
      property(words('heading.gauge'), plainText(sayGauge(language, names, gauge))),
    ),
    ...[...new Set(data.needles.map(({ mm }) => mm))].map((mm) =>
      property(words('heading.needles'), plainText(sayNeedle(language, mm))),
    ),
    property(words('label.level'), words(`level.${data.level}`)),
    ...listing.cautions.map((caution) => property(words('heading.notes'), caution)),
  ];
}

/** Indented, with a newline at the end. */
export const writeProduct = (product: WithContext<Product>): string =>
  `${JSON.stringify(product, null, 2)}\n`;
