/**
 * What a picture is prepared for: print, at the size it has on the page, or the shop, in the sizes that
 * a shop asks for. Types and what holds for print; the sizes of shops are data of their profiles.
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
  readonly format: 'jpeg' | 'webp' | 'avif';
  /** The largest file a shop takes; coarser, then smaller, until it fits. */
  readonly mostBytes?: number;
}

export type PictureUse = PrintUse | ShopUse;

/** Print at 300 dots to the inch; below 200 the eye sees it (common practice of printers). */
export const PRINT_DPI = 300;
export const LEAST_PRINT_DPI = 200;
