/**
 * Sentences that set up what follows: casting on with its yarn, needle and method, joining in the round,
 * the side that faces, change of needles or yarn.
 */
import type { Sentence, Side } from '../ast.ts';
import type { Reader } from '../text/reader.ts';
import { CAST_ON } from '../row/edges.ts';
import { readMarker } from '../row/marker.ts';
import { readName } from '../text/name.ts';
import { readSized } from '../text/size-values.ts';

type Of<Kind extends Sentence['kind']> = Extract<Sentence, { kind: Kind }>;

interface Means {
  readonly yarn?: string;
  readonly needle?: string;
  readonly method?: string;
}

/** @rule means = ( "with" | "using" ), mean, { "and", mean }; */
function readMeans(reader: Reader): Means {
  let means: Means = {};
  while (reader.take('with', 'using', 'and with', 'and using', ', with', ', using')) {
    do means = { ...means, ...readMean(reader) };
    while (takesMean(reader));
  }
  return means;
}

/** @rule mean = name, "needles" | name, "method" | name; */
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

/** @rule cast on line = [ means, "," ], "cast on", sized, "sts", [ means ]; */
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

/**
 * @rule join = [ "place marker and" ], "join to work in the round", [ "being careful not to
 *   twist" ] | "work back and forth";
 */
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

/** @rule facing = "with", ( "RS" | "WS" ), "facing"; */
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

/** @rule needle = ( "change to" | "with" ), name, "needles"; */
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

/** @rule yarn line = ( "join" | "break" | "change to" ), [ name ], [ facing ] | "fasten off"; */
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
