/**
 * What a picture is prepared for: print, at the size it has on the page, or the shop, in the sizes that
 * shops ask for. Data only; a new shop size is a line here.
 */
export interface PrintUse {
  readonly kind: 'print';
  /** The largest size the picture has on any page. */
  readonly widthPoints: number;
  readonly heightPoints?: number;
}

export interface ShopUse {
  readonly kind: 'shop';
  readonly name: string;
  /** `square` cuts the middle out; `whole` keeps the picture, its longer edge as long as `pixels`. */
  readonly shape: 'square' | 'whole';
  readonly pixels: number;
  readonly format: 'jpeg' | 'webp';
}

export type PictureUse = PrintUse | ShopUse;

/** Print at 300 dots to the inch; below 200 the eye sees it (common practice of printers). */
export const PRINT_DPI = 300;
export const LEAST_PRINT_DPI = 200;

/** Sizes common to shops of hand-made goods: a large square, a large whole picture, a preview. */
export const SHOP_USES: readonly ShopUse[] = [
  { kind: 'shop', name: 'square-2000', shape: 'square', pixels: 2000, format: 'jpeg' },
  { kind: 'shop', name: 'whole-2400', shape: 'whole', pixels: 2400, format: 'jpeg' },
  { kind: 'shop', name: 'whole-1200', shape: 'whole', pixels: 1200, format: 'webp' },
  { kind: 'shop', name: 'square-600', shape: 'square', pixels: 600, format: 'webp' },
];
