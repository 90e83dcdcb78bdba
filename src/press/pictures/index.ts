/** What other rooms call to have photographs prepared. */
export { srgbProfile } from './srgb-profile.ts';
export { preparePicture, type Preparation, type PreparedPicture } from './prepare.ts';
export { SHOP_USES, type PictureUse, type PrintUse, type ShopUse } from './uses.ts';
