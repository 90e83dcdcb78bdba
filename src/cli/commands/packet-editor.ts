/**
 * `castoff packet editor BUNDLE`: everything a technical editor needs to sign a pattern, as PDF and
 * workbook, with a record by which the next packet says what changed. A pattern with findings has a
 * packet too: that is when an editor is needed most.
 */
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { present } from '../../base/assert.ts';
import { Fault } from '../../base/fault.ts';
import { blocks } from '../../findings/finding.ts';
import { printFindings } from '../../findings/text.ts';
import { type EditorPacket, gatherPacket } from '../../packet/editor/packet.ts';
import { printPacket } from '../../packet/editor/papers.ts';
import { type PacketRecord, readRecord } from '../../packet/editor/record.ts';
import {
  type ExitCode,
  onlyWord,
  type Options,
  type Terminal,
  textOption,
  type Words,
} from '../command.ts';
import { writePacket } from '../packet-files.ts';
import { bundlePath, openOwnEquipment, openOwnRooms } from '../resources.ts';
import { checkBundle } from './check.ts';
import { packetCommand } from './packet.ts';

export async function runEditorPacket(
  words: Words,
  options: Options,
  terminal: Terminal,
): Promise<ExitCode> {
  const bundle = onlyWord(packetCommand, words, 'a BUNDLE: a folder or a zip');
  const since = await recordAt(textOption(options, 'since'), terminal);
  const { findings, checked } = await checkBundle(
    bundlePath(bundle, terminal),
    await openOwnRooms(),
  );
  if (!checked) {
    terminal.out(printFindings(findings));
    terminal.out('The bundle cannot be read, so that there is no packet.');
    return 1;
  }
  const { languages, templates, fonts } = await openOwnEquipment();
  const { data } = checked.pattern.bundle;
  const language = present(languages.get(data.language), `language ${data.language}`);
  const packet = gatherPacket({ checked, findings, language, ...(since && { since }) });
  const { name, files, pages } = await printPacket(packet, { templates, fonts });
  const to = textOption(options, 'to') ?? '.';
  await writePacket(path.resolve(terminal.folder, to), files);
  tell(packet, path.join(to, name), pages, terminal);
  return 0;
}

async function recordAt(
  word: string | undefined,
  terminal: Terminal,
): Promise<PacketRecord | undefined> {
  if (word === undefined) return undefined;
  const place = path.resolve(terminal.folder, word);
  const bytes = await readFile(place).catch((cause: unknown) => {
    throw new Fault('missing', `there is no file ${word}`, { place, cause });
  });
  return readRecord(bytes, word);
}

function tell(packet: EditorPacket, name: string, pages: number, terminal: Terminal): void {
  const { tally, open, accepted, changes } = packet;
  const loose = tally.total - tally.held - tally.free;
  const blocking = open.filter(blocks).length;
  terminal.out(
    [
      `${name}.pdf (${pages} pages), .xlsx and .json are written.`,
      `${tally.total} numbers: ${tally.held} held by a check, ${tally.free} free by nature, ${loose} held by nothing.`,
      `Findings: ${open.length} open (${blocking} block the release), ${accepted.length} accepted.`,
      ...(changes ? [`Changes since the last packet: ${changes.length}.`] : []),
    ].join('\n'),
  );
}
