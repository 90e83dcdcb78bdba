/**
 * Yarns inside a row: `with CC`, `change to MC`, and the yarn named beside a stitch (`k2 MC`).
 */
import type { Action } from '../ast.ts';
import type { Reader } from '../text/reader.ts';
import { readName } from '../text/name.ts';

type Yarn = Extract<Action, { kind: 'yarn' }>;

/** `MC`, `CC`, `CC2`, `A`: short names that stand beside a stitch without `with`. */
const SHORT = /^(?:MC|CC\d?|C\d|[A-F])$/;

/** @rule yarn = ( "with" | "change to" | "join" | "break" ), name; */
export function readYarn(reader: Reader): Yarn | undefined {
  return reader.attempt(() => readYarnTaken(reader)) ?? reader.attempt(() => readYarnAct(reader));
}

/** `in MC`, `with CC`: a yarn, where a fabric could stand. */
export const isShortYarn = (reader: Reader): boolean =>
  reader.is('in', 'with') && SHORT.test(reader.peek(1).text);

export function readYarnTaken(reader: Reader): Yarn | undefined {
  const position = reader.position;
  const named = reader.take('with', 'using', 'change to', 'switch to');
  if (!named && !(reader.is('in') && SHORT.test(reader.peek(1).text) && reader.take('in'))) {
    return undefined;
  }
  if (reader.is('RS', 'WS', 'patt')) return undefined;
  const yarn = SHORT.test(reader.peek().text) ? reader.next().text : readYarnName(reader);
  reader.take('only');
  return yarn === undefined ? undefined : { kind: 'yarn', yarn, span: reader.spanFrom(position) };
}

/** `join second ball of yarn` in mid-row. */
function readYarnAct(reader: Reader): Yarn | undefined {
  const position = reader.position;
  const act = reader.take('join') ? 'join' : reader.take('break', 'drop') ? 'break' : undefined;
  if (!act || reader.is('in', 'to', 'and', ',', 'round')) return undefined;
  const yarn = readName(reader, 'and', 'then', 'with', 'using', 'to');
  if (yarn === undefined) return undefined;
  reader.take('to rem sts', 'to held sts', 'to sts', 'at neck edge');
  return { kind: 'yarn', yarn, act, span: reader.spanFrom(position) };
}

function readYarnName(reader: Reader): string | undefined {
  reader.take('color', 'yarn');
  const name = SHORT.test(reader.peek().text)
    ? reader.next().text
    : readName(reader, 'and', 'needle', 'yarn');
  if (reader.is('needle')) return undefined;
  reader.take('yarn');
  return name;
}

/**
 * `k2 MC`, `k2 in CC`: the yarn is taken up before the stitch.
 * @rule short yarn = [ "in" ], ( "MC" | "CC" | "A" | "B" );
 */
export function readYarnBeside(reader: Reader): Yarn | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    reader.take('with', 'in', 'using');
    reader.take('color', 'yarn');
    if (!SHORT.test(reader.peek().text)) return undefined;
    const yarn = reader.next().text;
    return { kind: 'yarn', yarn, span: reader.spanFrom(position) };
  });
}
