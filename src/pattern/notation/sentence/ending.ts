/**
 * Sentences by which stitches leave the needle or wait: drawn through, joined, grafted, held and
 * returned; marks, and a text of the bundle shown here.
 */
import type { Sentence } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from '../text/reader.ts';
import { readHeld, readHold } from '../row/holders.ts';
import { readMarker } from '../row/marker.ts';
import { readName } from '../text/name.ts';
import { isSized, readSized } from '../text/size-values.ts';

type Of<Kind extends Sentence['kind']> = Extract<Sentence, { kind: Kind }>;

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

/**
 * @rule draw through = [ "break yarn" ], "draw through", ( "rem" | sized ), "sts", { "and
 *   fasten off" };
 */
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

/** @rule resume line = "return", held, { "and", name }, "to needle"; */
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

/** @rule mark = "mark this row", [ name ] | "place marker", [ name ]; */
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

/**
 * @rule join stitches = "graft", [ sized, "sts of" ], parts | "join", [ sized, "sts of" ],
 *   parts, "with three-needle bind-off";
 */
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

/** @rule parts = name, { "and", name }; */
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

/** @rule prose = "see", quotation mark, word, quotation mark; */
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
