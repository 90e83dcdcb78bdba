/**
 * Papers for the people who look after the designer: the technical editor's packet, copies for test
 * knitters, and what the sheets they sent back say together. Takes a checked pattern, gives files and
 * judgements; the same that the command line makes.
 */
import { present } from '../../base/assert.ts';
import { Fault } from '../../base/fault.ts';
import { PACKET_LIMITS } from '../../base/limits.ts';
import { blocks, type Finding } from '../../findings/finding.ts';
import { gatherPacket } from '../../packet/editor/packet.ts';
import { printPacket } from '../../packet/editor/papers.ts';
import { readRecord } from '../../packet/editor/record.ts';
import type { PacketFile } from '../../packet/files.ts';
import { type Judged, judgeReturns } from '../../packet/results/judge.ts';
import { printTestCopy } from '../../packet/testing/papers.ts';
import { type Refusal, readReturn, type ReturnedSheet } from '../../packet/testing/read-return.ts';
import type { CheckedPattern } from '../../pattern/pattern.ts';
import { PRINT_SIZE } from '../../pipeline/ports.ts';
import type { OpenedRooms } from '../../pipeline/rooms.ts';
import type { Paper } from './papers.ts';
import { preparedIn } from './sheets.ts';

/** A pattern with findings has a packet too: that is when an editor is needed most. */
export async function packEditor(
  checked: CheckedPattern,
  since: Paper | undefined,
  rooms: OpenedRooms,
): Promise<readonly PacketFile[]> {
  const { data } = checked.pattern.bundle;
  const language = present(rooms.equipment.languages.get(data.language), `language ${data.language}`); // prettier-ignore
  const findings: Finding[] = [...checked.findings];
  for (const tag of data.languages) findings.push(...(await rooms.checkLanguage(checked, tag)));
  const record = since && readRecord(since.bytes, since.name);
  const packet = gatherPacket({ checked, findings, language, ...(record && { since: record }) });
  return (await printPacket(packet, rooms.equipment)).files;
}

export interface TestersOrder {
  readonly tag: string;
  /** Every size where none is named. */
  readonly sizes: readonly string[];
}

/** Test knitters' weeks are not spent on what a check already knows. */
export async function packTesters(
  checked: CheckedPattern,
  { tag, sizes }: TestersOrder,
  rooms: OpenedRooms,
): Promise<readonly PacketFile[]> {
  const { data } = checked.pattern.bundle;
  if (!data.languages.includes(tag))
    throw new Fault('input', `the pattern has no language ${tag}`, { place: tag });
  const unknown = sizes.find((size) => !data.sizes.includes(size));
  if (unknown !== undefined)
    throw new Fault('input', `the pattern has no size ${unknown}`, {
      remedy: `one of: ${data.sizes.join(', ')}`,
    });
  const wanted = data.sizes.filter((size) => sizes.length === 0 || sizes.includes(size));
  const known = [...checked.findings, ...(await rooms.checkLanguage(checked, tag))];
  if (known.some(blocks))
    throw new Fault('input', 'a test knitter is not to find what a check has found', {
      remedy: 'correct what the findings say first',
    });
  const pictures = await preparedIn(checked, PRINT_SIZE, rooms);
  const files: PacketFile[] = [];
  for (const size of wanted)
    files.push(...(await printTestCopy(checked, { tag, size }, pictures, rooms.equipment)).files);
  return files;
}

/** A sheet that cannot be trusted, or is of another pattern, is refused; the others are judged. */
export async function readResults(
  { pattern }: CheckedPattern,
  papers: readonly Paper[],
): Promise<Judged> {
  if (papers.length > PACKET_LIMITS.sheets)
    throw new Fault('input', `at most ${PACKET_LIMITS.sheets} sheets are read at a time`);
  const { id } = pattern.bundle.data;
  const sheets: ReturnedSheet[] = [];
  const refused: Refusal[] = [];
  for (const { name, bytes } of papers) {
    const read = await readReturn(name, bytes);
    if (!('sheet' in read)) refused.push(...read.refused);
    else if (read.sheet.head.pattern === id) sheets.push(read.sheet);
    else refused.push({ file: name, place: '', says: `it is of the pattern ${read.sheet.head.pattern}`, remedy: 'hand it in on the page of that pattern' }); // prettier-ignore
  }
  const judged = judgeReturns(sheets);
  return { results: judged.results, refused: [...refused, ...judged.refused] };
}
