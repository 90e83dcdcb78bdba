/**
 * Sentences that are no rows: casting on with its yarn, needle and method, joining in the round, change
 * of needles or yarn, holders, marks, the end of the stitches, and a text of the bundle shown here.
 */
import type { Sentence, Side } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from '../text/reader.ts';
import { CAST_ON } from '../row/edges.ts';
import { readHeld, readHold } from '../row/holders.ts';
import { readMarker } from '../row/marker.ts';
import { readName } from '../text/name.ts';
import { isSized, readSized } from '../text/size-values.ts';

type Of<Kind extends Sentence['kind']> = Extract<Sentence, { kind: Kind }>;

interface Means {
  readonly yarn?: string;
  readonly needle?: string;
  readonly method?: string;
}

/** means = ( "with" | "using" ), mean, { ( "and" | "," ), mean }; mean = needle | method | yarn; */
function readMeans(reader: Reader): Means {
  let means: Means = {};
  while (reader.take('with', 'using', 'and with', 'and using', ', with', ', using')) {
    do means = { ...means, ...readMean(reader) };
    while (takesMean(reader));
  }
  return means;
}

function readMean(reader: Reader): Means {
  const name =
    readName(reader, 'and', 'needle', 'method', 'cast', 'co', 'with', 'using', 'join') ?? '';
  if (reader.take('needle')) return { needle: name };
  if (reader.take('method')) return { method: name };
  if (/ ?cast-on$/i.test(name)) return { method: name.replace(/ ?cast-on$/i, '') };
  return name === '' ? {} : { yarn: name.replace(/^(?:yarn|colou?r) (?=\S)/i, '') };
}

const SHORT_YARN = /^(?:MC|CC\d?|C\d|[A-F])$/;

/** Whether a further mean follows: `with CC and smaller needles`. */
function takesMean(reader: Reader): boolean {
  const took = reader.attempt(() => {
    if (!reader.take(', and', ',', 'and')) return undefined;
    const position = reader.position;
    const mean = readMean(reader);
    const given =
      mean.needle ?? mean.method ?? (SHORT_YARN.test(mean.yarn ?? '') ? mean.yarn : undefined);
    reader.back(position);
    return given === undefined ? undefined : true;
  });
  return took === true;
}

/** cast on = [ means, "," ], "cast on", sized, "sts", [ means ]; */
export function readCastOnSentence(reader: Reader): Of<'castOn'> | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    const before = readMeans(reader);
    reader.take(',');
    if (!reader.take(...CAST_ON)) return undefined;
    const count = readSized(reader, '“cast on”');
    if (!count) return undefined;
    reader.take('sts');
    const loosely = reader.is('loosely') ? readName(reader, 'and', 'using', 'with') : undefined;
    const means = {
      ...before,
      ...(loosely !== undefined && { method: loosely }),
      ...readMeans(reader),
    };
    return { kind: 'castOn', count, ...means, span: reader.spanFrom(position) };
  });
}

const ROUND = [
  'join to work in round', 'join for working in round', 'join in round', 'join and work in round', 'join work in round',
  'join to form round', 'join for round', 'join into round', 'join in ring', 'join in rounds', 'join to knit in round', 'work in round', 'join , and work in round', 'join work into round', 'join round',
]; // prettier-ignore
const CAREFUL = [
  'being careful not to twist sts', 'being careful not to twist', 'taking care not to twist sts', 'taking care not to twist',
  'without twisting sts', 'without twisting', 'careful not to twist sts', 'careful not to twist', 'making sure not to twist sts',
]; // prettier-ignore
const FLAT = [
  'work back and forth in row', 'work back and forth', 'work flat', 'cont back and forth in row', 'cont back and forth',
  'cont work back and forth in row', 'work in row', 'cont in row',
]; // prettier-ignore

/** join = [ "place marker and" ], "join to work in the round", [ "being careful not to twist" ] | "work back and forth"; */
export function readJoin(reader: Reader): Of<'join'> | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    if (reader.take(...FLAT)) {
      return { kind: 'join', form: 'flat', placeMarker: false, span: reader.spanFrom(position) };
    }
    let placeMarker = takeMarker(reader);
    if (placeMarker) reader.skip(',', 'and');
    if (!reader.take(...ROUND) && !takeBareJoin(reader)) return undefined;
    reader.attempt(() => (reader.take(','), reader.take(...CAREFUL) ? true : undefined));
    placeMarker ||= reader.attempt(() => takeMarkerAfter(reader)) === true;
    return { kind: 'join', form: 'round', placeMarker, span: reader.spanFrom(position) };
  });
}

/** Whether a round is joined here, at the end of a row. */
export const isJoin = (reader: Reader): boolean =>
  reader.is('join in', 'join to', 'join and', 'join for', 'join round', 'join ,', 'join .') ||
  (reader.is('join') && reader.peek(1).text === '');

/** `Join, being careful not to twist.` */
const takeBareJoin = (reader: Reader): boolean =>
  reader.attempt(() =>
    reader.take('join') && (reader.is(',', '.', 'and', 'being', 'taking') || reader.done)
      ? true
      : undefined,
  ) === true;

function takeMarker(reader: Reader): boolean {
  return reader.attempt(() => {
    const marker = readMarker(reader);
    return marker?.act === 'place' ? true : undefined;
  }) === true; // prettier-ignore
}

function takeMarkerAfter(reader: Reader): true | undefined {
  reader.take(',', ';');
  reader.take('and');
  return takeMarker(reader) ? true : undefined;
}

/** facing = "with", ( "RS" | "WS" ), "facing"; */
export function readFacing(reader: Reader): Side | undefined {
  return reader.attempt(() => {
    if (!reader.take('with')) return undefined;
    const side = reader.take('RS', 'right side')
      ? 'RS'
      : reader.take('WS', 'wrong side')
        ? 'WS'
        : undefined;
    reader.take('of work', 'of piece');
    return reader.take('facing') ? side : undefined;
  });
}

/** needle = "change to", name, "needles" | "with", name, "needles"; */
export function readNeedle(reader: Reader): Of<'needle'> | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    if (!reader.take('change to', 'switch to', 'with', 'using')) return undefined;
    const needle = readName(reader, 'needle', 'and');
    if (needle === undefined || !reader.take('needle')) return undefined;
    return { kind: 'needle', needle, span: reader.spanFrom(position) };
  });
}

const YARN_ACTS = [
  ['break', ['break off', 'break', 'fasten off']],
  ['join', ['join new', 'join']],
  ['change', ['change to', 'switch to', 'change', 'switch']],
] as const;

/** yarn = ( "join" | "break" | "change to" ), [ name | "yarn" ] | "fasten off"; */
export function readYarnSentence(reader: Reader): Of<'yarn'> | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    const act = YARN_ACTS.find(([, phrases]) => reader.take(...phrases))?.[0];
    if (!act) return undefined;
    const plain = reader.take('yarn', 'off yarn');
    const yarn = plain ? undefined : readName(reader, 'and', 'to', 'with', 'then');
    reader.attempt(() =>
      reader.take('to rem sts', 'to sts', 'to held sts', 'leaving long tail', 'leaving tail')
        ? true
        : undefined,
    );
    if (!plain && yarn === undefined && act !== 'break') return undefined;
    if (/ /.test(yarn ?? '') && !/\b(?:yarn|ball|colou?r|strand|skein)\b/i.test(yarn ?? ''))
      return undefined;
    const facing = readFacing(reader);
    if (reader.is('with', 'to')) return undefined;
    const more = { ...(yarn !== undefined && { yarn }), ...(facing && { facing }) };
    return { kind: 'yarn', act, ...more, span: reader.spanFrom(position) };
  });
}

const THROUGH = [
  'draw yarn through',
  'draw through',
  'draw tail through',
  'draw it through',
  'draw end through',
  'draw yarn end through',
  'draw tail twice through',
];
const FASTEN = [
  'fasten off',
  'draw tight',
  'secure',
  'draw up tightly',
  'draw up',
  'draw tightly',
  'draw tight to close',
  'fasten',
  'fasten off securely',
  'draw closed',
];

/** draw through = [ "break yarn" ], "draw through", ( "rem" | "all" | sized ), "sts", { "and fasten off" }; */
export function readDrawThrough(reader: Reader): Of<'drawThrough'> | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    if (reader.take('break off', 'break')) {
      reader.take('yarn');
      reader.take('leaving long tail', 'leaving tail');
      reader.skip(',', 'and', 'then', ';', '.');
    }
    if (!reader.take(...THROUGH)) return undefined;
    reader.take('rem', 'all rem', 'all', 'last');
    const count: Sized | undefined = isSized(reader)
      ? readSized(reader, 'the stitches')
      : undefined;
    reader.take('rem');
    if (!reader.take('sts')) return undefined;
    while (reader.attempt(() => takeFasten(reader))) continue;
    return { kind: 'drawThrough', ...(count && { count }), span: reader.spanFrom(position) };
  });
}

function takeFasten(reader: Reader): true | undefined {
  reader.skip(',', 'and', 'then', ';');
  return reader.take(...FASTEN) ? true : undefined;
}

export const readHoldSentence = (reader: Reader): Of<'hold'> | undefined => readHold(reader);

/** resume = "return", held, { "and", held }, "to needle"; several holders join in the order named; */
export function readResumeSentence(reader: Reader): Of<'resume'> | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    if (!reader.take('return', 'replace', 'place', 'slip', 'transfer', 'move')) return undefined;
    const first = readHeld(reader);
    if (!first) return undefined;
    const holders = [first.holder];
    while (reader.attempt(() => takeAnd(reader))) {
      const name = readName(reader, 'and', 'to needle', 'on needle');
      if (name !== undefined) holders.push(name);
    }
    if (!reader.take('to needle', 'on needle', 'to left needle', 'to lh needle')) return undefined;
    const { count } = first;
    return { kind: 'resume', holders, ...(count && { count }), span: reader.spanFrom(position) };
  });
}

const takeAnd = (reader: Reader): true | undefined =>
  reader.take(', and', ',', 'and')
    ? (reader.take('held sts of', 'sts from', 'sts of'), true)
    : undefined;

/** mark = "mark this row", [ name ] | "place marker", [ name ]; */
export function readMark(reader: Reader): Of<'mark'> | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    if (
      reader.take(
        'mark this row',
        'mark last row',
        'mark row',
        'place marker at each end of this row',
        'place marker at each end of row',
      )
    ) {
      reader.take('as', 'for');
      const name = readName(reader, 'and');
      return {
        kind: 'mark',
        what: 'row',
        ...(name !== undefined && { name }),
        span: reader.spanFrom(position),
      };
    }
    const marker = readMarker(reader);
    if (marker?.act !== 'place' || !(reader.done || reader.is('.'))) return undefined;
    const { name } = marker;
    return {
      kind: 'mark',
      what: 'here',
      ...(name !== undefined && { name }),
      span: reader.spanFrom(position),
    };
  });
}

const THREE_NEEDLE = [
  'three-needle bind-off',
  'three-needle bind off',
  '3-needle bind-off',
  'three needle bind-off',
  'three needle bind off',
  'three-needle cast-off',
  'three-needle cast off',
  'three needle cast off',
  'three-needle bo',
  '3-needle bo',
  'three needle bo',
];
const GRAFT = ['kitchener sts', 'kitchener', 'grafting', 'graft'];

/** join stitches = "graft", [ sized, "sts of" ], parts | "join", parts, ( "with" | "using" ), method; */
export function readJoinStitches(reader: Reader): Of<'joinStitches'> | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    const graft = reader.take('graft');
    if (!graft && !reader.take('join', 'bind off')) return undefined;
    reader.take('rem');
    const count = isSized(reader) ? readSized(reader, 'the stitches') : undefined;
    if (count) reader.take('sts of', 'sts from', 'sts');
    const parts = readParts(reader);
    reader.take('tog');
    const named = takeMethod(reader);
    const method = named ?? (graft ? 'graft' : undefined);
    if (!method) return undefined;
    return {
      kind: 'joinStitches',
      method,
      parts,
      ...(count && { count }),
      span: reader.spanFrom(position),
    };
  });
}

function readParts(reader: Reader): readonly string[] {
  const parts: string[] = [];
  do {
    const part = readName(reader, 'and', 'with', 'using', 'to', 'tog', 'by');
    if (part !== undefined) parts.push(part);
  } while (reader.take(', and', ',', 'and', 'to'));
  return parts;
}

function takeMethod(reader: Reader): Of<'joinStitches'>['method'] | undefined {
  if (!reader.take('with', 'using', 'by')) return undefined;
  if (reader.peek().value === 3 && reader.peek(1).term === '-') {
    reader.next();
    reader.next();
    if (reader.take('needle bind-off', 'needle bind off', 'needle cast-off', 'needle cast off'))
      return 'three-needle bind-off';
  }
  if (reader.take(...THREE_NEEDLE)) return 'three-needle bind-off';
  return reader.take(...GRAFT) ? 'graft' : undefined;
}

/** prose = "see", '"', key, '"'; */
export function readProse(reader: Reader): Of<'prose'> | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    if (!reader.take('see')) return undefined;
    if (!reader.take('"', '“')) return undefined;
    const start = reader.position;
    while (!reader.done && !reader.is('"', '”')) reader.next();
    const key = reader.textFrom(start);
    if (reader.position === start || !reader.take('"', '”')) return undefined;
    return { kind: 'prose', key, span: reader.spanFrom(position) };
  });
}
