/**
 * A number that the pattern has not yet: named in the address of the page of its rule, reckoned there like
 * any other, and added to the file with the rule when somebody agrees. Takes the query and the bundle's
 * data; gives the number and the edits of the file.
 */
import { Fault } from '../../base/fault.ts';
import { pointerTo } from '../../base/span.ts';
import type { JsonChange } from '../../pattern/bundle/edit.ts';
import { type BundleData, type NumberData, slug } from '../../pattern/bundle/schema.ts';
import type { Chosen } from '../../pattern/grading/rules/choose.ts';

export const NUMBER_UNITS: readonly NumberData['unit'][] = ['sts', 'rows', 'times', 'in', 'cm'];

/** As `name` of a number may be. */
export const MOST_NAME_LETTERS = 60;

/** Undefined where the address asks for none, or for one that is there. Throws a `Fault` for no name. */
export function newNumberIn(query: URLSearchParams, data: BundleData): NumberData | undefined {
  const unit = NUMBER_UNITS.find((each) => each === query.get('unit'));
  const id = (query.get('number') ?? '').trim();
  if (!unit || (data.numbers ?? []).some((each) => each.id === id)) return undefined;
  if (!slug.safeParse(id).success)
    throw new Fault('input', `a number cannot be called “${id}” in a rule`, {
      remedy: 'go back and write small letters, digits and single hyphens, such as brim-sts',
    });
  const name = (query.get('called') ?? '').trim().slice(0, MOST_NAME_LETTERS);
  return { id, ...(name !== '' && { name }), unit };
}

export const withNumber = (data: BundleData, number: NumberData): BundleData => ({
  ...data,
  numbers: [...(data.numbers ?? []), number],
});

/** `before`: the data without the number. Its value stays open, so that the rule fills it. */
export function editsWithNumber(
  before: BundleData,
  number: NumberData,
  { edits }: Chosen,
  rule: string,
): readonly JsonChange[] {
  const { numbers } = before;
  const { id, name, unit } = number;
  const own = `${pointerTo('', 'numbers', numbers?.length ?? 0)}/`;
  const value = { id, ...(name !== undefined && { name }), unit, rule };
  const added: JsonChange = numbers
    ? { pointer: '/numbers/-', value }
    : { pointer: '/numbers', value: [value], after: 'measurements' };
  return [added, ...edits.filter(({ pointer }) => !pointer.startsWith(own))];
}
