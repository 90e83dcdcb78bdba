/**
 * What one document is asked for: which edition of a checked pattern, in which language, with which
 * pictures. Shared by the views; types and a few readings of bundle data, no words and no page.
 */
import { sizedValue } from '../../pattern/bundle/sized-data.ts';
import type { BundleData, SizedData } from '../../pattern/bundle/schema.ts';
import { type Sized, sizedOf } from '../../pattern/bundle/size-list.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import {
  type Language,
  type LengthOver,
  type Names,
  namesFor,
  sizeName,
  text,
} from '../../language/index.ts';
import type { Document } from '../document.ts';
import type { Drawing } from '../drawing/drawing.ts';

export type EditionKind = Document['edition'];

/** A photograph as the document places it. */
export interface PlacedPicture {
  readonly hash: string;
  readonly widthPixels: number;
  readonly heightPixels: number;
}

export interface EditionOrder {
  readonly checked: CheckedPattern;
  readonly language: Language;
  readonly kind: EditionKind;
  /** Index of the one size of a one-size edition. */
  readonly size?: number;
  /** What changed since the version before, where the designer wrote nothing of it. */
  readonly history?: string;
  /** The designer's colours and logo. */
  readonly colours?: NonNullable<Document['colours']>;
  readonly logo?: Drawing;
  /** By file name in the bundle. */
  readonly pictures: ReadonlyMap<string, PlacedPicture>;
}

export const dataOf = (order: EditionOrder): BundleData => order.checked.pattern.bundle.data;

export const namesOf = (order: EditionOrder): Names => namesFor(order.checked, order.language);

/** Indexes of the sizes this edition shows. */
export function shownSizes({ checked, size }: EditionOrder): readonly number[] {
  return size === undefined ? checked.pattern.sizes.map((_, index) => index) : [size];
}

/** The name of a size as it stands alone, at the head of a column or below a drawing. */
export const sizeNameOf = (order: EditionOrder, index: number): string =>
  sizeName(order.language, dataOf(order).sizes[index] ?? '');

/** A sized value of the bundle, one for every size of the pattern. */
export function sizedFrom(order: EditionOrder, data: SizedData): Sized {
  const values = order.checked.pattern.sizes.map((_, index) => sizedValue(data, index) ?? null);
  return new Set(values).size === 1 ? sizedOf(values[0] ?? null) : { values, spans: [] };
}

export function lengthFrom(
  order: EditionOrder,
  data: { readonly in?: SizedData | undefined; readonly cm?: SizedData | undefined },
): LengthOver {
  return {
    ...(data.in !== undefined && { inches: sizedFrom(order, data.in) }),
    ...(data.cm !== undefined && { centimetres: sizedFrom(order, data.cm) }),
  };
}

/** Words of the document in this order's language. */
export const wordsOf =
  ({ language }: EditionOrder) =>
  (key: string, values: Readonly<Record<string, string | number>> = {}, count?: number): string =>
    text(language, key, values, count === undefined ? {} : { count });

/** A name as a heading: names are written small in rows and begin with a capital on their own. */
export function asHeading({ language }: EditionOrder, name: string): string {
  if (!language.settings.capitals) return name;
  const [first = ''] = name;
  return first.toLocaleUpperCase(language.tag) + name.slice(first.length);
}
