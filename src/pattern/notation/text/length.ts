/**
 * Fabric lengths as written: `14 in / 35.5 cm`, `14 (14½, 15)" (35.5 (37, 38) cm)`. Both units may
 * stand in either order; neither is derived from the other here.
 */
import type { Length } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from './reader.ts';
import { isSized, readSized } from './size-values.ts';

interface Measure {
  readonly unit: 'inches' | 'centimetres';
  readonly value: Sized;
}

/** @rule length = measure, [ "/" | "(" | "[" ], [ measure ], [ ")" | "]" ]; */
export function readLength(reader: Reader): Length | undefined {
  const position = reader.position;
  const first = readMeasure(reader);
  if (!first) return undefined;
  const second = reader.attempt(() => readOther(reader));
  return {
    [first.unit]: first.value,
    ...(second && second.unit !== first.unit && { [second.unit]: second.value }),
    span: reader.spanFrom(position),
  };
}

function readOther(reader: Reader): Measure | undefined {
  const open = reader.peek().term;
  const close = open === '(' ? ')' : open === '[' ? ']' : undefined;
  if (close !== undefined) reader.next();
  else reader.take('/', 'or', ',');
  const measure = readMeasure(reader);
  return close === undefined || reader.take(close) ? measure : undefined;
}

/** @rule measure = sized, ( "in" | "cm" ); */
function readMeasure(reader: Reader): Measure | undefined {
  const value = readSized(reader, 'a length', 'fraction');
  if (!value) return undefined;
  if (reader.take('in', 'inches', '"', '″', '”')) return { unit: 'inches', value };
  if (reader.take('cm')) return { unit: 'centimetres', value };
  return reader.missing('the unit (in or cm)');
}

/** Whether a number with a unit stands here. */
export const isLength = (reader: Reader): boolean =>
  isSized(reader) && reader.attempt(() => readLengthAndReturn(reader)) !== undefined;

function readLengthAndReturn(reader: Reader): true | undefined {
  const position = reader.position;
  const length = readLength(reader);
  if (length) reader.back(position);
  return length && true;
}
