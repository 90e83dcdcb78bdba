/** The specimen set with the fonts of the press: nothing strays, nothing is lost, nothing is missing. */
import { describe, expect, it } from 'vitest';
import { openFonts } from '../../src/press/fonts/fonts.ts';
import { layOut } from '../../src/press/layout/lay-out.ts';
import { pageStyle, styleForLanguage } from '../../src/press/layout/style.ts';
import { strays } from './frame.ts';
import { readAll, said } from './reading.ts';
import { specimen } from './specimen.ts';
import { SPECIMEN_TEXTS } from './specimen-texts.ts';

const fonts = openFonts();
const EDITIONS = ['standard', 'large', 'ink-saving'] as const;

describe('with the fonts of the press', () => {
  for (const [language, texts] of Object.entries(SPECIMEN_TEXTS)) {
    it.each(EDITIONS)(`${language}, %s`, (edition) => {
      for (const paper of ['A4', 'Letter'] as const) {
        const document = specimen(texts, { edition, paper });
        const laid = layOut(document, pageStyle(edition), fonts);
        expect(strays(laid, document, styleForLanguage(pageStyle(edition), language))).toEqual([]);
        expect(readAll(laid)).toBe(said(document));
        expect(laid.trouble).toEqual([]);
      }
    });
  }
});
