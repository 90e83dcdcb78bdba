/**
 * Which files of a release a browser may show by itself: documents, pictures, plain text. Anything else, a
 * web page above all, is kept as a file, so that nothing runs under an address of ours.
 */
const SHOWN = [
  'application/pdf',
  'image/jpeg',
  'image/png',
  'image/webp',
  'image/avif',
  'text/plain',
];

export const isShown = (mediaType: string): boolean =>
  SHOWN.includes(mediaType.split(';')[0] ?? '');
