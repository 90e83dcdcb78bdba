/**
 * `castoff packet results FILES…`: reads the sheets that test knitters sent back and says what they say
 * together. A sheet that cannot be trusted is refused with its place and remedy; the others are judged.
 */
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import { Fault } from '../../base/fault.ts';
import { PACKET_LIMITS } from '../../base/limits.ts';
import { judgeReturns } from '../../packet/results/judge.ts';
import { type Refusal, readReturn, type ReturnedSheet } from '../../packet/testing/read-return.ts';
import { type ExitCode, type Options, type Terminal, usageFault, type Words } from '../command.ts';
import { printRefusal, printResults } from '../packet-results-report.ts';
import { packetCommand } from './packet.ts';

export async function runPacketResults(
  words: Words,
  options: Options,
  terminal: Terminal,
): Promise<ExitCode> {
  if (words.length === 0) throw usageFault(packetCommand, 'packet results needs FILES');
  if (words.length > PACKET_LIMITS.sheets)
    throw usageFault(packetCommand, `at most ${PACKET_LIMITS.sheets} sheets are read at a time`);
  const sheets: ReturnedSheet[] = [];
  const refused: Refusal[] = [];
  for (const word of words) {
    const place = path.resolve(terminal.folder, word);
    const bytes = await readFile(place).catch((cause: unknown) => {
      throw new Fault('missing', `there is no file ${word}`, { place, cause });
    });
    const read = await readReturn(word, bytes);
    if ('sheet' in read) sheets.push(read.sheet);
    else refused.push(...read.refused);
  }
  const judged = judgeReturns(sheets);
  const all = [...refused, ...judged.refused];
  if (options['json'] === true)
    terminal.out(JSON.stringify({ results: judged.results ?? null, refused: all }, null, 1));
  else {
    for (const each of all) terminal.out(`${printRefusal(each)}\n`);
    terminal.out(judged.results ? printResults(judged.results) : 'No sheet could be read.');
  }
  return all.length > 0 ? 1 : 0;
}
