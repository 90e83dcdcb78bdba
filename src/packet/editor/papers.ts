/**
 * The technical editor's packet as files: a PDF to sign, a workbook, and the record by which the next
 * packet says what changed. Takes a gathered packet and what the press needs; nothing is written here.
 */
import { Fault } from '../../base/fault.ts';
import { printFindings } from '../../findings/text.ts';
import { printDocument } from '../../press/print.ts';
import type { PressEquipment } from '../../press/press.ts';
import type { PacketFile } from '../files.ts';
import { writeSheets } from '../sheets/excel.ts';
import { editorSheets } from './book.ts';
import { editorDocument } from './document.ts';
import type { EditorPacket } from './packet.ts';
import { writeRecord } from './record.ts';

export async function printPacket(
  packet: EditorPacket,
  { templates, fonts }: Pick<PressEquipment, 'templates' | 'fonts'>,
): Promise<{
  readonly name: string;
  readonly files: readonly PacketFile[];
  readonly pages: number;
}> {
  const { data } = packet.order.checked.pattern.bundle;
  const printed = await printDocument(editorDocument(packet, templates), fonts);
  if (printed.findings.length > 0)
    throw new Fault('input', printFindings(printed.findings), { place: data.id });
  const name = `${data.id}-${data.version}-editor`;
  const files = [
    { name: `${name}.pdf`, bytes: printed.bytes },
    { name: `${name}.xlsx`, bytes: await writeSheets(editorSheets(packet)) },
    { name: `${name}.json`, bytes: writeRecord(packet.record) },
  ];
  return { name, files, pages: printed.pages };
}
