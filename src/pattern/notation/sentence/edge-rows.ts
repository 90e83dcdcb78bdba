/**
 * Stitches bound off or cast on at the edge over the next rows: `Bind off 4 (5, 6) sts at beg of next 2
 * rows, 3 sts at beg of foll 4 rows`. Each amount gives one sentence.
 */
import type { Sentence } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from '../text/reader.ts';
import { BIND_OFF, CAST_ON } from '../row/edges.ts';
import { isSized, readSized, sizedAt } from '../text/size-values.ts';

type EdgeRows = Extract<Sentence, { kind: 'edgeRows' }>;

/** @rule edge rows = ( "bind off" | "cast on" ), edge, { [ "," ], [ "then" ], edge }; */
export function readEdgeRows(reader: Reader): readonly Sentence[] | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    const act = reader.take(...BIND_OFF)
      ? 'bindOff'
      : reader.take(...CAST_ON)
        ? 'castOn'
        : undefined;
    const first = act && readEdge(reader, act, position);
    if (!first) return undefined;
    const sentences = [first];
    for (;;) {
      const next = reader.attempt(() => {
        reader.take(',', ';');
        reader.take('and then', 'then', 'and');
        const start = reader.position;
        reader.take(...(act === 'bindOff' ? BIND_OFF : CAST_ON));
        return readEdge(reader, act, start);
      });
      if (!next) return sentences;
      sentences.push(next);
    }
  });
}

/** @rule edge = sized, "sts at", ( "beg" | "end" ), "of next", [ sized ], unit; */
function readEdge(reader: Reader, act: EdgeRows['act'], position: number): EdgeRows | undefined {
  if (!isSized(reader)) return undefined;
  const count = readSized(reader, 'the edge');
  reader.take('sts');
  reader.take('in patt');
  if (!count || !reader.take('at')) return undefined;
  const at = reader.take('beg') ? 'beginning' : reader.take('end') ? 'end' : undefined;
  const rows = at && reader.take('of') ? readRows(reader) : undefined;
  if (!at || !rows) return undefined;
  return { kind: 'edgeRows', act, count, at, rows, span: reader.spanFrom(position) };
}

function readRows(reader: Reader): Sized | undefined {
  const span = reader.peek().span;
  if (reader.take('this and next row', 'this row and next row')) return sizedAt(2, span);
  if (!reader.take('next', 'foll', 'each of next', 'this')) return undefined;
  const rows = isSized(reader) ? readSized(reader, '“next”') : sizedAt(1, span);
  return rows && reader.take('row', 'round') ? rows : undefined;
}
