/**
 * Yarns inside a row: `with CC`, `change to MC`, and the yarn named beside a stitch (`k2 MC`).
 */
import type { Action } from '../ast.ts';
import type { Reader } from '../text/reader.ts';
import { readName } from '../text/name.ts';

type Yarn = Extract<Action, { kind: 'yarn' }>;

/** `MC`, `CC`, `CC2`, `A`: short names that stand beside a stitch without `with`. */
const SHORT = /^(?:MC|CC\d?|C\d|[A-F])$/;

/** yarn = ( "with" | "using" | "change to" ), name; */
export function readYarn(reader: Reader): Yarn | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    if (!reader.take('with', 'using', 'change to', 'switch to', 'in')) return undefined;
    const yarn = SHORT.test(reader.peek().text) ? reader.next().text : readYarnName(reader);
    if (yarn === undefined) return undefined;
    return { kind: 'yarn', yarn, span: reader.spanFrom(position) };
  });
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

/** `k2 MC`, `k2 in CC`: the yarn is taken up before the stitch. */
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
