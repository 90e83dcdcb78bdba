/**
 * The count a line states after its instruction: `84 (92, 100) sts.`, `(49 sts)`, `20 sts rem`,
 * `8 sts increased; 96 sts`, `14 sts each shoulder`. Reads nothing unless it is the whole of it.
 */
import type { Stated } from '../ast.ts';
import type { Sized } from '../../bundle/size-list.ts';
import type { Reader } from './reader.ts';
import { CLOSING, isSized, readSized } from './size-values.ts';
import { readName } from './name.ts';

/** @rule stated = [ "–" ], count, [ ";", count ] | "(", count, [ ";", count ], ")"; */
export function readStated(reader: Reader): Stated | undefined {
  return reader.attempt(() => {
    const position = reader.position;
    reader.take('.', ',', ';', ':');
    if (!isSized(reader)) reader.take('–', '—', '-', '=');
    const close = CLOSING[reader.peek().term];
    if (close !== undefined) reader.next();
    const first = readCount(reader);
    if (!first) return undefined;
    const second = reader.attempt(() =>
      reader.take(';', ',', '–', '—') ? readCount(reader) : undefined,
    );
    if (close !== undefined && !reader.take(close)) return undefined;
    reader.take('.', '!');
    return joined(first, second, reader.spanFrom(position));
  });
}

/** Whether all that is left is the stated count. */
export function isStatedNext(reader: Reader): boolean {
  const position = reader.position;
  const stated = reader.attempt(() => {
    const found = readStated(reader);
    return found && reader.done ? found : undefined;
  });
  if (stated) reader.back(position);
  return stated !== undefined;
}

interface Count {
  readonly count: Sized;
  readonly change?: 'increased' | 'decreased';
  readonly part?: string;
}

/** @rule count = sized, "sts", [ "rem" | "increased" | "decreased" | name ]; */
function readCount(reader: Reader): Count | undefined {
  reader.take('there are', 'there will be', 'you have', 'you should have', 'total of', 'now');
  if (!isSized(reader)) return undefined;
  const count = readSized(reader, 'a count');
  if (!count || !reader.take('sts')) return undefined;
  const change = reader.take('increased', 'inc', 'more') ? 'increased'
    : reader.take('decreased', 'dec', 'fewer', 'less') ? 'decreased' : undefined; // prettier-ignore
  if (change) return { count, change };
  reader.take(
    'rem on needle',
    'rem',
    'left on needle',
    'left',
    'on needle',
    'total',
    'in total',
    'in all',
    'now on needle',
  );
  reader.take('on needle');
  const part = reader.is('each', 'for', 'at', 'on', 'in', 'per') ? readName(reader) : undefined;
  return { count, ...(part !== undefined && { part }) };
}

function joined(first: Count, second: Count | undefined, span: Stated['span']): Stated | undefined {
  if (!second) return { ...first, span };
  const [change, total] = first.change === undefined ? [second, first] : [first, second];
  if (change.change === undefined || total.change !== undefined) return undefined;
  return { count: change.count, change: change.change, total: total.count, span };
}
