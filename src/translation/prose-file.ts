/**
 * The bytes of a prose file. Takes the file as it is and what it is to say; gives its new text, in which
 * everything that did not change stays letter for letter. The record of sources stands last, a line for
 * each text, so that a version history shows which text was tied anew.
 */
import { Fault } from '../base/fault.ts';
import { canonicalJson } from '../base/hash.ts';
import { pointerTo } from '../base/span.ts';
import { changeJson, type JsonChange } from '../pattern/bundle/edit.ts';
import type { Json } from '../pattern/bundle/json.ts';
import { type ProseData, SOURCE_KEY, type SourceRecord } from '../pattern/bundle/schema.ts';

/** `before`: the file as it is, undefined where there is none. */
export function writeProse(
  before: Uint8Array | undefined,
  prose: ProseData,
  record: SourceRecord,
): Uint8Array {
  const text = before === undefined ? undefined : decode(before);
  const next = text === undefined ? whole(prose, record) : changed(text, prose, record);
  return new TextEncoder().encode(next);
}

function decode(bytes: Uint8Array): string {
  return new TextDecoder('utf-8', { ignoreBOM: true }).decode(bytes);
}

const whole = (prose: ProseData, record: SourceRecord): string => {
  const texts = JSON.stringify(prose, null, 2);
  const [head, tie] = [texts.slice(0, -2), `"${SOURCE_KEY}": ${recordText(record)}`];
  return Object.keys(prose).length === 0 ? `{\n  ${tie}\n}\n` : `${head},\n  ${tie}\n}\n`;
};

/** One change at a time: each may add a key that the next one stands behind. */
function changed(text: string, prose: ProseData, record: SourceRecord): string {
  const mark = text.startsWith('\ufeff') ? '\ufeff' : '';
  const bare = text.slice(mark.length);
  const now = JSON.parse(bare) as Json;
  if (typeof now !== 'object' || now === null || Array.isArray(now))
    throw new Fault('input', 'the prose file is no record of texts');
  const keys = Object.keys(prose);
  const changes: JsonChange[] = keys
    .filter((key) => canonicalJson(now[key]) !== canonicalJson(prose[key]))
    .map((key) => {
      const after = keys[keys.indexOf(key) - 1];
      const value = prose[key] ?? '';
      const written = Array.isArray(value) ? paragraphsText(value) : JSON.stringify(value);
      return { pointer: pointerTo('', key), value, written, ...(after !== undefined && { after }) };
    });
  const tie = { pointer: `/${SOURCE_KEY}`, value: record, written: recordText(record) };
  return mark + [...changes, tie].reduce((so, change) => changeJson(so, [change]), bare);
}

const paragraphsText = (list: readonly string[]): string =>
  list.length === 0 ? '[]' : `[\n${list.map((each) => `    ${JSON.stringify(each)}`).join(',\n')}\n  ]`; // prettier-ignore

const recordText = (record: SourceRecord): string => {
  const lines = Object.entries(record).map(
    ([key, value]) =>
      `    ${JSON.stringify(key)}: ${JSON.stringify(value).replaceAll('","', '", "')}`,
  );
  return lines.length === 0 ? '{}' : `{\n${lines.join(',\n')}\n  }`;
};
