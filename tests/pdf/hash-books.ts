/** Prints the hashes of the sample books named on the command line; run in processes of their own. */
import { createHash } from 'node:crypto';
import { writePdf } from '../../src/press/pdf/write.ts';
import { factsFor, fonts, greyJpeg, pictures, sampleBook } from './hand-set.ts';

const hashes = process.argv.slice(2).map((language) => {
  const laid = sampleBook(language).laid();
  const bytes = writePdf(laid, factsFor(language), { fonts, pictures: pictures(greyJpeg()) });
  return [language, createHash('sha256').update(bytes).digest('hex')] as const;
});
process.stdout.write(JSON.stringify(Object.fromEntries(hashes)));
