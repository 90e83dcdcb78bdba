/**
 * Stitches that wait: put on a holder, and taken back to the needle. `holder` is the name of one that
 * has none.
 */
import type { Action } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from '../text/reader.ts';
import { readName } from '../text/name.ts';
import { isSized, readSized } from '../text/size-values.ts';

type Of<Kind extends Action['kind']> = Extract<Action, { kind: Kind }>;

const MOVES = ['place', 'slip', 'leave', 'leaving', 'put', 'transfer', 'move', 'set aside', 'keep'];
const BACK = ['to needle', 'on needle', 'to left needle', 'to lh needle', 'to left-hand needle']; // prettier-ignore

/** @rule hold = "place", [ "next" ], ( sized, "sts" | "rem sts" | "all sts" ), "on", name; */
export function readHold(reader: Reader): Of<'hold'> | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    if (!reader.take(...MOVES)) return undefined;
    reader.take('next', 'first', 'last', 'these', 'those', 'center');
    const rem = reader.take('all rem', 'rem', 'all');
    if (!rem && !isSized(reader) && !reader.is('sts')) return undefined;
    const count = isSized(reader) ? readSized(reader, '“place”') : 'all';
    reader.take('center');
    reader.take('sts');
    reader.take('purlwise', 'pwise', 'as if to p', 'as if to purl');
    if (count === undefined || !reader.take('on', 'to', 'in')) return undefined;
    if (reader.is('cn', 'cable needle', 'needle', 'end')) return undefined;
    const holder = readName(reader, 'and', 'then');
    if (holder === undefined) return undefined;
    return { kind: 'hold', count, holder: holderName(holder), span: reader.spanFrom(position) };
  });
}

const holderName = (written: string): string =>
  /^(?:st |stitch )?holders?$/i.test(written)
    ? 'holder'
    : written.replace(/^(?:st|stitch) | back$/gi, '');

/** @rule resume = "return", held, "to needle"; */
export function readResume(reader: Reader): Of<'resume'> | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    const returned = reader.take('return', 'replace');
    if (!returned && !reader.take(...MOVES)) return undefined;
    const found = readHeld(reader, returned);
    if (!found || !takeBack(reader)) return undefined;
    return { kind: 'resume', ...found, span: reader.spanFrom(position) };
  });
}

/** Which needle they come back to does not matter for the count. */
function takeBack(reader: Reader): boolean {
  if (reader.take(...BACK, 'to dpns', 'on dpns')) return true;
  const took = reader.attempt(() => {
    if (!reader.take('to', 'on') || reader.peek().kind !== 'word') return undefined;
    reader.next();
    return reader.take('needle', 'dpns') ? true : undefined;
  });
  return took === true;
}

/**
 * `returned`: the verb says already that the stitches were held.
 * @rule held = [ sized ], [ "held" ], "sts", [ ( "from" | "of" ), name ];
 */
export function readHeld(
  reader: Reader,
  returned = false,
): { holder: string; count?: Sized } | undefined {
  const all = reader.take('all rem', 'all', 'rem', 'next');
  const count = isSized(reader) ? readSized(reader, '“return”') : undefined;
  const held = reader.take('held');
  if (!reader.take('sts') && !held && !all) return undefined;
  const named = !reader.is(...BACK) && reader.take('held on', 'from', 'on', 'of');
  const holder = named ? readName(reader, 'and', 'in patt', ...BACK) : undefined;
  if (!held && !returned && holder === undefined) return undefined;
  return { holder: holderName(holder ?? 'holder'), ...(count && { count }) };
}
