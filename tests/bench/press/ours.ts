/**
 * One process of the press: sets the documents it is told of, writes their files, and tells what that
 * cost since the process began. Bundled before it is measured, as the functions are.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Document } from '../../../src/press/document.ts';
import { openFonts } from '../../../src/press/fonts/fonts.ts';
import { layOut } from '../../../src/press/layout/lay-out.ts';
import { writePdf } from '../../../src/press/pdf/write.ts';
import { benchStyle } from './style.ts';

const [folder = '', fontFolder = '', ...names] = process.argv.slice(2);

const cpuMilliseconds = (): number => {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1000;
};

const fonts = openFonts({ folder: fontFolder });
const pictures = new Map(
  Array.from({ length: 6 }, (_, photo) => {
    const jpeg = new Uint8Array(readFileSync(join(folder, `photo-${photo}.jpg`)));
    return [`photo-${photo}`, { jpeg, widthPixels: 1200, heightPixels: 900 }] as const;
  }),
);
const costs: number[] = [];
let pages = 0;
let bytes = 0;
for (const name of names) {
  const document = JSON.parse(readFileSync(join(folder, `${name}.json`), 'utf8')) as Document;
  const laid = layOut(document, benchStyle, fonts);
  const file = writePdf(laid, document, { fonts, pictures });
  writeFileSync(join(folder, `${name}-ours.pdf`), file);
  costs.push(cpuMilliseconds());
  pages = laid.pages.length;
  bytes = file.length;
}
const peakMegabytes = process.resourceUsage().maxRSS / 1024;
console.log(JSON.stringify({ costs, pages, bytes, peakMegabytes }));
