/** What other rooms call to have photographs prepared. */
export { preparePicture, type Preparation, type PreparedPicture } from './prepare.ts';
export type { PictureUse, PrintUse, ShopUse } from './uses.ts';
