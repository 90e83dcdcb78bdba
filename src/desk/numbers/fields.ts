/**
 * The values of the grading table as fields to correct. Takes the files as they lie there and what came
 * back from a change that was refused; gives for a number of the pattern the fields it has.
 */
import { followPointer } from '../../base/span.ts';
import { PATTERN_FILE } from '../../pattern/bundle/load.ts';
import type { BundleFiles } from '../../pattern/bundle/unpack.ts';
import { fieldText } from '../../shelf/changes.ts';
import { tagOf } from '../../shelf/shelf.ts';
import { type FieldView, fieldView, type Typed } from '../field.ts';

/** `names` of values below a place of the pattern; those that are not there have no field. */
export type Fields = (pointer: string, names: readonly string[]) => readonly FieldView[];

export function fieldsIn(texts: BundleFiles, typed: Typed | undefined): Fields {
  const bytes = texts.get(PATTERN_FILE) ?? new Uint8Array();
  const root: unknown = JSON.parse(new TextDecoder().decode(bytes));
  const tag = tagOf(bytes);
  return (place, names) =>
    names.flatMap((name) => {
      const pointer = `${place}/${name}`;
      const value = fieldText(followPointer(root, pointer));
      if (value === undefined) return [];
      const id = `change${pointer.replaceAll('/', '-')}`;
      return [fieldView({ id, name, file: PATTERN_FILE, pointer, value, tag }, typed)];
    });
}
