/**
 * `castoff packet test BUNDLE --to FOLDER`: for each size a test copy in each language, with a return
 * sheet in three forms. Only a pattern without blocking findings goes to test knitters: their weeks are
 * not spent on what a check already knows.
 */
import path from 'node:path';
import { present } from '../../base/assert.ts';
import { Fault } from '../../base/fault.ts';
import { hashBytes } from '../../base/hash.ts';
import { blocks } from '../../findings/finding.ts';
import { printFindings } from '../../findings/text.ts';
import { planReturn } from '../../packet/testing/plan.ts';
import { returnCsv, returnJson, returnWorkbook } from '../../packet/testing/return-sheet.ts';
import { buildTestCopy, testTitle } from '../../packet/testing/test-copy.ts';
import { PRINT_SIZE, type Rooms } from '../../pipeline/ports.ts';
import type { Equipment } from '../../pipeline/rooms.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import type { EditionOrder } from '../../press/edition/order.ts';
import type { PrintPicture } from '../../press/press.ts';
import { printDocument } from '../../press/print.ts';
import { lookOf, typefacesOf } from '../../press/theme.ts';
import { safeName } from '../../release/shop/names.ts';
import {
  type ExitCode,
  listOption,
  onlyWord,
  type Options,
  type Terminal,
  textOption,
  usageFault,
  type Words,
} from '../command.ts';
import { type PacketFile, refuseTaken, writePacket } from '../packet-files.ts';
import { bundlePath, openOwnEquipment, openOwnRooms } from '../resources.ts';
import { checkBundle } from './check.ts';
import { packetCommand } from './packet.ts';

export async function runTestPacket(
  words: Words,
  options: Options,
  terminal: Terminal,
): Promise<ExitCode> {
  const bundle = onlyWord(packetCommand, words, 'a BUNDLE: a folder or a zip');
  const to = textOption(options, 'to');
  if (to === undefined) throw usageFault(packetCommand, 'packet test needs --to FOLDER');
  const rooms = await openOwnRooms();
  const { findings, checked } = await checkBundle(bundlePath(bundle, terminal), rooms);
  const blocking = findings.filter(blocks);
  if (!checked || blocking.length > 0) {
    terminal.out(printFindings(checked ? blocking : findings));
    terminal.out('No test copies were made: a test knitter is not to find what a check has found.');
    return 1;
  }
  const { data } = checked.pattern.bundle;
  const sizes = chosen(options, 'sizes', data.sizes, 'size');
  const tags = chosen(options, 'languages', data.languages, 'language');
  const folder = path.resolve(terminal.folder, to);
  const orders = tags.flatMap((tag) => sizes.map((size) => ({ tag, size })));
  await refuseTaken(folder, orders.map((each) => `${nameOf(checked, each)}.pdf`)); // prettier-ignore
  const equipment = await openOwnEquipment();
  const pictures = await preparePictures(checked, rooms);
  for (const order of orders) {
    const { files, pages } = await makeCopy(checked, order, pictures, equipment);
    await writePacket(folder, files);
    terminal.out(`  ${order.tag.padEnd(8)} ${order.size.padEnd(8)} ${pages} pages`);
  }
  terminal.out(
    `${orders.length} test copies are in ${to}, each with its return sheet as .xlsx, .csv and .json.`,
  );
  terminal.out(`When they are back: castoff packet results ${to}/…`);
  return 0;
}

function chosen(
  options: Options,
  name: string,
  all: readonly string[],
  what: string,
): readonly string[] {
  const wanted = listOption(options, name);
  const unknown = wanted?.find((each) => !all.includes(each));
  if (unknown !== undefined)
    throw new Fault('usage', `the pattern has no ${what} ${unknown}`, {
      remedy: `one of: ${all.join(', ')}`,
    });
  return wanted ? all.filter((each) => wanted.includes(each)) : all;
}

interface CopyOrder {
  readonly tag: string;
  readonly size: string;
}

/** `de/my-hat-1-0-0-test-m-de`: safe for every disk and mail. */
function nameOf({ pattern }: CheckedPattern, { tag, size }: CopyOrder): string {
  const { id, version } = pattern.bundle.data;
  const stem = `${id}-${version}-test-${size}-${tag}`.toLowerCase().replaceAll(/[ .]/g, '-');
  return `${tag}/${safeName(stem)}`;
}

async function makeCopy(
  checked: CheckedPattern,
  { tag, size }: CopyOrder,
  pictures: ReadonlyMap<string, PrintPicture>,
  { languages, templates, fonts }: Equipment,
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
  const name = nameOf(checked, { tag, size });
  const title = testTitle(edition);
  const files = [
    { name: `${name}.pdf`, bytes: printed.bytes },
    { name: `${name}-return.xlsx`, bytes: await returnWorkbook(plan, language, title) },
    { name: `${name}-return.csv`, bytes: returnCsv(plan, language, title) },
    { name: `${name}-return.json`, bytes: returnJson(plan) },
  ];
  return { files, pages: printed.pages };
}

async function preparePictures(
  checked: CheckedPattern,
  rooms: Rooms,
): Promise<ReadonlyMap<string, PrintPicture>> {
  const prepared = new Map<string, PrintPicture>();
  for (const [file, photo] of checked.pattern.bundle.photos) {
    const { bytes, widthPixels, heightPixels } = await rooms.preparePicture(photo, PRINT_SIZE);
    prepared.set(file, { bytes, widthPixels, heightPixels, hash: hashBytes(bytes) });
  }
  return prepared;
}
