/**
 * Speed of fonts and PDF writer on the yardstick document, warm. Frames are laid out once, outside of
 * what is measured; the whole path, cold and warm, is measured by the bench of the press.
 */
import { bench, describe } from 'vitest';
import { openFonts } from '../../src/press/fonts/fonts.ts';
import { layOut } from '../../src/press/layout/lay-out.ts';
import { pageStyle } from '../../src/press/layout/style.ts';
import { writePdf } from '../../src/press/pdf/write.ts';
import { photographs, yardstick } from './yardstick.ts';

const fonts = openFonts();
const pictures = await photographs();

for (const language of ['en', 'de', 'ja']) {
  const document = yardstick(language);
  const laid = layOut(document, pageStyle('standard'), fonts);
  const file = writePdf(laid, document, { fonts, pictures });
  const kilobytes = Math.round(file.length / 1024);
  const style = { family: 'text', weight: 'regular', italic: false, language } as const;
  const words = document.blocks.flatMap((block) =>
    block.kind === 'paragraph'
      ? block.content.flatMap((inline) => (inline.kind === 'text' ? inline.text.split(' ') : []))
      : [],
  );

  describe(`${language}: ${laid.pages.length} pages, ${words.length} words, ${kilobytes} kB`, () => {
    bench('frames to bytes', () => void writePdf(laid, document, { fonts, pictures }));
    bench('words shaped, all known', () => {
      for (const word of words) fonts.shape(word, style);
    });
    bench('words shaped, none known', () => {
      const fresh = openFonts();
      for (const word of words) fresh.shape(word, style);
    });
  });
}
