/**
 * What one test knitter is given: the copy of her size in her language, and the sheet to fill in and send
 * back in three forms. Takes a checked pattern without blocking findings; nothing is written here.
 */
import { present } from '../../base/assert.ts';
import { Fault } from '../../base/fault.ts';
import { printFindings } from '../../findings/text.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import type { EditionOrder } from '../../press/edition/order.ts';
import type { PressEquipment, PrintPicture } from '../../press/press.ts';
import { printDocument } from '../../press/print.ts';
import { lookOf, typefacesOf } from '../../press/theme.ts';
import { safeName } from '../../release/shop/names.ts';
import type { PacketFile } from '../files.ts';
import { planReturn } from './plan.ts';
import { returnCsv, returnJson, returnWorkbook } from './return-sheet.ts';
import { buildTestCopy, testTitle } from './test-copy.ts';

export interface TestCopyOrder {
  /** Language of the copy. */
  readonly tag: string;
  readonly size: string;
}

/** `de/my-hat-1-0-0-test-m-de`: safe for every disk and mail. */
export function testCopyName({ pattern }: CheckedPattern, { tag, size }: TestCopyOrder): string {
  const { id, version } = pattern.bundle.data;
  const stem = `${id}-${version}-test-${size}-${tag}`.toLowerCase().replaceAll(/[ .]/g, '-');
  return `${tag}/${safeName(stem)}`;
}

/** `pictures`: the photographs of the pattern by file name, in the size of print. */
export async function printTestCopy(
  checked: CheckedPattern,
  { tag, size }: TestCopyOrder,
  pictures: ReadonlyMap<string, PrintPicture>,
  { languages, templates, fonts }: PressEquipment,
): Promise<{ readonly files: readonly PacketFile[]; readonly pages: number }> {
  const { theme } = checked.pattern.bundle.data;
  const language = present(languages.get(tag), `language ${tag}`);
  const at = checked.pattern.sizes.indexOf(size);
  const edition: EditionOrder = {
    checked, language, kind: 'one-size', size: at, pictures, ...lookOf(theme),
  }; // prettier-ignore
  const plan = planReturn(edition);
  const jpegs = new Map(
    [...pictures.values()].map(({ hash, bytes, widthPixels, heightPixels }) => [
      hash, { jpeg: bytes, widthPixels, heightPixels },
    ]),
  ); // prettier-ignore
  const document = buildTestCopy(edition, plan, templates);
  const printed = await printDocument(document, fonts.themed(typefacesOf(theme)), jpegs);
  if (printed.findings.length > 0)
    throw new Fault('input', printFindings(printed.findings), { place: `${tag}, size ${size}` });
  const name = testCopyName(checked, { tag, size });
  const title = testTitle(edition);
  const files = [
    { name: `${name}.pdf`, bytes: printed.bytes },
    { name: `${name}-return.xlsx`, bytes: await returnWorkbook(plan, language, title) },
    { name: `${name}-return.csv`, bytes: returnCsv(plan, language, title) },
    { name: `${name}-return.json`, bytes: returnJson(plan) },
  ];
  return { files, pages: printed.pages };
}
