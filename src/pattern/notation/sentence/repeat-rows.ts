/**
 * Rows worked again: `Rep Rows 1–4 six more times`, `Rep last 2 rows until piece measures 14 in`, `Work
 * Rows 1–24 of Chart A twice`, `As Row 4, but k9 instead of k10`. "Repeat N times" comes on top of the
 * first working; "work rows 1–4 N times" are all.
 */
import type { Extent, Fabric, Sentence } from '../ast.ts';
import type { Reader } from '../text/reader.ts';
import { readActions, sentenceEnds, type Stops } from '../row/actions.ts';
import { readChartName, readFabric } from '../text/fabric.ts';
import { readRanges, readRole } from '../text/ranges.ts';
import { isSized, readSized, sizedAt } from '../text/size-values.ts';
import { isExtent, readExtent } from './extent.ts';

type RepeatRows = Extract<Sentence, { kind: 'repeatRows' }>;
type Swap = NonNullable<RepeatRows['instead']>[number];
type Rows = Pick<RepeatRows, 'rows' | 'unit'>;

const LIKE = ['as', 'work as', 'same as', 'work same as', 'as for', 'work as for'];

/** Whether rows are worked again here. */
export function isRepeatRows(reader: Reader): boolean {
  const position = reader.position;
  const found = reader.attempt(() => {
    takeVerb(reader);
    if (reader.position === position) return undefined;
    return reader.attempt(() => readChartFirst(reader)) ?? readRows(reader);
  });
  if (found) reader.back(position);
  return found !== undefined;
}

/** verb = "rep" | "work" | "as" | "same as"; */
function takeVerb(reader: Reader): 'more' | 'total' | undefined {
  if (reader.take(...LIKE)) return 'total';
  if (reader.take('rep')) {
    reader.take('from');
    return 'more';
  }
  return reader.take('work', 'k', 'cont to rep', 'cont rep') ? 'total' : undefined;
}

/**
 * @rule repeat rows = ( "rep" | "work" | "as" ), rows again, [ "of", fabric ], [ extent ], [
 *   changing ], [ instead ];
 */
export function readRepeatRows(reader: Reader): Sentence | undefined {
  const position = reader.position;
  const bare = takeVerb(reader) ?? 'total';
  const before = reader.attempt(() => readChartFirst(reader));
  const rows = before?.rows ?? readRows(reader);
  if (!rows) return reader.missing('which rows');
  const of = before ?? (reader.take('of', 'from') ? readFabric(reader, fabricEnds) : undefined);
  const early = readChanging(reader);
  const instead = readInstead(reader);
  if (instead === 'broken') return undefined;
  reader.attempt(() => (reader.take(',') && isExtent(reader) ? true : undefined));
  const extent: Extent | undefined = isExtent(reader) ? readExtent(reader, bare) : { kind: 'once' };
  if (!extent) return undefined;
  const changing = early ?? readChanging(reader);
  const late = instead ?? readInstead(reader);
  if (late === 'broken') return undefined;
  const fabric: Fabric | undefined = of?.fabric;
  return {
    kind: 'repeatRows',
    ...rows,
    ...(fabric !== undefined && { of: fabric }),
    ...(late && { instead: late }),
    ...(changing && { changing }),
    extent,
    span: reader.spanFrom(position),
  };
}

/** `Work Chart B, Rnds 1–12`: the chart before its rows. */
function readChartFirst(reader: Reader): { fabric: Fabric; rows: Rows } | undefined {
  const chart = readChartName(reader);
  if (chart === undefined) return undefined;
  reader.take(',');
  const rows = readRows(reader);
  return rows && 'ranges' in rows.rows ? { fabric: `chart ${chart}`, rows } : undefined;
}

const fabricEnds: Stops = (reader) =>
  sentenceEnds(reader) || reader.is(',', ';', 'and', 'then') || isExtent(reader);

/** @rule rows again = unit, ranges | ( "last" | "these" ), [ sized ], unit | role, unit; */
function readRows(reader: Reader): Rows | undefined {
  const unitOf = (): 'row' | 'round' | undefined =>
    reader.take('row') ? 'row' : reader.take('round') ? 'round' : undefined;
  if (reader.take('last', 'these', 'this', 'previous', 'prev')) {
    const one = sizedAt(1, reader.last.span);
    const last = isSized(reader) ? readSized(reader, '“last”') : one;
    const unit = unitOf();
    return last && unit && { unit, rows: { last } };
  }
  const role = readRole(reader);
  const unit = unitOf();
  if (!unit) return undefined;
  if (role) return { unit, rows: { role } };
  const ranges = isSized(reader) ? readRanges(reader) : undefined;
  return ranges && { unit, rows: { ranges } };
}

/** @rule changing = [ "," ], "having", sized, "st", ( "less" | "more" ), "between decs"; */
function readChanging(reader: Reader): RepeatRows['changing'] {
  return reader.attempt(() => {
    reader.take(',', ';');
    reader.take('always');
    if (!reader.take('having', 'with', 'working')) return undefined;
    const by = isSized(reader) ? readSized(reader, '“having”') : undefined;
    if (!by) return undefined;
    const early = readWay(reader);
    reader.take('k', 'plain');
    if (!reader.take('sts')) return undefined;
    const way = early ?? readWay(reader);
    if (!way || !reader.take('between')) return undefined;
    reader.take('each');
    if (!reader.take('dec', 'inc', 'decreases', 'increases', 'shapings')) return undefined;
    reader.take(
      'each times',
      'every times',
      'on each row',
      'each row',
      'on each round',
      'each round',
    );
    return { by, way };
  });
}

const readWay = (reader: Reader): 'fewer' | 'more' | undefined =>
  reader.take('less', 'fewer') ? 'fewer' : reader.take('more') ? 'more' : undefined;

/** @rule instead = [ "," ], "but", swap, { "and", swap }; */
function readInstead(reader: Reader): RepeatRows['instead'] | 'broken' {
  const begins = reader.attempt(() => {
    reader.take(',', ';');
    return reader.take('but', 'except', 'but work', 'but with') ? true : undefined;
  });
  if (!begins) return undefined;
  reader.take('work', 'with', 'working', ':');
  const first = readSwap(reader);
  if (!first) return 'broken';
  const swaps = [first];
  for (;;) {
    const swap = reader.attempt(() =>
      reader.take(', and', ',', 'and') && !isExtent(reader) ? readSwap(reader) : undefined,
    );
    if (!swap) return swaps;
    swaps.push(swap);
  }
}

/** @rule swap = actions, "instead of", actions; */
function readSwap(reader: Reader): Swap | undefined {
  const now = readActions(reader, (at) => sentenceEnds(at) || at.is('instead', 'for', 'in place'));
  if (!now) return undefined;
  if (!reader.take('instead of', 'in place of', 'for')) return reader.missing('“instead of”');
  const old = readActions(reader, (at) => sentenceEnds(at) || at.is(',', 'and', ';'));
  if (!old) return undefined;
  return now.length > 0 && old.length > 0 ? { old, now } : reader.missing('a stitch');
}
