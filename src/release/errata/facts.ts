/**
 * Changes outside the instructions: measurements, gauges, yarn amounts and charts. Takes two checked
 * patterns, gives what each printed before and prints now, with the sizes it concerns.
 */
import {
  chartText,
  type Language,
  namesFor,
  plainText,
  sayCentimetres,
  sayChartName,
  sayGauge,
  sayGrams,
  sayInches,
  sayName,
} from '../../language/index.ts';
import type { BundleData, SizedData } from '../../pattern/bundle/schema.ts';
import { sizedOf } from '../../pattern/bundle/size-list.ts';
import { sizedValue } from '../../pattern/bundle/sized-data.ts';
import type { Chart, CheckedPattern } from '../../pattern/pattern.ts';
import { catalogueFor } from '../../pattern/stitches/index.ts';

export interface FactChange {
  readonly kind: 'measurement' | 'gauge' | 'yarn' | 'chart';
  /** What it is: "Depth", "Chart A", "Northfold Ebbtide DK". */
  readonly name: string;
  readonly sizes: readonly number[];
  readonly was: string;
  readonly is: string;
}

/** One printed value by size name, with what it is called. */
interface Printed {
  readonly kind: FactChange['kind'];
  readonly name: string;
  readonly bySize: ReadonlyMap<string, string>;
}

export function compareFacts(
  old: CheckedPattern,
  now: CheckedPattern,
  language: Language,
): readonly FactChange[] {
  const [was, is] = [factsOf(old, language), factsOf(now, language)];
  const ids = [...new Set([...is.keys(), ...was.keys()])];
  return ids.flatMap((id) => factChange(was.get(id), is.get(id), now.pattern.sizes));
}

function factChange(
  was: Printed | undefined,
  is: Printed | undefined,
  names: readonly string[],
): readonly FactChange[] {
  const fact = is ?? was;
  if (!fact) return [];
  const sizes = names.flatMap((size, index) =>
    was?.bySize.get(size) === is?.bySize.get(size) ? [] : [index],
  );
  if (sizes.length === 0) return [];
  const concerned = sizes.map((index) => names[index] ?? '');
  const { kind, name } = fact;
  return [{ kind, name, sizes, was: printed(was, concerned), is: printed(is, concerned) }];
}

/** One value where all concerned sizes share it, else each beside its size. */
function printed(fact: Printed | undefined, sizes: readonly string[]): string {
  const values = sizes.map((size) => fact?.bySize.get(size) ?? '');
  if (new Set(values).size === 1) return values[0] ?? '';
  return sizes.map((size, index) => `${size}: ${values[index]}`).join('; ');
}

function factsOf(checked: CheckedPattern, language: Language): ReadonlyMap<string, Printed> {
  const { data } = checked.pattern.bundle;
  const { sizes } = checked.pattern;
  const facts = new Map<string, Printed>();
  const names = namesFor(checked, language);
  const same = (text: string) => new Map(sizes.map((size) => [size, text]));
  for (const each of data.measurements) {
    const name = sayName(language, names, 'measurement', each.name);
    const bySize = new Map(sizes.map((size, index) => [size, sayBoth(language, each.size, index)]));
    facts.set(`measurement ${each.id}`, { kind: 'measurement', name, bySize });
  }
  for (const gauge of data.gauges) {
    const said = plainText(sayGauge(language, names, gauge));
    facts.set(`gauge ${gauge.id}`, { kind: 'gauge', name: gauge.id, bySize: same(said) });
  }
  for (const yarn of data.yarns)
    for (const colour of yarn.colours) {
      if (colour.grams === undefined) continue;
      const bySize = gramsBySize(language, sizes, colour.grams);
      const name = `${yarn.name}, ${colour.name}`;
      facts.set(`yarn ${yarn.id} ${colour.id}`, { kind: 'yarn', name, bySize });
    }
  for (const [id, chart] of checked.pattern.charts) {
    const name = sayChartName(language, names, id);
    readRows(checked, chart, language).forEach((said, index) =>
      facts.set(`chart ${id} ${index}`, { kind: 'chart', name, bySize: same(said) }),
    );
  }
  return facts;
}

function sayBoth(
  language: Language,
  { in: inches, cm }: BundleData['measurements'][number]['size'],
  size: number,
): string {
  const one = (data: SizedData | undefined) => sizedValue(data, size) ?? undefined;
  const [a, b] = [one(inches), one(cm)];
  return [
    ...(a === undefined ? [] : [plainText(sayInches(language, sizedOf(a)))]),
    ...(b === undefined ? [] : [plainText(sayCentimetres(language, sizedOf(b)))]),
  ].join(' / ');
}

function gramsBySize(language: Language, sizes: readonly string[], grams: SizedData) {
  return new Map(
    sizes.map((size, index) => {
      const value = sizedValue(grams, index) ?? null;
      return [size, plainText(sayGrams(language, sizedOf(value)))];
    }),
  );
}

/** Every row as it is read out: "Round 4: 3 over 3 right cross, purl 2." */
function readRows(checked: CheckedPattern, chart: Chart, language: Language): readonly string[] {
  const catalogue = catalogueFor(checked.pattern.bundle.data.stitches);
  return chartText(language, chart, (stitch) => catalogue.lookup(stitch)?.otherSide ?? stitch);
}
