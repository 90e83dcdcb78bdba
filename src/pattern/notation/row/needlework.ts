/**
 * What a row does besides plain stitches: markers, casting on and binding off, picking up, holders,
 * turns. Each function begins at the word that gives the construct away and reads one action.
 */
import type { Action } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from '../text/reader.ts';
import { isStitch } from './stitch.ts';
import { isSized, readSized, sizedAt } from '../text/size-values.ts';
import { markerName, readName } from '../text/name.ts';

type Of<Kind extends Action['kind']> = Extract<Action, { kind: Kind }>;

export const BIND_OFF = ['bind off', 'cast off', 'bo', 'bind-off', 'cast-off'];
export const CAST_ON = ['cast on', 'co', 'cast-on'];
const MOVES = ['place', 'slip', 'leave', 'put', 'transfer', 'move', 'set'];

/** marker = ( "pm" | "place marker" | "sm" | "slip marker" | "rm" | "remove marker" ), [ name ]; */
export function readMarker(reader: Reader): Of<'marker'> | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    const act = markerAct(reader);
    if (!act) return undefined;
    reader.take('for', 'at');
    const name = readMarkerLabel(reader);
    return {
      kind: 'marker',
      act,
      ...(name !== undefined && { name }),
      span: reader.spanFrom(position),
    };
  });
}

type MarkerAct = Of<'marker'>['act'];
const ACTS: readonly (readonly [MarkerAct, readonly string[]])[] = [
  ['place', ['pm', 'place marker']],
  ['slip', ['sm', 'slip marker']],
  ['remove', ['rm', 'remove marker']],
];

function markerAct(reader: Reader): MarkerAct | undefined {
  for (const [act, phrases] of ACTS) if (reader.take(...phrases)) return act;
  return undefined;
}

/** A name after the act: anything that is no stitch. */
function readMarkerLabel(reader: Reader): string | undefined {
  if (reader.is('and', 'then') || isSized(reader) || isStitch(reader)) return undefined;
  const name = readName(reader, 'and', 'marker', 'then');
  reader.take('marker');
  return name === undefined ? undefined : markerName(name);
}

/** bindOff = "bind off", ( sized, "sts" | "all" | "rem sts" ), { manner }, [ "1 st on right needle" ]; */
export function readBindOff(reader: Reader): Of<'bindOff'> | undefined {
  const position = reader.position;
  reader.take(...BIND_OFF);
  const early = readManner(reader);
  reader.take('next', 'first');
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
  if (reader.take('all rem sts', 'rem sts', 'all sts', 'all', 'rem')) return 'all';
  const last = reader.last.term;
  if (!isSized(reader) && (reader.done || reader.is('.', ';') || last === 'patt')) return 'all';
  const count = readSized(reader, '“bind off”');
  reader.take('sts');
  return count;
}

const MANNERS = [
  ['in pattern', ['in patt', 'in rib', 'patternwise', 'ribwise']],
  ['knitwise', ['knitwise', 'kwise']],
  ['purlwise', ['purlwise', 'pwise']],
] as const;

/** manner = "in patt" | "knitwise" | "purlwise" | "loosely" | "using", method; */
function readManner(reader: Reader): { manner: Of<'bindOff'>['manner']; method?: string } {
  let manner: Of<'bindOff'>['manner'] = 'plain';
  let method: string | undefined;
  for (;;) {
    const named = MANNERS.find(([, phrases]) => reader.take(...phrases));
    if (named) [manner] = named;
    else if (reader.is('loosely', 'firmly', 'very loosely')) method = readName(reader, 'in', 'and');
    else if (reader.take('using', 'with') || reader.take('by')) method = readMethod(reader);
    else return { manner, ...(method !== undefined && { method }) };
  }
}

/** `the long-tail method`: the words that are left without article and `method`. */
export function readMethod(reader: Reader): string | undefined {
  const name = readName(reader, 'and', 'method', 'for', 'at');
  reader.take('method');
  return name?.replace(/ (?:cast-on|bind-off|cast-off)$/i, '');
}

/** "1 st on right needle": the stitch left by the last pass is written out. */
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

/** castOn = "cast on", sized, "sts", [ "using", method ]; */
export function readCastOn(reader: Reader): Of<'castOn'> | undefined {
  const position = reader.position;
  reader.take(...CAST_ON);
  reader.take('next', 'another');
  const count = readSized(reader, '“cast on”');
  if (!count) return undefined;
  reader.take('new', 'more');
  reader.take('sts');
  reader.take('at end of row', 'at end', 'over gap', 'over bind off sts', 'over bound-off sts');
  const method = reader.take('using', 'with') ? readMethod(reader) : undefined;
  return {
    kind: 'castOn',
    count,
    ...(method !== undefined && { method }),
    span: reader.spanFrom(position),
  };
}

/** pickUp = "pick up", [ "and", stitch ], sized, "sts", [ "along", edge ], [ "(", rate, ")" ]; */
export function readPickUp(reader: Reader): Of<'pickUp'> | undefined {
  const position = reader.position;
  reader.take('pick up', 'pick-up', 'pickup');
  const stitch = reader.take('and k', 'and knit')
    ? 'k'
    : reader.take('and p', 'and purl')
      ? 'p'
      : 'k';
  const count = readSized(reader, '“pick up”');
  if (!count) return undefined;
  reader.take('sts');
  reader.take('evenly');
  const from = reader.take('along', 'from', 'around', 'across', 'down', 'up')
    ? readName(reader, 'and')
    : undefined;
  const rate = reader.attempt(() => readPickUpRate(reader));
  return {
    kind: 'pickUp',
    count,
    stitch,
    ...(from !== undefined && { from }),
    ...(rate && { rate }),
    span: reader.spanFrom(position),
  };
}

/** rate = [ "about" ], sized, "sts for every", sized, "rows"; */
function readPickUpRate(reader: Reader): Of<'pickUp'>['rate'] | undefined {
  const bracket = reader.take('(');
  reader.take(',', 'at rate of');
  reader.take('about', 'approx', 'approximately', 'at rate of');
  if (!isSized(reader)) return undefined;
  const stitches = readSized(reader, 'the rate');
  if (!stitches || !reader.take('sts') || !reader.take('for', 'in', 'to', 'per')) return undefined;
  reader.take('every', 'each');
  const rows = readSized(reader, 'the rate');
  if (!rows || !(reader.take('row') || reader.take('round'))) return undefined;
  if (bracket && !reader.take(')')) return undefined;
  return { stitches, rows };
}

/** hold = "place", [ "next" ], ( sized, "sts" | "rem sts" | "all sts" ), "on", holder; */
export function readHold(reader: Reader): Of<'hold'> | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    if (!reader.take(...MOVES)) return undefined;
    reader.take('next', 'first', 'last', 'these', 'those');
    const rem = reader.take('all rem', 'rem', 'all');
    if (!rem && !isSized(reader) && !reader.is('sts')) return undefined;
    const count = isSized(reader) ? readSized(reader, '“place”') : 'all';
    reader.take('sts');
    reader.take('purlwise', 'pwise', 'as if to p');
    if (count === undefined || !reader.take('on', 'to', 'in')) return undefined;
    if (reader.is('cn', 'cable needle', 'needle')) return undefined;
    const holder = readName(reader, 'and', 'then');
    if (holder === undefined) return undefined;
    return { kind: 'hold', count, holder: holderName(holder), span: reader.spanFrom(position) };
  });
}

const holderName = (written: string): string =>
  /^(?:st |stitch |spare )?holders?$/i.test(written) ? 'holder' : written;

/**
 * resume = "return", [ sized ], [ "held" ], "sts", [ "from", holder ], "to needle"
 *        | ( "work" | stitch ), "across", [ sized ], "held sts", [ "from", holder ];
 */
export function readResume(reader: Reader): Of<'resume'> | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    if (!reader.take('return', 'replace', ...MOVES)) return undefined;
    const found = readHeld(reader);
    if (!found || !reader.take('to needle', 'on needle', 'to left needle', 'to lh needle'))
      return undefined;
    return { kind: 'resume', ...found, span: reader.spanFrom(position) };
  });
}

/** held = [ sized ], [ "held" ], "sts", [ ( "from" | "on" ), holder ]; */
export function readHeld(reader: Reader): { holder: string; count?: Sized } | undefined {
  const all = reader.take('all rem', 'all', 'rem', 'next');
  const count = isSized(reader) ? readSized(reader, '“return”') : undefined;
  const held = reader.take('held');
  if (!reader.take('sts') && !held && !all) return undefined;
  const named = reader.take('from', 'on', 'of', 'held on');
  const holder = named
    ? readName(reader, 'to needle', 'on needle', 'and', 'to left', 'to lh')
    : undefined;
  if (!held && holder === undefined) return undefined;
  return { holder: holderName(holder ?? 'holder'), ...(count && { count }) };
}

const WRAP_AND_TURN = [
  'w&t',
  'wrap and turn',
  'wrap next sts and turn',
  'w and t',
  'wt',
  'w + t',
  'w+t',
  'wrap turn',
];
const GERMAN = [
  'turn and make ds', 'turn , make ds', 'turn and make double sts', 'turn , make double sts', 'turn , mds',
  'turn and mds', 'turn with ds', 'german turn', 'gsr turn', 'turn ds', 'turn , ds',
]; // prettier-ignore

/** turn = ( "turn" | "w&t" | "turn and make ds" ), [ "leaving", sized, "sts unworked" ]; */
export function readTurn(reader: Reader): Of<'turn'> | undefined {
  const position = reader.position;
  const wrap = reader.take(...WRAP_AND_TURN) ? 'wrap' : reader.take(...GERMAN) ? 'german' : 'none';
  if (wrap === 'none' && !reader.take('turn')) return undefined;
  if (wrap === 'none') reader.take('work', 'and work back');
  const leaving = reader.attempt(() => readLeaving(reader));
  return { kind: 'turn', wrap, ...(leaving && { leaving }), span: reader.spanFrom(position) };
}

function readLeaving(reader: Reader): Sized | undefined {
  reader.take(',');
  if (!reader.take('leaving', 'leave')) return undefined;
  reader.take('rem', 'last');
  const count = isSized(reader) ? readSized(reader, '“leaving”') : undefined;
  if (!count) return undefined;
  reader.take('sts');
  reader.take('unworked', 'rem');
  reader.take('on needle', 'at end of row');
  return count;
}

export const isTurn = (reader: Reader): boolean => reader.is('turn', ...WRAP_AND_TURN, ...GERMAN);

/** slide = "slide", [ "sts to other end of needle" ] | "do not turn"; */
export function readSlide(reader: Reader): Of<'slide'> | undefined {
  const position = reader.position;
  if (reader.take('do not turn', "don't turn")) {
    reader.attempt(() =>
      reader.take(',', ';', 'and', ', and') && reader.is('slide') ? true : undefined,
    );
    if (!reader.is('slide')) return { kind: 'slide', span: reader.spanFrom(position) };
  }
  if (!reader.take('slide')) return undefined;
  reader.take('all sts', 'sts', 'work');
  reader.take(
    'to other end of needle',
    'to other end',
    'to right end of needle',
    'to opposite end of needle',
    'back to beg of needle',
  );
  return { kind: 'slide', span: reader.spanFrom(position) };
}

export const zero = (reader: Reader): Sized => sizedAt(0, reader.peek().span);
