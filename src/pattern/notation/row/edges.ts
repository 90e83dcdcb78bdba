/**
 * Stitches that begin and end in a row: binding off in all its conventions, casting on, picking up
 * along an edge. Each function begins at the word that gives the construct away.
 */
import type { Action } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from '../text/reader.ts';
import { readName } from '../text/name.ts';
import { isSized, readSized } from '../text/size-values.ts';

type Of<Kind extends Action['kind']> = Extract<Action, { kind: Kind }>;

export const BIND_OFF = [
  'bind off',
  'cast off',
  'bo',
  'bind-off',
  'cast-off',
  'binding off',
  'casting off',
];
export const CAST_ON = ['cast on', 'co', 'cast-on', 'casting on'];
export const PICK_UP = ['pick up', 'pick-up', 'pickup', 'pu'];

/**
 * @rule bind off = "bind off", { manner }, ( sized, "sts" | "rem sts" | "all sts" ), { manner
 *   }, [ apart ];
 */
export function readBindOff(reader: Reader): Of<'bindOff'> | undefined {
  const position = reader.position;
  reader.take(...BIND_OFF);
  const early = readManner(reader);
  reader.take('next', 'first', 'center', 'middle');
  const count = readBindOffCount(reader);
  if (count === undefined) return undefined;
  const late = readManner(reader);
  const apart = reader.attempt(() => readApart(reader)) === true;
  const method = early.method ?? late.method;
  return {
    kind: 'bindOff',
    count,
    manner: early.manner === 'plain' ? late.manner : early.manner,
    lastStitch: apart ? 'apart' : 'in next',
    ...(method !== undefined && { method }),
    span: reader.spanFrom(position),
  };
}

function readBindOffCount(reader: Reader): Sized | 'all' | undefined {
  if (reader.take('all rem sts', 'rem sts', 'all sts')) return 'all';
  if (reader.take('all rem', 'all', 'rem') && !isSized(reader)) return 'all';
  if (!isSized(reader) && (reader.done || reader.is('.', ';', ',', ')', ']'))) return 'all';
  const count = readSized(reader, '“bind off”');
  reader.take('center', 'rem');
  reader.take('sts');
  return count;
}

const MANNERS = [
  ['in pattern', ['in patt', 'in rib', 'patternwise', 'ribwise', 'in est patt', 'in k1, p1 rib']],
  ['knitwise', ['knitwise', 'kwise']],
  ['purlwise', ['purlwise', 'pwise']],
] as const;
const HOW = ['loosely', 'firmly', 'very loosely', 'fairly loosely', 'evenly', 'neatly'];

/** @rule manner = "in patt" | "knitwise" | "purlwise" | "loosely" | "using", method; */
function readManner(reader: Reader): { manner: Of<'bindOff'>['manner']; method?: string } {
  let manner: Of<'bindOff'>['manner'] = 'plain';
  let method: string | undefined;
  for (;;) {
    const position = reader.position;
    const named = MANNERS.find(([, phrases]) => reader.take(...phrases));
    if (named) [manner] = named;
    else if (reader.take(...HOW)) method = reader.textFrom(position);
    else if (reader.take('using', 'with', 'by')) method = readMethod(reader);
    else return { manner, ...(method !== undefined && { method }) };
  }
}

/**
 * `the long-tail method`: the words that are left without article and `method`.
 * @rule method = name, [ "method" ];
 */
function readMethod(reader: Reader): string | undefined {
  const name = readName(reader, 'and', 'method', 'for', 'at');
  reader.take('method');
  return name?.replace(/ (?:cast-on|bind-off|cast-off)$/i, '');
}

/**
 * "1 st on right needle": the stitch left by the last pass is written out.
 * @rule apart = ",", "1 st on right needle";
 */
function readApart(reader: Reader): true | undefined {
  reader.take(',', ';', 'and');
  const bracket = reader.take('(');
  if (reader.peek().value !== 1) return undefined;
  reader.next();
  if (!reader.take('sts')) return undefined;
  reader.take('rem', 'is', 'left');
  if (!reader.take('on right needle', 'on rh needle', 'on right-hand needle', 'on needle')) {
    return undefined;
  }
  reader.take('after bind off', 'after cast off');
  return !bracket || reader.take(')') ? true : undefined;
}

const WHERE = [
  'at end of row', 'at end', 'over gap', 'over bind off sts', 'over bound-off sts', 'over bound off sts',
  'over cast off sts', 'over sts bound off', 'in place of bound-off sts', 'at underarm', 'for underarm',
]; // prettier-ignore

/** @rule cast on = "cast on", sized, "sts", [ "using", method ]; */
export function readCastOn(reader: Reader): Of<'castOn'> | undefined {
  const position = reader.position;
  reader.take(...CAST_ON);
  reader.take('next', 'another');
  const count = readSized(reader, '“cast on”');
  if (!count) return undefined;
  reader.take('new', 'more');
  reader.take('sts');
  reader.take(...WHERE);
  const method = reader.take('using', 'with') ? readMethod(reader) : undefined;
  reader.take(...WHERE);
  return {
    kind: 'castOn',
    count,
    ...(method !== undefined && { method }),
    span: reader.spanFrom(position),
  };
}

const ALONG = ['along', 'from', 'around', 'across', 'down', 'up', 'evenly along', 'evenly around'];

/**
 * @rule pick up = "pick up", [ "and", ( "k" | "p" ) ], sized, "sts", [ "along", name ], [
 *   pick-up rate ];
 */
export function readPickUp(reader: Reader): Of<'pickUp'> | undefined {
  const position = reader.position;
  reader.take(...PICK_UP);
  const purled = reader.take('and p', 'and purl');
  if (!purled) reader.take('and k', 'and knit');
  const count = readSized(reader, '“pick up”');
  if (!count) return undefined;
  reader.take('sts');
  reader.take('evenly');
  const from = reader.take(...ALONG) ? readName(reader, 'and') : undefined;
  const rate = reader.attempt(() => readPickUpRate(reader));
  return {
    kind: 'pickUp',
    count,
    stitch: purled ? 'p' : 'k',
    ...(from !== undefined && { from }),
    ...(rate && { rate }),
    span: reader.spanFrom(position),
  };
}

/** @rule pick-up rate = "(", sized, "sts for every", sized, "rows", ")"; */
function readPickUpRate(reader: Reader): Of<'pickUp'>['rate'] | undefined {
  const bracket = reader.take('(');
  reader.take(',');
  reader.take('at rate of', 'about', 'approx', 'approximately', 'working');
  if (!isSized(reader)) return undefined;
  const stitches = readSized(reader, 'the rate');
  if (!stitches || !reader.take('sts') || !reader.take('for', 'in', 'to', 'per')) return undefined;
  reader.take('every', 'each');
  const rows = readSized(reader, 'the rate');
  if (!rows || !reader.take('row', 'round')) return undefined;
  if (bracket && !reader.take(')')) return undefined;
  return { stitches, rows };
}
