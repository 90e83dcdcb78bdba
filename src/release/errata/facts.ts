/**
 * Changes outside the instructions: measurements, gauges, yarns, needles, notions and charts. Takes two
 * checked patterns, gives what each printed before and prints now, with the sizes it concerns.
 */
import {
  chartText,
  type Language,
  type LengthOver,
  type Names,
  namesFor,
  plainText,
  sayBall,
  sayCentimetres,
  sayChartName,
  sayFibres,
  sayGauge,
  sayGrams,
  sayInches,
  sayName,
  sayNeedleLine,
  sayNotion,
  sayNumber,
  sayText,
  text,
} from '../../language/index.ts';
import type { BundleData, SizedData } from '../../pattern/bundle/schema.ts';
import { sizedOf } from '../../pattern/bundle/size-list.ts';
import { readSized, sizedValue } from '../../pattern/bundle/sized-data.ts';
import type { Chart, CheckedPattern } from '../../pattern/pattern.ts';
import { catalogueFor } from '../../pattern/stitches/index.ts';

export type FactKind =
  'body' | 'measurement' | 'gauge' | 'yarn' | 'needles' | 'notions' | 'chart'; // prettier-ignore

export interface FactChange {
  readonly kind: FactKind;
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

type Facts = Map<string, Printed>;

function factsOf(checked: CheckedPattern, language: Language): ReadonlyMap<string, Printed> {
  const facts: Facts = new Map();
  const names = namesFor(checked, language);
  putLengths(facts, checked, names, language);
  putMaterials(facts, checked, names, language);
  for (const gauge of names.data.gauges) {
    const said = plainText(sayGauge(language, names, gauge));
    facts.set(`gauge ${gauge.id}`, { kind: 'gauge', name: '', bySize: same(checked, said) });
  }
  for (const [id, chart] of checked.pattern.charts) {
    const name = sayChartName(language, names, id);
    readRows(checked, chart, language, names).forEach((said, index) =>
      facts.set(`chart ${id} ${index}`, { kind: 'chart', name, bySize: same(checked, said) }),
    );
  }
  return facts;
}

const same = (checked: CheckedPattern, said: string): ReadonlyMap<string, string> =>
  new Map(checked.pattern.sizes.map((size) => [size, said]));

function putLengths(
  facts: Facts,
  { pattern: { sizes } }: CheckedPattern,
  names: Names,
  language: Language,
): void {
  const bySize = (size: Length) =>
    new Map(sizes.map((name, index) => [name, sayBoth(language, size, index)]));
  for (const { part, size } of names.data.body) {
    const name = text(language, `body.${part}`);
    facts.set(`body ${part}`, { kind: 'body', name, bySize: bySize(size) });
  }
  for (const each of names.data.measurements) {
    const name = sayName(language, names, 'measurement', each.name);
    facts.set(`measurement ${each.id}`, { kind: 'measurement', name, bySize: bySize(each.size) });
  }
}

function putMaterials(
  facts: Facts,
  checked: CheckedPattern,
  names: Names,
  language: Language,
): void {
  const { yarns, needles, notions } = names.data;
  for (const yarn of yarns) {
    const said = plainText(
      sayText(language, 'yarn.line', {
        name: yarn.name,
        weight: text(language, `yarnWeight.${yarn.weight}`),
        fibres: sayFibres(language, names, yarn),
        ball: sayBall(language, yarn),
      }),
    );
    facts.set(`yarn ${yarn.id}`, { kind: 'yarn', name: '', bySize: same(checked, said) });
    for (const colour of yarn.colours) {
      const bySize = amountsBySize(language, checked.pattern.sizes, colour);
      const name = `${yarn.name}, ${colour.name}`;
      facts.set(`yarn ${yarn.id} ${colour.id}`, { kind: 'yarn', name, bySize });
    }
  }
  for (const needle of needles) {
    const length = needle.length && lengthOver(needle.length);
    const said = plainText(sayNeedleLine(language, names, needle, length));
    facts.set(`needle ${needle.id}`, { kind: 'needles', name: '', bySize: same(checked, said) });
  }
  notions.forEach((notion, index) => {
    const count = notion.count === undefined ? undefined : readSized(notion.count);
    const length = notion.size && lengthOver(notion.size);
    const bySize = new Map(
      checked.pattern.sizes.map((size, at) => [
        size,
        plainText(sayNotion(language, notion, count, length, at)),
      ]),
    );
    facts.set(`notion ${notion.kind} ${index}`, { kind: 'notions', name: '', bySize });
  });
}

type Length = BundleData['measurements'][number]['size'];

function lengthOver({ in: inches, cm }: Length): LengthOver {
  const [a, b] = [inches, cm].map((each) => (each === undefined ? undefined : readSized(each)));
  return { ...(a && { inches: a }), ...(b && { centimetres: b }) };
}

function sayBoth(language: Language, { in: inches, cm }: Length, size: number): string {
  const one = (data: SizedData | undefined) => sizedValue(data, size) ?? undefined;
  const [a, b] = [one(inches), one(cm)];
  return [
    ...(a === undefined ? [] : [plainText(sayInches(language, sizedOf(a)))]),
    ...(b === undefined ? [] : [plainText(sayCentimetres(language, sizedOf(b)))]),
  ].join(' / ');
}

/** `2 balls, 100 g`; empty where the bundle states no amount. */
function amountsBySize(
  language: Language,
  sizes: readonly string[],
  {
    balls,
    grams,
  }: { readonly balls?: SizedData | undefined; readonly grams?: SizedData | undefined },
): ReadonlyMap<string, string> {
  return new Map(
    sizes.map((size, index) => {
      const [count, weight] = [sizedValue(balls, index), sizedValue(grams, index)];
      const said = [
        ...(typeof count === 'number'
          ? [text(language, 'yarn.balls', { n: sayNumber(language, sizedOf(count)) }, { count })]
          : []),
        ...(typeof weight === 'number' ? [plainText(sayGrams(language, sizedOf(weight)))] : []),
      ];
      return [size, said.join(language.settings.separators.list)];
    }),
  );
}

/** Every row as it is read out: "Round 4: 3 over 3 right cross, purl 2." */
function readRows(
  checked: CheckedPattern,
  chart: Chart,
  language: Language,
  names: Names,
): readonly string[] {
  const catalogue = catalogueFor(checked.pattern.bundle.data.stitches);
  const otherSide = (stitch: string): string => catalogue.lookup(stitch)?.otherSide ?? stitch;
  return chartText(language, chart, otherSide, names);
}
