/**
 * `castoff packet test BUNDLE --to FOLDER`: for each size a test copy in each language, with a return
 * sheet in three forms. Only a pattern without blocking findings goes to test knitters: their weeks are
 * not spent on what a check already knows.
 */
import path from 'node:path';
import { Fault } from '../../base/fault.ts';
import { hashBytes } from '../../base/hash.ts';
import { blocks } from '../../findings/finding.ts';
import { printFindings } from '../../findings/text.ts';
import { printTestCopy, testCopyName } from '../../packet/testing/papers.ts';
import { PRINT_SIZE, type Rooms } from '../../pipeline/ports.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import type { PrintPicture } from '../../press/press.ts';
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
import { refuseTaken, writePacket } from '../packet-files.ts';
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
  await refuseTaken(folder, orders.map((each) => `${testCopyName(checked, each)}.pdf`)); // prettier-ignore
  const equipment = await openOwnEquipment();
  const pictures = await preparePictures(checked, rooms);
  for (const order of orders) {
    const { files, pages } = await printTestCopy(checked, order, pictures, equipment);
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
