/**
 * Texts of a language tied to the source as it stands: what the designer vouches for when she says that both
 * say the same. Takes the files of a bundle; gives the prose file with its record, and the texts whose
 * record changes, beside their source, to be read before anything is written.
 */
import { Fault } from '../../base/fault.ts';
import { proseFile } from '../../pattern/bundle/load.ts';
import type { ProseData, SourceRecord } from '../../pattern/bundle/schema.ts';
import type { BundleFiles } from '../../pattern/bundle/unpack.ts';
import { recordFor, writeProse } from '../../translation/index.ts';
import { readable } from './papers.ts';

export interface Tied {
  readonly file: string;
  readonly before: Uint8Array;
  readonly after: Uint8Array;
  readonly pairs: readonly { readonly source: string; readonly text: string }[];
}

export function tieTexts(files: BundleFiles, tag: string): Tied {
  const bundle = readable(files, [tag]);
  const source = bundle.prose.get(bundle.data.language) ?? {};
  const prose = bundle.prose.get(tag);
  const before = files.get(proseFile(tag));
  if (!prose || !before || tag === bundle.data.language)
    throw new Fault('missing', `there is no translation into ${tag}`, { place: tag });
  const record = recordFor(source, prose);
  const pairs = changedKeys(record, bundle.sources?.get(tag)).map((key) => ({
    source: textOf(source[key]),
    text: textOf(prose[key]),
  }));
  return { file: proseFile(tag), before, after: writeProse(before, prose, record), pairs };
}

const changedKeys = (now: SourceRecord, before: SourceRecord = {}): readonly string[] =>
  Object.keys(now).filter((key) => JSON.stringify(now[key]) !== JSON.stringify(before[key]));

/** Letters of a text that are shown: enough to know it by. */
const SHOWN_LETTERS = 200;

function textOf(value: ProseData[string] | undefined): string {
  const text = Array.isArray(value) ? value.join(' ') : String(value ?? '');
  return text.length > SHOWN_LETTERS ? `${text.slice(0, SHOWN_LETTERS)}…` : text;
}
