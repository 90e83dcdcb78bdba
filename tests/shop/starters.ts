/** Starters opened for the rooms after the press: checked, with languages, templates and fonts. */
import { loadBundle } from '../../src/pattern/bundle/load.ts';
import { unpackBundle } from '../../src/pattern/bundle/unpack.ts';
import { checkPattern } from '../../src/pattern/checks/index.ts';
import type { Bundle, CheckedPattern } from '../../src/pattern/pattern.ts';
import { type Equipment, openEquipment } from '../../src/pipeline/rooms.ts';
import type { EditionOrder } from '../../src/press/edition/order.ts';

let opened: Promise<Equipment> | undefined;
export const equipment = (): Promise<Equipment> => (opened ??= openEquipment({ root: '.' }));

export async function bundleOf(name: string): Promise<Bundle> {
  const { bundle } = loadBundle(await unpackBundle(`templates/starters/${name}`));
  if (!bundle) throw new Error(`${name} cannot be read`);
  return bundle;
}

export const starter = async (name: string): Promise<CheckedPattern> =>
  checkPattern(await bundleOf(name));

export async function editionOf(checked: CheckedPattern, tag: string): Promise<EditionOrder> {
  const { languages } = await equipment();
  return { checked, language: languages.get(tag)!, kind: 'standard', pictures: new Map() };
}
