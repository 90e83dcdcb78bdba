/**
 * What the rest of a shaped row is worked in: `Knit, dec 4 sts evenly`, `Work in rib, inc 1 st each
 * end`. Read only where shaping follows, so that it never claims a row of its own.
 */
import type { Reader } from '../text/reader.ts';
import { isSized } from '../text/size-values.ts';
import type { Stops } from './actions.ts';
import { isGoal } from './goal.ts';
import { readFabric, readKnownFabric, takeEstablished, type FabricRead } from '../text/fabric.ts';

const STITCHES: Readonly<Record<string, string>> = { k: 'k', knit: 'k', p: 'p', purl: 'p' };
const ONE_ROW = ['across row', 'across', '1 row', '1 round', 'next row', 'next round', 'one row', 'one round', 'row', 'round']; // prettier-ignore

/**
 * @rule worked in = ( "knit" | "purl" | "work", [ "in" ], fabric | known fabric ), ( "," |
 *   "and" );
 */
export function readWorkedIn(reader: Reader): FabricRead | undefined {
  return reader.attempt(() => {
    const found = readWorking(reader);
    if (!found) return undefined;
    reader.take(...ONE_ROW);
    reader.take('even');
    if (!reader.take(', and', ', while', ',', 'and', 'while')) return undefined;
    return reader.is('inc', 'dec') ? found : undefined;
  });
}

function readWorking(reader: Reader): FabricRead | undefined {
  const stitch = STITCHES[reader.peek().term];
  if (stitch !== undefined) {
    reader.next();
    return { fabric: stitch };
  }
  if (!reader.take('work', 'cont')) return readKnownFabric(reader);
  reader.take('to work', 'work');
  reader.take('even', 'straight', '1 row', 'one row', 'next row');
  if (takeEstablished(reader) || reader.is(',')) return {};
  if (!reader.take('in')) return readKnownFabric(reader);
  return readFabric(reader, ends);
}

/** A number or a goal makes it a stretch of the row, which is read elsewhere. */
const ends: Stops = (reader) =>
  reader.done || isGoal(reader) || isSized(reader) ||
  reader.is(',', '.', ';', 'and', 'while', ')', ']', 'over', 'for'); // prettier-ignore
