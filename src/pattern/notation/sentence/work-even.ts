/**
 * Stretches without shaping: `Work even in seed st for 12 rows`, `Knit 3 rows`, `Work 5 rows even`, `St
 * st until piece measures 9 in`. Where no length is said, the fabric is what each labelled row does.
 */
import type { Extent, Fabric, Sentence } from '../ast.ts';
import type { Reader } from '../text/reader.ts';
import type { Stops } from '../row/actions.ts';
import { sentenceEnds } from '../row/actions.ts';
import {
  readAsTheyFace,
  readFabric,
  readKnownFabric,
  takeEstablished,
  type FabricRead,
} from '../text/fabric.ts';
import { isSized, readSized, sizedAt } from '../text/size-values.ts';
import { isShortYarn } from '../row/yarn.ts';
import { isLength, readLength } from '../text/length.ts';
import { isExtent, readEnding, readExtent } from './extent.ts';

type WorkEven = Extract<Sentence, { kind: 'workEven' }>;

const STITCHES: Readonly<Record<string, Fabric>> = { k: 'k', knit: 'k', p: 'p', purl: 'p' };

/** Words after a comma that begin a further sentence, and so end the designer's own words. */
const STARTS = [
  'dec', 'inc', 'at', 'rep', 'bind', 'cast', 'bo', 'co', 'place', 'pm', 'join', 'change', 'break', 'work',
  'cont', 'leave', 'then', 'and', 'end', 'ending', 'with', 'shape', 'turn', 'AT', 'while', 'k', 'p',
]; // prettier-ignore

/** Where the words of a fabric end. A comma inside them (`k2, p2 rib`) goes on. */
const fabricEnds: Stops = (reader) =>
  sentenceEnds(reader) || reader.is(';') || reader.is('to') || isExtent(reader) ||
  (reader.is(',') && [...STARTS, 'beg', 'starting'].includes(reader.peek(1).term)) || reader.is('and', 'then', 'even'); // prettier-ignore

/**
 * @rule work even = [ beginning ], ( counted rows | measured stretch | even stretch | known
 *   fabric, [ extent ] ), [ beginning ];
 */
export function readWorkEven(reader: Reader): WorkEven | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    const before = readBeginning(reader);
    if (before) reader.take(',');
    const read =
      reader.attempt(() => readCountedRows(reader)) ??
      reader.attempt(() => readMeasured(reader)) ??
      reader.attempt(() => readStretch(reader)) ??
      reader.attempt(() => readBareFabric(reader));
    const beginning = before ?? (read && readBeginning(reader));
    return read && { ...read, ...(beginning && { beginning }), span: reader.spanFrom(position) };
  });
}

/** @rule beginning = [ "," ], "beg with", ( ( "k" | "p" | "RS" | "WS" ), "row" | unit, sized ); */
function readBeginning(reader: Reader): WorkEven['beginning'] {
  return reader.attempt(() => {
    reader.take(',');
    if (!reader.take('beg with', 'starting with', 'beg on', 'starting on')) return undefined;
    const stitch = STITCHES[reader.peek().term];
    if (stitch !== undefined) {
      reader.next();
      return reader.take('row', 'round') ? { stitch } : undefined;
    }
    const side = reader.take('RS') ? 'RS' : reader.take('WS') ? 'WS' : undefined;
    if (side) return reader.take('row') ? { side } : undefined;
    if (!reader.take('row', 'round') || !isSized(reader)) return undefined;
    const row = readSized(reader, 'the row');
    return row && { row };
  });
}

/**
 * `Knit 3 rows`, `Work 5 more rows even in rib`.
 * @rule counted rows = ( "knit" | "purl" | "work" ), sized, unit, [ "even" ], [ even in ];
 */
function readCountedRows(reader: Reader): WorkEven | undefined {
  const position = reader.position;
  const stitch = STITCHES[reader.peek().term];
  if (!stitch && !reader.is('work', 'cont')) return undefined;
  reader.next();
  const one = reader.take('another', 'next') && reader.is('row', 'round');
  if (!one && !isSized(reader)) return undefined;
  const count = one ? sizedAt(1, reader.last.span) : readSized(reader, 'the rows');
  reader.take('more');
  const unit = readUnit(reader);
  if (!count || !unit) return undefined;
  const early = readEven(reader);
  const found = stitch === undefined ? readIn(reader) : {};
  if (!found) return undefined;
  if (!early) readEven(reader);
  const fabric = stitch ?? found.fabric;
  return built(reader, position, unit, fabric, { kind: 'rows', count, ...readEnding(reader) });
}

/**
 * `Work 10 cm in rib`, `Knit 4 in`.
 * @rule measured stretch = ( "knit" | "purl" | "work" ), length, [ even in ], [ ending row ];
 */
function readMeasured(reader: Reader): WorkEven | undefined {
  const position = reader.position;
  const stitch = STITCHES[reader.peek().term];
  if (!stitch && !reader.is('work', 'cont')) return undefined;
  reader.next();
  if (!isLength(reader)) return undefined;
  const length = readLength(reader);
  if (!length) return undefined;
  const found = stitch === undefined ? readIn(reader) : {};
  if (!found) return undefined;
  const extent = { kind: 'length', length, from: 'here', ...readEnding(reader) } as const;
  return built(reader, position, 'row', stitch ?? found.fabric, extent);
}

const readUnit = (reader: Reader): 'row' | 'round' | undefined =>
  reader.take('row') ? 'row' : reader.take('round') ? 'round' : undefined;

const readEven = (reader: Reader): boolean =>
  reader.take('even', 'straight', 'without shaping', 'plain');

/**
 * Nothing where the sentence ends.
 * @rule even in = "in", fabric | known fabric | as established | as they face;
 */
function readIn(reader: Reader): FabricRead | undefined {
  if (takeEstablished(reader)) return {};
  if (isShortYarn(reader)) return {};
  const in_ = reader.take('in', 'of');
  if (reader.is('patt') && takeEstablished(reader)) return {};
  if (!in_ && (fabricEnds(reader) || reader.is(','))) return {};
  const known = readAsTheyFace(reader);
  if (known) return known;
  return in_ ? readFabric(reader, fabricEnds) : readKnownFabric(reader);
}

/**
 * `Work even in seed st for 12 rows`, `Cont as established until …`, `Knit until piece measures …`.
 * @rule even stretch = ( "knit" | "purl" | "work" ), [ "even" ], [ even in ], [ extent ];
 */
function readStretch(reader: Reader): WorkEven | undefined {
  const position = reader.position;
  const stitch = STITCHES[reader.peek().term];
  if (stitch === undefined && !reader.is('work', 'cont')) return undefined;
  reader.next();
  reader.take('to work', 'work', 'working');
  const even = readEven(reader);
  const every = reader.take('every row', 'each row', 'all row') ? 'row'
    : reader.take('every round', 'each round', 'all round') ? 'round' : undefined; // prettier-ignore
  const found = stitch === undefined ? readIn(reader) : {};
  if (!found) return undefined;
  const late = readEven(reader);
  const fabric = stitch ?? found.fabric;
  const chart = fabric?.startsWith('chart ') === true;
  if (chart && !reader.is('until', 'for')) return undefined;
  if (isExtent(reader)) return readWithExtent(reader, position, fabric, every);
  const plain =
    stitch === undefined && (even || late || fabric !== undefined || reader.last.term === 'patt');
  if (!plain || !endsHere(reader)) return undefined;
  return built(reader, position, every ?? 'row', fabric, { kind: 'once' });
}

const endsHere = (reader: Reader): boolean =>
  sentenceEnds(reader) || reader.is(',', ';', 'and', 'then');

function readWithExtent(
  reader: Reader,
  position: number,
  fabric: Fabric | undefined,
  every: 'row' | 'round' | undefined,
): WorkEven | undefined {
  const extent = readExtent(reader, 'total');
  if (!extent || extent.kind === 'count' && fabric !== undefined && ['k', 'p'].includes(fabric)) return undefined; // prettier-ignore
  const unit = every ?? (extent.kind === 'rows' && reader.last.term === 'round' ? 'round' : 'row');
  return built(reader, position, unit, fabric, extent);
}

/** `St st for 6 rows.`, `Garter st.`: the fabric alone. */
function readBareFabric(reader: Reader): WorkEven | undefined {
  const position = reader.position;
  const found = readKnownFabric(reader);
  if (!found || found.fabric?.startsWith('chart ')) return undefined;
  reader.take(',');
  if (isExtent(reader)) return readWithExtent(reader, position, found.fabric, undefined);
  return sentenceEnds(reader)
    ? built(reader, position, 'row', found.fabric, { kind: 'once' })
    : undefined;
}

function built(
  reader: Reader,
  position: number,
  unit: 'row' | 'round',
  fabric: Fabric | undefined,
  extent: Extent,
): WorkEven {
  const rest = fabric === undefined ? {} : { fabric };
  return { kind: 'workEven', unit, ...rest, extent, span: reader.spanFrom(position) };
}
